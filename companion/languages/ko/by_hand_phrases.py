"""Korean for the way to a target by hand."""

from __future__ import annotations

from collections.abc import Callable

from companion import sky
from companion.languages.ko.number_words import count_of, native
from companion.languages.ko.sight_words import describe, subject
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.observing import FINGERS_A_FIST, PARTS_A_FIELD, Offset, in_field_parts, in_fingers, length_in_fingers
from companion.talk.by_hand_phrases import BackToTheStarBefore, NoWayByHand, StartByHand, StepByEye, StepByFinder

_PARTS = ("", "사분의 일", "절반", "사분의 삼")


def start_by_hand(scene: Scene, *, star: str) -> str:
    """Begin at a bright star."""
    return f"이 별에서 시작해요. {describe(sky.sight(sky.find(star), scene), scene.fist_deg)} 파인더 가운데에 넣으세요."


def step_by_eye(
    scene: Scene, *, start_ra_deg: float, start_dec_deg: float, end_ra_deg: float, end_dec_deg: float, towards: str | None
) -> str:
    """Tell a step by the eye, in fists and fingers."""
    start, end = scene.direction(start_ra_deg, start_dec_deg), scene.direction(end_ra_deg, end_dec_deg)
    if towards is not None:
        way = f"{spoken_name(towards)} 쪽으로 {_hand(length_in_fingers(start, end, scene.fist_deg))}"
    else:
        way = _up_then_across(in_fingers(start, end, scene.fist_deg), _hand)
    return f"거기서 맨눈으로 {way} 가세요. 파인더를 거기에 대고 둘레를 조금 훑으세요. 가장 밝은 별을 가운데에 넣으세요."


def step_by_finder(
    scene: Scene,
    *,
    start_ra_deg: float,
    start_dec_deg: float,
    end_ra_deg: float,
    end_dec_deg: float,
    field_deg: float,
    target: str | None,
) -> str:
    """Tell a step of the tube, in parts of the finder's field."""
    start, end = scene.direction(start_ra_deg, start_dec_deg), scene.direction(end_ra_deg, end_dec_deg)
    move = f"이제 경통을 {_up_then_across(in_field_parts(start, end, field_deg), _field)} 움직이세요."
    if target is None:
        return f"{move} 거기서 가장 밝은 별을 가운데에 넣으세요."
    return f"{move} 거기에 {subject(spoken_name(target))} 있어요. 저배율 접안렌즈로 둘레를 조금 훑으세요."


def _up_then_across(offset: Offset, measured: Callable[[int], str]) -> str:
    """Return "위로 주먹 한 개, 그다음 왼쪽으로 손가락 두 개"."""
    parts = []
    if offset.up:
        parts.append(f"{'위' if offset.up > 0 else '아래'}로 {measured(abs(offset.up))}")
    if offset.right:
        parts.append(f"{'오른쪽' if offset.right > 0 else '왼쪽'}으로 {measured(abs(offset.right))}")
    return ", 그다음 ".join(parts) or "아주 조금만"


def _hand(fingers: int) -> str:
    """Return "주먹 한 개와 손가락 두 개"."""
    whole, rest = divmod(fingers, FINGERS_A_FIST)
    parts = [f"{what} {count_of(number, '개')}" for what, number in (("주먹", whole), ("손가락", rest)) if number]
    return "와 ".join(parts)


def _field(quarters: int) -> str:
    """Return "파인더 시야의 절반만큼", "파인더 시야 한 개와 사분의 일만큼"."""
    whole, rest = divmod(quarters, PARTS_A_FIELD)
    if whole == 0:
        return f"파인더 시야의 {_PARTS[rest]}만큼"
    return f"파인더 시야 {native(whole)} 개{f'와 {_PARTS[rest]}' if rest else ''}만큼"


BY_HAND = Chapter(
    phrases={
        StartByHand: start_by_hand,
        StepByEye: step_by_eye,
        StepByFinder: step_by_finder,
        BackToTheStarBefore: "그럼 한 단계 뒤로요. 앞의 별을 한 번 더 가운데에 두세요. 찾았어요, 또는 안 보여요라고 하세요.",
        NoWayByHand: "손으로 가는 가까운 길을 몰라요.",
    },
    step_help={
        StartByHand: "경통을 따라 겨눈 다음 파인더를 보세요. 별이 가운데에 오면 찾았어요라고 하세요.",
        StepByEye: "팔을 쭉 편 주먹과 손가락이에요. 찾는 별은 둘레의 어느 별보다 밝아요.",
        BackToTheStarBefore: "거기서 그 단계를 다시 말할게요. 그 별도 잃었으면 처음부터 해요.",
        StepByFinder: "별이 파인더 시야의 한쪽 끝에서 맞은편 끝까지 가면 시야 한 개예요.",
    },
)
