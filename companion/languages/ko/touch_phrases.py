"""Korean for who sees little or nothing: by touch and ear."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from companion import sky
from companion.equipment import CompassKind, LevelAid
from companion.languages.ko.centring_phrases import ARROWS, key_label, press_these_keys
from companion.languages.ko.direction_words import compass_point, fists
from companion.languages.ko.number_words import place
from companion.languages.ko.pose_phrases import compass_shown
from companion.languages.ko.sight_words import it_is, where_to_look, with_copula
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.ko.story import story_of_a_target
from companion.languages.phrase import Chapter, Phrase, Scene, Spoken
from companion.sky import Kind
from companion.talk import centring_phrases as centring
from companion.talk import equipment_phrases as equipment
from companion.talk import ground_phrases as ground
from companion.talk import night_phrases as night
from companion.talk import observation_phrases as observation
from companion.talk import packing_phrases as packing
from companion.talk import pose_phrases as pose
from companion.talk import stars_phrases as stars
from companion.talk import targets_phrases as targets
from companion.talk.answers import (
    ArrowByCableAnswer,
    KeyPlaceAnswer,
    LevelAidAnswer,
)
from companion.talk.centring_phrases import OPPOSITE, ArrowKey
from companion.talk.kinds import BY_EYE, FOR_AN_EYE
from companion.talk.settings_phrases import BeforeTheSettings
from companion.talk.sight_phrases import (
    AidNoted,
    ConfirmKeyAt,
    NobodyLooks,
    WhatTellsYouLevel,
    WhereIsTheConfirmKey,
    WhichArrowIsByTheCable,
)

_LEVELS: Mapping[LevelAid | None, str] = {
    "phone": "말하는 휴대폰을",
    "mark": "만져지는 수평계를",
    "none": "책과 구슬을",
    None: "말하는 휴대폰이나 만져지는 수평계를",
}


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


def level_the_tripod(scene: Scene, *, measures_its_lean: bool = False) -> str:
    """Have the tripod levelled by what there is for it."""
    if scene.level_aid == "none":
        return "위에 단단한 책을 놓고 그 위에 구슬을 놓으세요. 구슬이 가는 쪽이 낮으니 그쪽 다리를 늘리세요. 수평이 되면 말하세요."
    return f"{_LEVELS[scene.level_aid]} 위에 두 방향으로 놓으세요. 수평이 되면 말하세요."


def level_the_base(scene: Scene) -> str:
    """Have the base tried again, now that the weight is on it."""
    aid = _LEVELS[scene.level_aid]
    return f"이제 시작 자세예요. 무게 때문에 기울었을 수 있으니 {aid} 받침에 놓으세요. 수평이 되면 말해 주세요."


def level_again(scene: Scene) -> str:
    """Begin the start position again."""
    return f"시작 자세부터 할게요. {_LEVELS[scene.level_aid]} 받침에 놓으세요. 수평이 되면 말해 주세요."


def level_the_tube(scene: Scene) -> str:
    """Have the tube levelled."""
    return f"{_LEVELS[scene.level_aid]} 경통에 대세요. 경통이 수평이면 말하세요."


def find_it_wide(scene: Scene, *, watch: bool) -> str:
    """Have the star steered into the finder, or made as large as it can be."""
    return (
        "멈추면 별을 파인더 가운데로 옮기세요. 너무 어두우면 저배율 접안렌즈에서 초점을 벗어나게 하세요. 큰 원반이 돼요. "
        "있어요, 아직이에요, 안 보여요?"
    )


def centre_it_wide(scene: Scene, *, star: str, first: bool, last: tuple[ArrowKey, ...]) -> str:
    """Have a disc centred instead of a point."""
    return "이제 저배율 접안렌즈예요. 별이 큰 원반이 될 때까지 초점을 돌리고, 원반을 가운데로 옮기세요. 가운데예요?"


def keys_by_feel(scene: Scene, *, keys: tuple[ArrowKey, ...], last: tuple[ArrowKey, ...]) -> str:
    """Name the keys, and where one of them lies, for who has told once."""
    words, by_cable = press_these_keys(scene, keys=keys, last=last), scene.mount.arrow_by_cable
    if by_cable in keys:
        return f"{words} {ARROWS[by_cable]} 화살표가 선에 가장 가까워요."
    if by_cable is not None and (across := OPPOSITE[by_cable]) in keys:
        return f"{words} {ARROWS[across]} 화살표가 선에서 가장 멀어요."
    return words


def where_it_stands(scene: Scene, *, target: str, kind: Kind) -> str:
    """Say where a target is; nobody looks for it."""
    return f"{it_is(spoken_name(target))} {where_to_look(sky.sight(scene.find(target), scene), scene.fist_deg)}"


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


_BY_TOUCH: Mapping[Spoken, Phrase] = {
    ground.LevelTheTripod: level_the_tripod,
    pose.LevelTheBase: level_the_base,
    pose.LevelAgain: level_again,
    pose.LevelTheTube: level_the_tube,
    pose.TubeLevelAgain: level_the_tube,
    equipment.WhichCompass: "북쪽을 무엇이 말해 줘요? 휴대폰, 말하는 나침반, 아니면 없어요?",
    ground.ClampAndBalance: (
        "가장 큰 접안렌즈를 끼우세요. 고정 나사를 풀 때는 항상 경통을 붙잡으세요. 균형을 맞추고 고정 나사를 조이세요. 준비됐어요?"
    ),
    ground.CapsAndCooling: caps_and_cooling,
    ground.CapsAndTheSun: caps_and_the_sun,
    pose.FaceTrueNorth: face_true_north,
    pose.NorthAgain: "이제 경통을 아까처럼 끈을 따라 북쪽으로 맞추세요. 맞추면 북쪽 맞췄어요라고 하세요.",
    centring.PressTheseKeys: keys_by_feel,
    pose.NorthByLandmark: "방향을 아는 벽이나 길을 따라 경통을 북쪽으로 맞추세요. 맞추면 북쪽 맞췄어요라고 하세요.",
    pose.WhatDoesItRead: "끈을 따라 멀리 물러서서 삼각대를 향하세요. 말하는 나침반이 몇 도라고 해요?",
    BeforeTheSettings: "이제 설정이에요. 다른 사람이나 휴대폰이 화면을 읽게 하세요. 넣으면 준비됐어요라고 하세요.",
    stars.WhatDoesTheMountSay: "화면을 읽게 하세요. 정렬을 받아들였어요, 거절했어요, 아니면 별을 더 달라고 해요?",
    centring.ConfirmStar: confirm_star,
    packing.SearchTheGround: "이제 삼각대가 있던 땅을 손바닥으로 더듬어 뚜껑, 나사, 접안렌즈를 찾으세요. 다 했어요?",
    packing.WhereThingsHide: "먼저 가만히 서세요. 접안렌즈 자리와 주머니를 만져 보고, 발 둘레를 더듬으세요.",
}
"""What takes fine sight, and is done without: for who sees little, too."""
_NOT_ALONE = "그건 눈이 필요해요. 다른 사람이 봐 줘요라고 하거나, 다음이라고 하세요."

TOUCH = Chapter(
    phrases={
        AidNoted: "좋아요. 그걸로 할게요.",
        WhatTellsYouLevel: "수평인지 무엇으로 알아요? 말하는 휴대폰, 만져지는 수평계, 아니면 없어요?",
        WhichArrowIsByTheCable: "조종기를 들고 화살표 버튼을 찾으세요. 선에 가장 가까운 것은 위, 아래, 왼쪽, 오른쪽 가운데 어느 거예요?",
        WhereIsTheConfirmKey: "선을 앞으로 두고 세어 보세요. 확인 버튼은 몇째 줄 몇째예요? 셋째 줄 둘째 버튼이요처럼 말하세요.",
        ConfirmKeyAt: confirm_key_at,
        NobodyLooks: nobody_looks,
    },
    by_touch={
        **_BY_TOUCH,
        ground.ShallWeDoTheFinder: (
            "파인더를 맞추려면 눈이 필요해요. 누가 있으면 다른 사람이 봐 줘요, 혼자면 아니요라고 하세요. 맞출까요?"
        ),
        targets.SteerByHand: "오늘 밤은 마운트가 하늘을 몰라요. 하늘에 무엇이 있는지 알려 드릴게요.",
        night.IntroduceTarget: story_of_a_target,
    },
    where_nobody_sees={
        **dict.fromkeys(FOR_AN_EYE, "여기에는 눈이 필요해요. 다른 사람이 봐 줘요라고 하거나, 건너뛰기라고 하세요."),
        night.FindTarget: where_it_stands,
        night.LookAtIt: "어떻게 보이는지는 들으셨어요. 다음이라고 하거나 이름을 말하세요.",
        observation.HowDidItShow: "본 사람이 있으면, 쉽게, 겨우, 보일 듯 말 듯, 안 보였어요 가운데 어느 거예요? 없으면 건너뛰기라고 하세요.",
        **dict.fromkeys(BY_EYE, _NOT_ALONE),
    },
    in_poor_sight={**_BY_TOUCH, centring.IsItInTheFinder: find_it_wide, centring.IsItCentred: centre_it_wide},
    relayed={ground.CapsAndTheSun: caps_and_the_sun},
    sayable={
        LevelAidAnswer: ("말하는 휴대폰이요", "만져지는 수평계요", "없어요"),
        ArrowByCableAnswer: ("아래쪽 화살표요", "모르겠어요"),
        KeyPlaceAnswer: ("셋째 줄 둘째 버튼이요", "모르겠어요"),
    },
    step_help={
        WhatTellsYouLevel: "한 번만 물어보고 기억할게요. 둘 다 없으면 없어요라고 하세요.",
        WhichArrowIsByTheCable: "화살표를 자리로 알려 드리려고요. 모르면 모르겠어요라고 하세요.",
        WhereIsTheConfirmKey: "한 번만 물어보고 기억할게요. 모르면 모르겠어요라고 하세요.",
        NobodyLooks: "아이가 봐 줘도 돼요. 아니면 건너뛰기라고 하세요.",
    },
    help_by_touch={
        ground.LevelTheTripod: "수평이면 넘어지지 않고 정확해요. 낮은 쪽 다리를 늘리세요.",
        pose.LevelTheBase: "삼각대 다리나 머리의 나사로 맞추세요.",
        pose.SwitchOn: "플러그를 꽂고 스위치를 누른 다음 소리를 들어 보세요. 다른 사람이 봐 줘도 돼요.",
        pose.SayWhenItIsOn: "소리가 나는지 들어 보거나 다른 사람이 보게 하세요.",
    },
)
