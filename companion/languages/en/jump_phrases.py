"""English for going to another part of the evening, and for what that costs."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.phrase import Chapter, Scene
from companion.talk.jump_phrases import (
    AlignAnew,
    GoingThere,
    LeavesUndone,
    MustBeDoneAgain,
    NothingToProve,
    OnlyByHand,
    PackUpNow,
    Part,
    WeAreThere,
)

_PARTS: Mapping[Part, str] = {
    Part.TRIPOD: "the tripod",
    Part.FINDER: "the finder",
    Part.POSE: "level and north",
    Part.POWER: "switching on",
    Part.SETTINGS: "the settings",
    Part.STARS: "the alignment stars",
    Part.PROOF: "the proof",
    Part.TARGETS: "tonight's targets",
    Part.PACKING: "packing up",
}
_DONE_AGAIN: Mapping[Part, str] = {Part.STARS: "the alignment"}


def going_there(scene: Scene, *, part: Part, back_to: Part | None) -> str:
    """Say where we go, and where back to afterwards."""
    return f"To {_PARTS[part]}." if back_to is None else f"To {_PARTS[part]}, then back to {_PARTS[back_to]}."


def must_be_done_again(scene: Scene, *, part: Part, lost: tuple[Part, ...]) -> str:
    """Ask whether to go to a part after which others must be done again."""
    parts = ", and ".join(_DONE_AGAIN.get(one, _PARTS[one]) for one in lost)
    return f"After that, {parts} must be done again. Go back to {_PARTS[part]}?"


def leaves_undone(scene: Scene, *, part: Part, left_out: tuple[Part, ...]) -> str:
    """Ask whether to go on to the stars without what they are found by."""
    parts = " and ".join(_PARTS[one] for one in left_out)
    return f"That leaves out {parts}: the mount may miss its stars. Go to {_PARTS[part]}?"


JUMPS = Chapter(
    phrases={
        GoingThere: going_there,
        MustBeDoneAgain: must_be_done_again,
        LeavesUndone: leaves_undone,
        AlignAnew: "The alignment then begins anew, with its first star. Go there?",
        OnlyByHand: "The mount doesn't know the sky yet: you'd steer by hand. Go to the targets?",
        PackUpNow: "Shall we pack up?",
        NothingToProve: "Before the alignment there is nothing to prove.",
        WeAreThere: "We are at that part now.",
    },
    step_help={
        MustBeDoneAgain: "Yes goes there. No stays where we are, and nothing is lost.",
        LeavesUndone: "Yes goes there. No stays, and we do it in its order.",
        AlignAnew: "Yes begins the stars again. No keeps the alignment you have.",
        OnlyByHand: "Yes goes there: I say where to look, and you steer with the arrows. No stays with the set-up.",
        PackUpNow: "Yes goes on to packing up. No goes on where we were.",
    },
)
