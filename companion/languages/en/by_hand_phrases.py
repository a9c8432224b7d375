"""English for the way to a target by hand."""

from __future__ import annotations

from collections.abc import Callable

from companion import sky
from companion.languages.en.direction_words import sentence
from companion.languages.en.number_words import cardinal, count_of
from companion.languages.en.sight_words import describe
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.observing import FINGERS_A_FIST, PARTS_A_FIELD, Offset, in_field_parts, in_fingers, length_in_fingers
from companion.talk.by_hand_phrases import BackToTheStarBefore, NoWayByHand, StartByHand, StepByEye, StepByFinder

_PARTS = ("", "a quarter", "half", "three quarters")


def start_by_hand(scene: Scene, *, star: str) -> str:
    """Begin at a bright star."""
    return f"Begin at {describe(sky.sight(sky.find(star), scene), scene.fist_deg)} Put it in the middle of the finder."


def step_by_eye(
    scene: Scene, *, start_ra_deg: float, start_dec_deg: float, end_ra_deg: float, end_dec_deg: float, towards: str | None
) -> str:
    """Tell a step by the eye, in fists and fingers."""
    start, end = scene.direction(start_ra_deg, start_dec_deg), scene.direction(end_ra_deg, end_dec_deg)
    if towards is not None:
        way = f"{_hand(length_in_fingers(start, end, scene.fist_deg))} towards {spoken_name(towards)}"
    else:
        way = _up_then_across(in_fingers(start, end, scene.fist_deg), _hand)
    return f"{sentence(f'by eye, from there: {way}')} Put the finder there, and sweep a little around. Centre the brightest star."


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
    move = sentence(f"now move the tube {_up_then_across(in_field_parts(start, end, field_deg), _field)}")
    if target is None:
        return f"{move} Centre the brightest star there."
    return f"{move} There is {sentence(spoken_name(target))} Take the low-power eyepiece, and sweep a little around."


def _up_then_across(offset: Offset, measured: Callable[[int], str]) -> str:
    """Return "a fist up, then two fingers to the left"."""
    parts = []
    if offset.up:
        parts.append(f"{measured(abs(offset.up))} {'up' if offset.up > 0 else 'down'}")
    if offset.right:
        parts.append(f"{measured(abs(offset.right))} to the {'right' if offset.right > 0 else 'left'}")
    return ", then ".join(parts) or "hardly at all"


def _hand(fingers: int) -> str:
    """Return "a fist and two fingers"."""
    whole, rest = divmod(fingers, FINGERS_A_FIST)
    parts = []
    if whole:
        parts.append("a fist" if whole == 1 else f"{cardinal(whole)} fists")
    if rest:
        parts.append("a finger" if rest == 1 else count_of(rest, "finger"))
    return " and ".join(parts)


def _field(quarters: int) -> str:
    """Return "half a finder field", "one and a quarter finder fields"."""
    whole, rest = divmod(quarters, PARTS_A_FIELD)
    if whole == 0:
        return "half a finder field" if rest == 2 else f"{_PARTS[rest]} of a finder field"
    if rest == 0:
        return count_of(whole, "finder field")
    return f"{cardinal(whole)} and {'a half' if rest == 2 else _PARTS[rest]} finder fields"


BY_HAND = Chapter(
    phrases={
        StartByHand: start_by_hand,
        StepByEye: step_by_eye,
        StepByFinder: step_by_finder,
        BackToTheStarBefore: "Then one step back. Centre the star before once more. Say there it is, or: can't see it.",
        NoWayByHand: "I know no short way there by hand.",
    },
    step_help={
        StartByHand: "Sight along the tube, then look through the finder. Say there it is when the star is in its middle.",
        StepByEye: "A fist at arm's length, and fingers. The star we want is brighter than all around it.",
        BackToTheStarBefore: "From there I'll tell you the step again. If that star is lost, too, we begin anew.",
        StepByFinder: "A star at one edge of the finder's view and then at the other: that is one field.",
    },
)
