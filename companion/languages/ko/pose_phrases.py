"""Korean for the starting pose and the power: level, true north, tube level, switch on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from companion import places
from companion.equipment import CompassKind
from companion.languages.ko.direction_words import degrees
from companion.languages.ko.north_words import north_by_a_mark, north_by_the_pole, north_by_the_shadow, north_by_the_sunset
from companion.languages.ko.number_words import digits
from companion.languages.ko.sight_words import direct
from companion.languages.phrase import Chapter, Scene
from companion.talk import pose_phrases as say
from companion.talk.answers import BearingAnswer, LevelAnswer, NorthAnswer, PowerAnswer, TubeAnswer

_COMPASSES: Mapping[str, str] = {"true": "나침반이", "card": "나침반이", "unknown": "자석 나침반이", "none": "자석 나침반이"}


def compass_shown(scene: Scene, compass: CompassKind | Literal["unknown"]) -> str | None:
    """Return what a compass shows when it faces true north, digit by digit; None where its error isn't known."""
    heading_deg = places.compass_heading(scene, compass)
    return None if heading_deg is None else digits(heading_deg, 3)


def face_true_north(scene: Scene, *, compass: CompassKind | Literal["unknown"] = "unknown") -> str:
    """Turn the declination into what to do with the compass at hand."""
    declination_deg, shown = places.declination(scene).declination_deg, compass_shown(scene, compass)
    if declination_deg is None or shown is None:
        return "이제 진북이에요. 그 날짜에는 나침반이 얼마나 어긋나는지 몰라요. 다른 방법을 물어보세요."
    if compass == "needle":
        how = f"평평하게 들고, 바늘의 북쪽 끝이 {shown} 위에 올 때까지 돌리세요. 눈금 영 너머의 먼 목표물을 찾으세요."
    else:
        how = f"{_COMPASSES[compass]} {direct(shown)} 가리키는 쪽의 먼 목표물을 찾으세요."
    come_back = "돌아와서 경통을 그쪽으로 돌리세요. 몇 도쯤 어긋나도 괜찮아요."
    return f"이제 진북이에요. {_how_far_off(declination_deg, compass)}삼각대와 차에서 멀리 떨어지세요. {how} {come_back}"


def face_true_north_tersely(scene: Scene, *, compass: CompassKind | Literal["unknown"] = "unknown") -> str:
    """Say only what the compass must show, away from the mount."""
    shown = compass_shown(scene, compass)
    if shown is None:
        return "진북은 나침반 없이 찾아야 해요. 다른 방법을 물어보세요."
    if compass == "needle":
        return f"마운트에서 떨어져서, 바늘의 북쪽 끝을 {shown} 위에 두세요. 진북은 눈금 영 쪽이에요. 경통을 그쪽으로 돌리세요."
    return f"마운트에서 떨어져서 보면, 진북은 {_COMPASSES[compass]} {direct(shown)} 가리키는 쪽이에요. 경통을 그쪽으로 돌리세요."


def _how_far_off(declination_deg: float, compass: CompassKind | Literal["unknown"]) -> str:
    """Say on which side of true north a magnet points here, and how far; nothing where the compass allows for it."""
    if compass == "true":
        return ""
    if round(declination_deg) == 0:
        return "여기서는 나침반을 고칠 필요가 없어요. "
    return f"여기서 자석은 진북에서 {'오른쪽' if declination_deg > 0 else '왼쪽'}으로 {degrees(abs(declination_deg))} 어긋나요. "


def turn_by_compass(scene: Scene, *, compass: CompassKind | Literal["unknown"], reads_deg: int) -> str:
    """Say how far to turn from what the compass reads now."""
    off_deg = places.compass_off_deg(scene, compass, reads_deg)
    if off_deg is None:
        return "그 날짜에는 나침반이 얼마나 어긋나는지 몰라요."
    if off_deg == 0:
        return "그 정도면 충분해요."
    return f"경통을 {'왼쪽' if off_deg > 0 else '오른쪽'}으로 {degrees(abs(off_deg))} 돌리세요."


POSE = Chapter(
    phrases={
        say.PoseBeforePowerThen: "그럼 전원을 켜기 전에 수평과 북쪽을 맞출게요.",
        say.LevelTheBase: "이제 시작 자세예요. 무게 때문에 기포가 움직였을 수 있으니 받침의 기포를 보세요. 수평이 되면 말해 주세요.",
        say.FaceTrueNorth: face_true_north,
        say.TurnByCompass: turn_by_compass,
        say.WhatDoesItRead: "마운트 뒤로 멀리 물러서서 경통을 따라 보세요. 나침반이 몇 도를 가리켜요?",
        say.NorthByThePole: north_by_the_pole,
        say.NorthByTheShadow: north_by_the_shadow,
        say.NorthByTheSunset: north_by_the_sunset,
        say.NorthByAMark: north_by_a_mark,
        say.NoOtherWay: (
            "지금 아는 방법은 그게 다예요. 되는 만큼 맞추세요. 주먹 하나쯤 어긋나도 첫 별에서 드러나요. "
            "마지막 방법을 더 들으려면 앞으로 돌아가기라고 하세요."
        ),
        say.NorthByLandmark: "지도에서 정북에 있는 언덕이나 철탑을 골라 경통을 그쪽으로 돌리세요. 맞추면 북쪽 맞췄어요라고 하세요.",
        say.SayFacingNorth: "맞추면 북쪽 맞췄어요라고 하세요.",
        say.LevelTheTube: "수평계를 경통에 대고 수평을 맞추세요. 경통이 수평이 되면 말해 주세요.",
        say.LevelAgain: "시작 자세부터 할게요. 먼저 받침의 기포예요. 수평이 되면 말해 주세요.",
        say.NorthAgain: "이제 아까처럼 경통을 북쪽으로 돌리세요. 맞추면 북쪽 맞췄어요라고 하세요.",
        say.TubeLevelAgain: "경통도 수평으로 맞추세요. 경통이 수평이 되면 말해 주세요.",
        say.LetItFindItsPose: "물러서세요. 이 마운트는 시작 자세를 스스로 찾아요. 그 기능을 시작하세요. 멈춰 서면 준비됐어요라고 하세요.",
        say.SwitchOn: (
            "움직일 수 있으니 경통과 팔에서 손을 떼세요. 저는 세울 수 없고, 조종기나 스위치로만 서요. "
            "가정용 전기는 누전 차단기로만 쓰고, 플러그를 젖은 풀에 두지 마세요. 이제 켜세요. 켜지면 말해 주세요."
        ),
        say.SayWhenItIsOn: "켜지면 말해 주세요.",
        say.NoPower: "플러그 양쪽 끝, 스위치, 배터리 순서로 보세요. 퓨즈가 두 번 끊어지면 밝을 때까지 그냥 두세요.",
        say.ItRestarted: "배터리가 약하거나 플러그가 헐거워요. 먼저 그걸 고치세요. 설정을 잊어버렸거든요.",
    },
    terse={
        say.LevelTheBase: "받침의 기포를 보세요. 수평이 되면 말해 주세요.",
        say.FaceTrueNorth: face_true_north_tersely,
        say.LevelTheTube: "경통이 수평이 되면 말해 주세요.",
        say.SwitchOn: "움직일 수 있고 저는 세울 수 없으니 손을 떼세요. 플러그를 젖은 풀에 두지 마세요. 이제 켜세요.",
    },
    sayable={
        LevelAnswer: ("수평이에요", "준비됐어요"),
        NorthAnswer: ("북쪽 맞췄어요", "다른 방법이요", "숫자를 읽어 줄게요"),
        BearingAnswer: ("삼 오 영", "삼 오 육이에요"),
        TubeAnswer: ("경통이 수평이에요", "준비됐어요"),
        PowerAnswer: ("켜졌어요", "안 켜져요", "꺼졌다 켜졌어요"),
    },
    step_help={
        say.LevelTheBase: "받침의 기포나 두 방향으로 놓은 작은 수평계를 쓰세요. 손가락 하나 기울면 손가락 하나 어긋나요.",
        say.FaceTrueNorth: "바늘의 북쪽이 아니라 진북이에요. 나침반이 없으면 다른 방법이요라고 하세요. 마운트를 억지로 돌리지 마세요.",
        say.SayFacingNorth: "나침반을 못 믿겠으면 다른 방법이요라고 하세요.",
        say.SayWhenItIsOn: "조종기에 불이 들어올 때까지 기다리세요. 계속 꺼져 있으면 안 켜져요라고 하세요.",
        say.NorthByThePole: "하늘은 그 점을 중심으로 돌아서 북쪽을 가장 잘 보여 줘요. 못 찾겠으면 다른 방법이요라고 하세요.",
        say.NorthByTheShadow: "그림자만 보고 해는 절대 보지 마세요.",
        say.NorthByTheSunset: "해 지는 것을 못 봤거나 산이 가렸으면 다른 방법이요라고 하세요.",
        say.NorthByAMark: "바로 이 순간의 방향이에요. 아니면 다른 방법이요라고 하세요.",
        say.NoOtherWay: "별 두 개를 보고 나면 마운트가 대충 맞춘 북쪽을 스스로 고쳐요. 가려면 북쪽 맞췄어요라고 하세요.",
        say.NorthByLandmark: "종이 지도는 위가 북쪽이에요. 어두워지기 전에 여기서 선을 그어 두세요.",
        say.WhatDoesItRead: "숫자를 하나씩 읽어 주세요. 삼, 오, 영처럼요.",
        say.LevelTheTube: "수평계를 경통에 대거나 고도 눈금의 영을 쓰세요.",
        say.LevelAgain: "마운트가 이 자세를 시작으로 삼으니 처음만큼 잘 맞춰야 해요.",
        say.NorthAgain: "같은 목표물이나 나침반 값으로 맞추세요. 아니면 다른 방법이요라고 하세요.",
        say.TubeLevelAgain: "경통에 댄 수평계나 고도 눈금의 영으로 맞추세요.",
        say.LetItFindItsPose: "시작하는 방법은 설명서에 있어요. 일이 분 동안 스스로 돌고 기울어요.",
        say.SwitchOn: "플러그를 꽂고 스위치를 누른 다음 조종기에 불이 들어올 때까지 기다리세요.",
    },
)
