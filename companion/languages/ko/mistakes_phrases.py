"""Korean for finding out why the mount missed: hand measures back, readings of the hand control, causes and remedies."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from typing import Literal

from companion.diagnosis import About, Cause, Cure
from companion.equipment import CompassKind
from companion.languages.ko import clock_words
from companion.languages.ko.cause_words import cause_in_words
from companion.languages.ko.check_words import found_in_words, question_about, what_to_do
from companion.languages.ko.direction_words import degrees
from companion.languages.ko.settings_phrases import key_the_time
from companion.languages.ko.sight_words import it_is, subject, topic
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.talk import mistakes_phrases as say
from companion.talk.answers import CheckAnswer, FacingAnswer, GroundAnswer, KnockAnswer, MissAnswer


def which_way_and_how_far(scene: Scene, *, star: str) -> str:
    """Ask for the miss in hand measures."""
    return f"경통을 따라 보세요. {subject(spoken_name(star))} 왼쪽이나 오른쪽으로 주먹 몇 개만큼 떨어져 있어요? 위나 아래로는요?"


def where_was_the_last_star(scene: Scene, *, star: str) -> str:
    """Ask for the last star's miss afterwards."""
    return f"마운트가 멈췄을 때 {subject(spoken_name(star))} 경통에서 왼쪽이나 오른쪽으로 주먹 몇 개만큼 떨어져 있었어요? 위나 아래로는요?"


def miss_heard(scene: Scene, *, right_deg: float | None, up_deg: float | None, turn_deg: float | None) -> str:
    """Say the miss back, so that a wrong one is noticed: a turn as a turn, the rest in degrees."""
    if right_deg is None and up_deg is None and turn_deg is None:
        return "전혀 안 보이는군요."
    parts = [] if turn_deg is None else [_turn(turn_deg)]
    if right_deg is not None and round(right_deg):
        parts.append(f"{'오른쪽' if right_deg > 0 else '왼쪽'}으로 {degrees(abs(right_deg))}")
    if up_deg is not None and round(up_deg):
        parts.append(f"{'위' if up_deg > 0 else '아래'}로 {degrees(abs(up_deg))}")
    return it_is(", ".join(parts)) if parts else "거의 안 어긋났군요."


def _turn(turn_deg: float) -> str:
    """Return by how much one turns to face it."""
    side = "오른쪽" if turn_deg > 0 else "왼쪽"
    if abs(turn_deg) > 160:
        return "등 뒤"
    if abs(turn_deg) > 110:
        return f"{side} 등 뒤"
    return f"{side}으로 {'사분의' if abs(turn_deg) > 70 else '팔분의'} 일 바퀴"


def check_this(scene: Scene, *, about: About, star: str, instead: str | None, compass: CompassKind | Literal["unknown"]) -> str:
    """Ask whether something is as it should be."""
    return question_about(about, scene, star, instead or star, compass)


def still_unsure(scene: Scene, *, found_right: tuple[Cure, ...], perhaps: tuple[Cause, ...]) -> str:
    """Say that it isn't known, what is excluded, and what it may be."""
    place = "장소" if {"latitude", "longitude"} <= set(found_right) else "위도" if "latitude" in found_right else "경도"
    excluded = list(dict.fromkeys(_EXCLUDED[cure].format(place=place) for cure in found_right if cure in _EXCLUDED))
    told = "아직 모르겠어요."
    if excluded:
        told += f" {topic(', '.join(excluded))} 아니에요."
    return f"{told} 어쩌면 이것일 수 있어요. {'. 또는 '.join(map(cause_in_words, perhaps))}." if perhaps else told


_EXCLUDED: Mapping[Cure, str] = {
    "bubble": "받침",
    "tube_level": "경통의 수평",
    "time": "시각",
    "daylight_saving": "서머타임",
    "time_zone": "시간대",
    "date": "날짜",
    "latitude": "{place}",
    "longitude": "{place}",
    "star": "별",
    "clamps": "고정 나사",
}


def fairly_sure_of_the_cause(scene: Scene, *, cause: Cause) -> str:
    """Name a cause we are fairly sure of."""
    return f"꽤 확실해요. {cause_in_words(cause)}."


def that_is_it(scene: Scene, *, found_wrong: tuple[Cure, ...], sure: bool) -> str:
    """Say that what was found wrong is the cause."""
    return f"{found_in_words(found_wrong)} {'꽤 확실히 그것 때문이에요' if sure else '그것 때문일 수 있어요'}."


def one_of_these_causes(scene: Scene, *, causes: tuple[Cause, ...], sure: bool) -> str:
    """Name the likeliest causes, honestly."""
    first, *others = (cause_in_words(cause) for cause in causes)
    text = f"가장 그럴듯한 까닭은 이거예요. {first}."
    if others and not sure:
        text = f"확실하지는 않아요. {text}"
    for other, how in zip(others, ("또는", "아니면"), strict=False):
        text += f" {how} {other}."
    return text


def mend_these(scene: Scene, *, cures: tuple[Cure, ...], star: str, compass: CompassKind | Literal["unknown"], minutes: int) -> str:
    """Say the least that must be done again, in the order to do it in, and wait for it."""
    steps = [what_to_do(cure, scene, star, compass) for cure in cures if cure != "none"]
    if minutes:
        size = clock_words.duration(timedelta(minutes=abs(minutes)))
        steps.insert(0, f"조종기의 시계가 {size} {'빨라요' if minutes > 0 else '늦어요'}.")
    again = "정렬을 새로 시작하세요." if cures == ("star",) else "그다음 수평과 북쪽부터 정렬을 새로 시작하세요."
    return f"{' '.join(steps)} {again} 파인더는 그대로 괜찮아요. 다 하면 준비됐어요라고 하세요."


def that_star_is_down(scene: Scene, *, star: str) -> str:
    """Say that the mount offers a star below the horizon."""
    return f"{topic(spoken_name(star))} 지금 지평선 아래에 있어요. 설정이 맞으면 마운트가 그 별을 고르지 않아요."


def key_our_time_again(scene: Scene, *, hours: Literal[12, 24] | None) -> str:
    """Say the corrected time once more, for the hand control has the wrong one from us."""
    return f"그럼 조종기에 제가 말한 틀린 시각이 들어 있어요. 새로 넣으세요. {key_the_time(scene, hours=hours)} 수평과 북쪽부터 시작하세요."


MISTAKES = Chapter(
    phrases={
        say.WhichWayAndHowFar: which_way_and_how_far,
        say.WhereWasTheLastStar: where_was_the_last_star,
        say.ThatStarIsDown: that_star_is_down,
        say.MissHeard: miss_heard,
        say.CheckThis: check_this,
        say.IsItsTimeRight: lambda scene: question_about("time", scene),
        say.WhichWayDidItFace: lambda scene: question_about("facing", scene),
        say.IsTheGroundSoft: lambda scene: question_about("soft_ground", scene),
        say.WasItKnocked: lambda scene: question_about("knocked", scene),
        say.CorrectThat: "그걸 지금 고치세요. 하나만 더 볼게요.",
        say.AnOrdinaryMiss: "잘못이 없어도 그럴 수 있어요. 화살표 키로 맞추세요.",
        say.NorthWasALittleOff: "북쪽이 조금 어긋났어요. 마운트가 그만큼 고려하니 화살표 키로 별을 맞추세요.",
        say.StillUnsure: still_unsure,
        say.AnotherStarWillTell: "이 별은 그냥 두세요. 다른 별을 보면 알 수 있어요.",
        say.FairlySureOfTheCause: fairly_sure_of_the_cause,
        say.OneAnswerDoesntFit: "별이 있던 자리가 보신 것과 안 맞아요. 이걸 한 번 더 보세요.",
        say.OneOfTheseCauses: one_of_these_causes,
        say.ThatIsIt: that_is_it,
        say.PerhapsOurOwnClock: "조종기의 값이 다 맞으면 제 시계가 틀렸을 수 있어요. 손목시계와 견주어 보세요.",
        say.KeyOurTimeAgain: key_our_time_again,
        say.MendThese: mend_these,
    },
    sayable={
        MissAnswer: (
            "왼쪽으로 주먹 한 개 위로 손가락 두 개",
            "오른쪽으로 사분의 일 바퀴",
            "등 뒤에 있어요",
            "아무 데도 없어요",
            "아까와 같아요",
        ),
        CheckAnswer: ("네 맞아요", "아니에요", "모르겠어요"),
        FacingAnswer: ("북쪽이요", "남쪽이요", "모르겠어요"),
        GroundAnswer: ("네", "잔디 위예요", "콘크리트 위예요", "모르겠어요"),
        KnockAnswer: ("네", "아니요", "모르겠어요"),
    },
    step_help={
        say.WhichWayAndHowFar: "팔을 쭉 펴세요. 주먹 하나가 십 도, 손가락 셋이 오 도예요. 좌우를 먼저, 위아래를 나중에 말하세요.",
        say.WhereWasTheLastStar: "팔을 쭉 펴세요. 주먹 하나가 십 도, 손가락 셋이 오 도예요. 기억이 안 나면 건너뛰기라고 하세요.",
        say.CheckThis: "보고 나서 제 말과 같으면 네, 다르면 아니요, 알 수 없으면 모르겠어요라고 하세요.",
        say.IsItsTimeRight: "조종기에서 시각을 찾으세요. 네 또는 아니요로 답하거나 시와 분을 읽어 주세요.",
        say.WhichWayDidItFace: "앞쪽은 하늘을 보는 끝이에요. 켜기 바로 전에 어느 쪽을 보고 있었는지 말하세요.",
        say.IsTheGroundSoft: "무른 땅에서는 다리가 조금씩 가라앉아 받침이 기울어요. 삼각대 발밑을 만져 보세요.",
        say.WasItKnocked: "발이나 팔꿈치가 닿기만 해도 어긋나요. 무엇이 세게 닿았으면 네라고 하세요.",
        say.KeyOurTimeAgain: "제 시각을 넣었는데 제 시각이 틀렸어요. 시각과 날짜만 새로 넣으면 돼요.",
        say.MendThese: "그것만 새로 하면 돼요. 다 하면 준비됐어요라고 하세요.",
    },
)
