"""Korean for who sees nothing: by touch and ear."""

from __future__ import annotations

from companion import sky
from companion.languages.ko.direction_words import compass_point, fists
from companion.languages.ko.number_words import place
from companion.languages.ko.story import story_of_a_target
from companion.languages.phrase import Chapter, Scene
from companion.talk import ground_phrases as ground
from companion.talk import night_phrases as night
from companion.talk import pose_phrases as pose
from companion.talk import stars_phrases as stars
from companion.talk.answers import ArrowByCableAnswer, KeyPlaceAnswer
from companion.talk.settings_phrases import BeforeTheSettings
from companion.talk.sight_phrases import ConfirmKeyAt, NobodyLooks, WhereIsTheConfirmKey, WhichArrowIsByTheCable


def where_the_sun_is(scene: Scene) -> str:
    """Say where the Sun stands, for who can't see it."""
    sun = sky.sight(sky.SUN, scene)
    return f"해는 {compass_point(sun.azimuth_deg)}, {fists(sun.altitude_deg, scene.fist_deg)} 높이에 있어요."


def caps_and_the_sun(scene: Scene) -> str:
    """Say where the Sun is before anything is uncapped."""
    return f"{where_the_sun_is(scene)} 아무도 그쪽을 보지 마세요. 경통을 멀리 돌린 다음 뚜껑을 여세요."


def confirm_key_at(scene: Scene, *, row: int, key: int) -> str:
    """Confirm where the key that confirms lies."""
    return f"확인 버튼은 선에서부터 {place(row)} 줄, {place(key)} 버튼으로 기억할게요."


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
        ground.CapsAndTheSun: caps_and_the_sun,
        pose.LevelTheTube: "말하는 휴대폰이나 만져지는 수평계를 경통에 대세요. 경통이 수평이면 말하세요.",
        BeforeTheSettings: "이제 설정이에요. 다른 사람이나 휴대폰이 화면을 읽게 하세요. 넣으면 준비됐어요라고 하세요.",
        stars.WhatDoesTheMountSay: "화면을 읽게 하세요. 정렬을 받아들였어요, 거절했어요, 아니면 별을 더 달라고 해요?",
        night.IntroduceTarget: story_of_a_target,
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
