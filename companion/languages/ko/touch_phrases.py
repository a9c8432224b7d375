"""Korean for who sees nothing: by touch and ear."""

from __future__ import annotations

from typing import Literal

from companion import sky
from companion.equipment import CompassKind
from companion.languages.ko.centring_phrases import key_label
from companion.languages.ko.direction_words import compass_point, fists
from companion.languages.ko.number_words import place
from companion.languages.ko.pose_phrases import compass_shown
from companion.languages.ko.sight_words import it_is, with_copula
from companion.languages.ko.story import story_of_a_target
from companion.languages.phrase import Chapter, Scene
from companion.talk import centring_phrases as centring
from companion.talk import ground_phrases as ground
from companion.talk import night_phrases as night
from companion.talk import packing_phrases as packing
from companion.talk import pose_phrases as pose
from companion.talk import stars_phrases as stars
from companion.talk import targets_phrases as targets
from companion.talk.answers import ArrowByCableAnswer, KeyPlaceAnswer
from companion.talk.settings_phrases import BeforeTheSettings
from companion.talk.sight_phrases import ConfirmKeyAt, NobodyLooks, WhereIsTheConfirmKey, WhichArrowIsByTheCable


def where_the_sun_is(scene: Scene) -> str:
    """Say where the Sun stands, for who can't see it."""
    sun = sky.sight(sky.SUN, scene)
    return f"해는 {compass_point(sun.azimuth_deg)}, {fists(sun.altitude_deg, scene.fist_deg)} 높이에 있어요."


def caps_and_cooling(scene: Scene) -> str:
    """Say what stays capped, and where the Sun is while it is up."""
    if sky.sun_state(scene).is_up:
        return f"{where_the_sun_is(scene)} 제가 말할 때까지 경통과 파인더의 뚜껑을 덮어 두세요. 이슬 후드를 끼우세요. 준비됐어요?"
    return "뚜껑을 벗기고 이슬 후드를 끼우세요. 경통을 삼십 분쯤 식히면 좋아요. 준비됐어요?"


def caps_and_the_sun(scene: Scene) -> str:
    """Say where the Sun is before anything is uncapped."""
    return f"{where_the_sun_is(scene)} 아무도 그쪽을 절대 보지 마세요. 경통을 멀리 돌린 다음 뚜껑을 여세요. 모터로 돌리기 전에는 두 뚜껑을 덮으세요."


def face_true_north(scene: Scene, *, compass: CompassKind | Literal["unknown"] = "unknown") -> str:
    """Have north found with a talking compass and a cord."""
    shown = compass_shown(scene, "card" if compass == "needle" else compass)
    if shown is None:
        return "이제 진북이에요. 그 날짜에는 나침반이 얼마나 어긋나는지 몰라요. 다른 방법을 물어보세요."
    return (
        "이제 진북이에요. 삼각대에 끈을 묶고, 그 끝을 잡고 다섯 걸음 물러서세요. "
        f"끈을 따라 삼각대를 향한 채, 말하는 나침반이 {with_copula(shown)}고 할 때까지 옆으로 도세요. "
        "경통을 끈과 나란히, 서 있던 곳의 반대쪽으로 두세요. 끈은 발에 걸리니 치우세요."
    )


def confirm_star(scene: Scene, *, star: str, key: str | None) -> str:
    """Say that it must be confirmed, by where the key lies."""
    row, in_row = scene.mount.confirm_row, scene.mount.confirm_key_in_row
    if row is None or in_row is None:
        return f"좋아요. {key_label(key)} 키를 누르세요." if key else "좋아요. 조종기에서 확인 키를 누르세요."
    return f"좋아요. 확인하세요. {it_is(_key_at(row, in_row))}"


def confirm_key_at(scene: Scene, *, row: int, key: int) -> str:
    """Confirm where the key that confirms lies."""
    return f"확인 버튼은 {_key_at(row, key)}으로 기억할게요."


def _key_at(row: int, key: int) -> str:
    return f"선에서부터 {place(row)} 줄, {place(key)} 버튼"


def nobody_looks(scene: Scene, *, linked: bool) -> str:
    """Say honestly what can't be done where nobody sees, and what can."""
    return (
        "별을 가운데에 맞추려면 눈이 필요해요. 혼자 보지 않고는 할 수 없어요. "
        "누가 오면 다른 사람이 봐 줘요라고 하고, 준비됐어요라고 하세요. 아니면 건너뛰기라고 하세요. 이야기와 시간은 들을 수 있어요."
    )


TOUCH = Chapter(
    phrases={
        WhichArrowIsByTheCable: "조종기를 들고 화살표 버튼을 찾으세요. 선에 가장 가까운 것은 위, 아래, 왼쪽, 오른쪽 가운데 어느 거예요?",
        WhereIsTheConfirmKey: "선을 앞으로 두고 세어 보세요. 확인 버튼은 몇째 줄 몇째예요? 셋째 줄 둘째 버튼이요처럼 말하세요.",
        ConfirmKeyAt: confirm_key_at,
        NobodyLooks: nobody_looks,
    },
    by_touch={
        ground.LevelTheTripod: "말하는 휴대폰이나 만져지는 수평계를 위에 두 방향으로 놓으세요. 수평이 되면 말하세요.",
        ground.ClampAndBalance: (
            "가장 큰 접안렌즈를 끼우세요. 고정 나사를 풀 때는 항상 경통을 붙잡으세요. 균형을 맞추고 고정 나사를 조이세요. 준비됐어요?"
        ),
        ground.CapsAndCooling: caps_and_cooling,
        ground.CapsAndTheSun: caps_and_the_sun,
        ground.ShallWeDoTheFinder: (
            "파인더를 맞추려면 눈이 필요해요. 누가 있으면 다른 사람이 봐 줘요, 혼자면 아니요라고 하세요. 맞출까요?"
        ),
        pose.LevelTheBase: (
            "이제 시작 자세예요. 무게 때문에 기울었을 수 있으니 말하는 휴대폰이나 만져지는 수평계를 받침에 놓으세요. "
            "수평이 되면 말해 주세요."
        ),
        pose.LevelAgain: "시작 자세부터 할게요. 말하는 휴대폰이나 만져지는 수평계를 받침에 놓으세요. 수평이 되면 말해 주세요.",
        pose.FaceTrueNorth: face_true_north,
        pose.NorthByLandmark: "방향을 아는 벽이나 길을 따라 경통을 북쪽으로 맞추세요. 맞추면 북쪽 맞췄어요라고 하세요.",
        pose.WhatDoesItRead: "끈을 따라 멀리 물러서서 삼각대를 향하세요. 말하는 나침반이 몇 도라고 해요?",
        pose.TubeLevelAgain: "경통도 말하는 휴대폰이나 만져지는 수평계로 맞추세요. 경통이 수평이 되면 말해 주세요.",
        pose.LevelTheTube: "말하는 휴대폰이나 만져지는 수평계를 경통에 대세요. 경통이 수평이면 말하세요.",
        BeforeTheSettings: "이제 설정이에요. 다른 사람이나 휴대폰이 화면을 읽게 하세요. 넣으면 준비됐어요라고 하세요.",
        stars.WhatDoesTheMountSay: "화면을 읽게 하세요. 정렬을 받아들였어요, 거절했어요, 아니면 별을 더 달라고 해요?",
        centring.ConfirmStar: confirm_star,
        targets.SteerByHand: "오늘 밤은 마운트가 하늘을 몰라요. 하늘에 무엇이 있는지 알려 드릴게요.",
        night.IntroduceTarget: story_of_a_target,
        packing.SearchTheGround: "이제 삼각대가 있던 땅을 손바닥으로 더듬어 뚜껑, 나사, 접안렌즈를 찾으세요. 다 했어요?",
        packing.WhereThingsHide: "먼저 가만히 서세요. 접안렌즈 자리와 주머니를 만져 보고, 발 둘레를 더듬으세요.",
    },
    relayed={ground.CapsAndTheSun: caps_and_the_sun},
    sayable={
        ArrowByCableAnswer: ("아래쪽 화살표요", "모르겠어요"),
        KeyPlaceAnswer: ("셋째 줄 둘째 버튼이요", "모르겠어요"),
    },
    step_help={
        WhichArrowIsByTheCable: "화살표를 자리로 알려 드리려고요. 모르면 모르겠어요라고 하세요.",
        WhereIsTheConfirmKey: "한 번만 물어보고 기억할게요. 모르면 모르겠어요라고 하세요.",
        NobodyLooks: "아이가 봐 줘도 돼요. 아니면 건너뛰기라고 하세요.",
    },
)
