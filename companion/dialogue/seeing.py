"""What observers tell of their sight at any time, and of who looks for them: whatever is open stays open, only its words change."""

from __future__ import annotations

from dataclasses import replace

from companion.equipment import Equipment, Seeing
from companion.messages import NotNow
from companion.talk.question_answers import OneselfAnswer


def is_of_sight(heard: NotNow) -> bool:
    """Say whether something that is no answer now tells of the observer's sight."""
    return heard.command in set(OneselfAnswer)


def seeing_told(heard: NotNow, known: Equipment) -> Seeing:
    """Return what holds from now on."""
    before = Seeing.of(known)
    match OneselfAnswer(heard.command):
        case OneselfAnswer.BLIND:
            return replace(before, sight="none")
        case OneselfAnswer.LITTLE:
            return replace(before, sight="little")
        case OneselfAnswer.CHILD:
            return replace(before, eyes="child")
        case OneselfAnswer.HELPER:
            return replace(before, eyes="helper")
        case OneselfAnswer.ALONE:
            return replace(before, eyes=None)
        case OneselfAnswer.SIGHTED:
            return Seeing()
