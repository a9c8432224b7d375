"""Korean for two, for all that the first chapter doesn't hold: who does what is said before the usual words, or in place of them."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Literal

from companion import sky
from companion.diagnosis import About
from companion.equipment import CompassKind, StarChoice
from companion.languages.ko import ground_phrases, mistakes_phrases, stars_phrases
from companion.languages.ko.by_hand_phrases import BY_HAND
from companion.languages.ko.centring_phrases import CENTRING
from companion.languages.ko.ground_phrases import GROUND
from companion.languages.ko.mistakes_phrases import MISTAKES
from companion.languages.ko.mount_phrases import MOUNT
from companion.languages.ko.night_phrases import NIGHT
from companion.languages.ko.pose_phrases import POSE
from companion.languages.ko.settings_phrases import SETTINGS
from companion.languages.ko.stars_phrases import STARS
from companion.languages.ko.targets_phrases import TARGETS
from companion.languages.ko.touch_phrases import where_the_sun_is
from companion.languages.ko.turning_phrases import TURNING
from companion.languages.phrase import Chapter, Phrase, Scene, Spoken, joined
from companion.talk import by_hand_phrases as by_hand
from companion.talk import centring_phrases as centring
from companion.talk import equipment_phrases as equipment
from companion.talk import ground_phrases as ground
from companion.talk import mistakes_phrases as mistakes
from companion.talk import mount_phrases as mount
from companion.talk import night_phrases as night
from companion.talk import observation_phrases as observation
from companion.talk import packing_phrases as packing
from companion.talk import pose_phrases as pose
from companion.talk import settings_phrases as settings
from companion.talk import stars_phrases as stars
from companion.talk import targets_phrases as targets
from companion.talk import turning_phrases as turning

_USUAL = joined(GROUND, POSE, SETTINGS, STARS, CENTRING, MISTAKES, TARGETS, NIGHT, BY_HAND, MOUNT, TURNING).phrases
_BY_HANDS = ("clamps", "tube_gives", "base_level")
_BY_BOTH = ("facing", "tube_level", "soft_ground", "knocked")
"""What either of them knows."""


def _before(whom: str | Callable[[Scene], str], kind: Spoken) -> Phrase:
    """Return the usual words of a sentence with who does what before them."""
    words = _USUAL[kind]
    if isinstance(words, str):
        return f"{whom}{words}" if isinstance(whom, str) else lambda scene: f"{whom(scene)}{words}"

    @wraps(words)
    def told(scene: Scene, **facts: object) -> str:
        return f"{whom if isinstance(whom, str) else whom(scene)}{words(scene, **facts)}"

    return told


def both_clear(scene: Scene) -> str:
    """Have both of them out of the tube's way, the child held."""
    return f"{_held(scene)}둘 다 경통 길이보다 멀리 물러서세요. "


def _held(scene: Scene) -> str:
    return "아이 손을 잡고 " if scene.eyes == "child" else ""


def caps_and_cooling(scene: Scene) -> str:
    """Say what stays capped, and where the Sun is while it is up."""
    where = f"{where_the_sun_is(scene)} " if sky.sun_state(scene).is_up else ""
    return f"{where}{ground_phrases.caps_and_cooling(scene)}"


def switch_on(scene: Scene) -> str:
    """Warn of what may move, and have both of them clear of it."""
    return (
        f"움직일 수 있어요. {_held(scene)}둘 다 경통과 팔에서 물러서세요. 저는 세울 수 없고, 조종기나 스위치로만 서요. "
        "가정용 전기는 누전 차단기로만 쓰고, 플러그를 젖은 풀에 두지 마세요. 이제 켜세요. 켜지면 말해 주세요."
    )


def before_the_stars(scene: Scene, *, choice: StarChoice) -> str:
    """Say how the stars are chosen, and the caution for both."""
    sun = "아무도 해를 보지 마세요. " if sky.sun_state(scene).is_up else ""
    return f"둘 다 들으세요. {sun}{stars_phrases.before_the_stars(scene, choice=choice)}"


def check_this(scene: Scene, *, about: About, star: str, instead: str | None, compass: CompassKind | Literal["unknown"]) -> str:
    """Put what is looked at to eyes, what is felt to hands."""
    question = mistakes_phrases.check_this(scene, about=about, star=star, instead=instead, compass=compass)
    return question if about in _BY_BOTH else f"{'손' if about in _BY_HANDS else '눈'}, {question}"


RELAY_LATER = Chapter(
    phrases={},
    relayed={
        ground.PickAFarMark: _before("눈, ", ground.PickAFarMark),
        ground.ShallWeDoTheFinder: "눈과 손이 함께 해요. 옆에 달린 작은 조준기, 파인더를 경통에 맞출까요?",
        ground.CentreTheMark: ("눈, 접안렌즈를 보세요. 손, 가운데에 올 때까지 경통을 움직이고 나사를 조이세요. 준비됐어요?"),
        ground.TurnTheFinderScrews: (
            "이제 경통은 그대로 두세요. 눈, 파인더에서 몇 시 방향인지 말하세요. 손, 표시에 올 때까지 파인더 나사를 돌리세요. 준비됐어요?"
        ),
        ground.CheckAtHigherPower: ("손, 더 높은 배율 접안렌즈로 바꾸고 가운데에 맞추세요. 눈, 파인더를 보세요. 아직 맞아요?"),
        ground.PickAMarkAfterDark: _before("눈이 찾고 손이 경통을 돌려요. ", ground.PickAMarkAfterDark),
        ground.CapsAndCooling: caps_and_cooling,
        pose.LevelAgain: "시작 자세부터 할게요. 눈, 받침의 기포를 보세요. 수평이 되면 말하세요.",
        pose.FaceTrueNorth: _before("눈이 나침반을 보고 손이 경통을 돌려요. ", pose.FaceTrueNorth),
        pose.NorthByLandmark: (
            "눈, 지도에서 정북에 있는 언덕이나 철탑을 찾으세요. 손, 경통을 그쪽으로 돌리세요. 맞추면 북쪽 맞췄어요라고 하세요."
        ),
        pose.NorthByAMark: _before("눈이 찾고 손이 경통을 돌려요. ", pose.NorthByAMark),
        pose.WhatDoesItRead: "눈, 마운트 뒤로 멀리 물러서서 경통을 따라 보세요. 나침반이 몇 도를 가리켜요?",
        pose.TubeLevelAgain: "손, 수평계를 경통에 다시 대세요. 눈, 어느 쪽을 올릴지 말하세요. 경통이 수평이면 말하세요.",
        pose.SwitchOn: switch_on,
        settings.BeforeTheSettings: (
            "이제 설정이에요. 눈, 화면을 한 줄씩 읽으세요. 손, 제 말대로 넣고 준비됐어요라고 하세요. "
            "다른 것을 물으면 시간대를 물어요처럼 말해 주세요."
        ),
        stars.BeforeTheStars: before_the_stars,
        stars.FirstStar: _before("눈, 찾아보세요. ", stars.FirstStar),
        stars.AnotherStar: _before("눈, 찾아보세요. ", stars.AnotherStar),
        stars.FindStar: _before("눈, 경통을 따라 보세요. ", stars.FindStar),
        centring.SteerToTheFinder: (
            "눈, 경통을 따라 보고 별이 어느 쪽인지 말하세요. 손, 화살표로 움직이세요. 눈, 들어왔어요, 아직이에요, 아니면 안 보여요?"
        ),
        centring.SteerItThere: "잘못된 게 아니에요. 손, 화살표로 움직이세요. 눈, 가운데에 있으면 네, 아니면 몇 시 방향인지 말하세요.",
        centring.WhatDoYouSee: "눈, 대신 무엇이 보여요? 새까매요, 흐릿해요, 다른 별, 구름, 나무, 아니면 점이 없어요?",
        centring.CapsAndDew: (
            "손, 뚜껑이 둘 다 벗겨졌는지 만져 보세요. 이슬은 따뜻한 바람으로 말리고, 절대 닦지 마세요. 눈, 이제 파인더에 들어왔어요?"
        ),
        centring.SwitchTheDotOn: ("손, 파인더의 작은 손잡이를 돌리세요. 그래도 꺼져 있으면 배터리가 다 된 거예요. 눈, 별이 점에 있어요?"),
        centring.SweepForIt: "눈, 저배율 접안렌즈를 보세요. 손, 네모를 넓혀 가며 조금씩 도세요. 눈, 이제 들어왔어요?",
        centring.SeeTheFinderIsTrue: _before("손이 움직이고 눈이 봐요. ", centring.SeeTheFinderIsTrue),
        centring.BringItToFocus: "손, 초점 손잡이를 끝까지 천천히 돌리세요. 눈, 가장 작을 때 말하세요. 눈, 이제 들어왔어요?",
        centring.WasItRising: "눈, 멈출 때 경통이 올라가고 있었어요, 내려가고 있었어요?",
        centring.AndToWhichSide: "눈, 그리고 뒤에서 볼 때 오른쪽으로 돌았어요, 왼쪽으로 돌았어요?",
        centring.TheSkyDarkens: "십 분만 기다리세요. 하늘이 빠르게 어두워져요. 눈, 파인더에 들어오면 말해 주세요.",
        centring.BackToTheFinder: _before("눈은 다시 파인더, 손은 화살표예요. ", centring.BackToTheFinder),
        centring.FocusTheEyepiece: "손, 눈이 작은 점을 볼 때까지 초점 손잡이를 돌리세요.",
        centring.PressTheseKeys: _before("손, ", centring.PressTheseKeys),
        targets.ProofStar: _before("손, 보내세요. ", targets.ProofStar),
        targets.LookLowerPower: "눈, 먼저 파인더, 그다음 저배율 접안렌즈를 보세요.",
        targets.SweepRound: "손, 있어야 할 곳에서 네모를 넓혀 가며 조금씩 도세요.",
        targets.SteerByHand: "오늘 밤은 마운트가 하늘을 몰라요. 눈이 어디인지 말하고, 손이 화살표로 움직여요.",
        targets.IsTheBubbleCentred: "눈, 받침의 기포를 보세요. 아직 가운데에 있어요?",
        targets.IsItGoodAgain: "손, 아까 보던 것으로 가세요. 눈, 접안렌즈에 들어왔어요?",
        targets.SweepForThat: (
            "손, 네모를 넓혀 가며 도세요. 눈, 저배율 접안렌즈를 보세요. 가운데에 오면 준비됐어요, 안 되면 다른 별로 해 주세요라고 하세요."
        ),
        targets.ReCentreAndSync: (
            "눈, 가운데에 올 때까지 몇 시 방향인지 말하세요. 손, 그다음 동기화하세요. 준비됐어요, 또는 동기화가 안 돼요라고 하세요."
        ),
        targets.NearlyProven: _before("눈이 보고 손이 움직여요. ", targets.NearlyProven),
        mistakes.WhichWayAndHowFar: _before("눈, 경통 뒤에 서세요. ", mistakes.WhichWayAndHowFar),
        mistakes.WhereWasTheLastStar: _before("눈, ", mistakes.WhereWasTheLastStar),
        mistakes.CheckThis: check_this,
        mistakes.IsItsTimeRight: _before("눈, ", mistakes.IsItsTimeRight),
        mistakes.MendThese: _before("눈은 화면과 기포와 나침반을 보고, 손이 고쳐요. ", mistakes.MendThese),
        mount.ItSaysItTurns: "연결로는 아직 돌고 있대요. 눈, 한 번 더 보세요. 멈춰 서 있어요?",
        mount.DoesItStandStill: "연결로는 아직 돌고 있대요. 눈, 정말 멈춰 서 있어요?",
        mount.MayITurnThere: _before(both_clear, mount.MayITurnThere),
        mount.IsItReallyThat: _before("눈, 다시 보세요. ", mount.IsItReallyThat),
        turning.ShallITurnThere: _before(both_clear, turning.ShallITurnThere),
        turning.ShallITurnThereToo: _before(both_clear, turning.ShallITurnThereToo),
        turning.ItPointsThere: _before("눈, 저배율 접안렌즈를 보세요. ", turning.ItPointsThere),
        night.LookAtIt: _before("눈, 접안렌즈를 보세요. ", night.LookAtIt),
        night.SweepForIt: "손, 나선을 넓혀 가며 천천히 도세요. 눈, 들어오면 찾았어요라고 하세요.",
        night.LookBeside: "눈, 잠시 머리를 덮어 빛을 가리세요. 그다음 그 자리의 조금 옆을 보세요.",
        night.LookForDew: "손, 이슬이 맺혔는지 만져 보세요. 눈, 앞 유리를 손전등으로 비스듬히 비추면 보여요.",
        night.HowDoesTheMilkyWayShow: "눈, 머리 위의 은하수가 어떻게 보여요? 잘 보여요, 희미해요, 겨우 보여요, 아니면 전혀 안 보여요?",
        night.HowManyStarsInside: _before("눈, 위를 보세요. ", night.HowManyStarsInside),
        by_hand.StartByHand: _before("손이 경통을 움직이고 눈이 방향을 말해요. ", by_hand.StartByHand),
        by_hand.StepByEye: _before("손이 경통을 움직이고 눈이 방향을 말해요. ", by_hand.StepByEye),
        by_hand.StepByFinder: _before("눈은 파인더를 계속 보세요. ", by_hand.StepByFinder),
        by_hand.BackToTheStarBefore: "그럼 한 단계 뒤로요. 눈, 앞의 별을 한 번 더 가운데에 두세요. 찾았어요, 또는 안 보여요라고 하세요.",
        equipment.WhichEyepiece: "이제 눈을 대는 작은 렌즈, 접안렌즈예요. 눈, 몇 밀리미터라고 적혀 있어요?",
        observation.HowDidItShow: "눈, 얼마나 잘 보였어요? 잘 보였어요, 겨우 보였어요, 보인 듯해요, 아니면 전혀 안 보였어요?",
        observation.WhichEyepieceWasIn: "눈, 쓰신 접안렌즈가 몇 밀리미터예요?",
        observation.HowDidItLook: (
            "눈, 어떻게 보였는지 한마디로 말하세요. 둥글어요, 길쭉해요, 뿌예요처럼요. 아니면 그게 다예요라고 하세요."
        ),
        observation.HowSteadyIsTheAir: "눈, 공기가 얼마나 잔잔해요? 일에서 오까지, 오가 가장 잔잔해요.",
        observation.HowClearIsTheAir: "눈, 하늘이 얼마나 맑아요? 일에서 오까지, 오가 가장 맑아요.",
        packing.ParkIt: (
            "정리할게요. 둘 다 경통과 팔에서 한 걸음 물러서세요. 손, 마운트를 보관 자세로 보내세요. 멈춰 서면 다 했어요라고 하세요."
        ),
        packing.CablesIn: "무엇이든 옮기기 전에 전선이에요. 둘 다 발에 걸려요. 손, 감으세요. 다 했어요?",
        packing.TakeItDown: (
            "눈, 경통에서 떨어져 길을 비추세요. 손, 고정 나사를 풀기 전에 경통을 붙잡으세요. 무거워요. "
            "아주 추우면 찬 쇠에 데니 장갑을 끼고, 무릎을 굽혀 드세요. 다 했어요?"
        ),
        packing.WhereThingsHide: "둘 다 먼저 가만히 서세요. 눈, 손전등으로 접안렌즈 자리와 발 둘레를 보세요. 손, 주머니예요.",
        packing.SearchTheGround: "눈, 밝은 손전등으로 삼각대 자리를 살피세요. 뚜껑, 나사, 접안렌즈를 찾으세요. 다 했어요?",
        settings.KeyTheDate: _before("눈이 읽고 손이 넣어요. ", settings.KeyTheDate),
        settings.KeyTheTime: _before("눈이 읽고 손이 넣어요. ", settings.KeyTheTime),
        settings.KeyDaylightSaving: _before("눈이 읽고 손이 넣어요. ", settings.KeyDaylightSaving),
        settings.KeyTheZone: _before("눈이 읽고 손이 넣어요. ", settings.KeyTheZone),
        settings.KeyTheLatitude: _before("눈이 읽고 손이 넣어요. ", settings.KeyTheLatitude),
        settings.KeyTheLongitude: _before("눈이 읽고 손이 넣어요. ", settings.KeyTheLongitude),
        settings.KeyTheElevation: _before("눈이 읽고 손이 넣어요. ", settings.KeyTheElevation),
        settings.PickACity: _before("눈이 읽고 손이 넣어요. ", settings.PickACity),
    },
    relayed_tersely={
        settings.BeforeTheSettings: "이제 설정이에요. 눈이 읽고 손이 넣어요.",
        **{kind: words for kind, words in SETTINGS.terse.items() if kind is not settings.BeforeTheSettings},
    },
)
