"""What observers tell of their sight at any time, and of who looks for them: whatever is open stays open, only its words change."""

from __future__ import annotations

from dataclasses import replace

from companion.equipment import Equipment, Seeing
from companion.messages import NotNow
from companion.talk.question_answers import OneselfAnswer


def is_of_sight(heard: NotNow) -> bool:
    """Say whether something that is no answer now tells of the observer's sight."""
    return heard.command in set(OneselfAnswer)


def tells_of_an_aid(heard: NotNow) -> bool:
    """Say whether it tells of something that talks or is felt."""
    return heard.command in (OneselfAnswer.RAISED_MARK, OneselfAnswer.TALKING_COMPASS, OneselfAnswer.TALKING_LEVEL)


def seeing_told(heard: NotNow, told: Seeing | None, known: Equipment) -> Seeing:
    """Return what holds from now on, after what was ``told`` this evening and what is ``known`` of the observer."""
    before = told or Seeing.of(known)
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
            return replace(before, sight=None, eyes=None)
        case OneselfAnswer.TALKING_LEVEL:
            return replace(before, level_aid="phone")
        case OneselfAnswer.RAISED_MARK:
            return replace(before, level_aid="mark")
        case OneselfAnswer.TALKING_COMPASS:
            return replace(before, compass="card")
