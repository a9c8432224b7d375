"""What observers tell of themselves at any time: whatever is open stays open, only its words change."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from companion.equipment import Equipment, Limit, Oneself
from companion.messages import NotNow
from companion.talk.question_answers import OneselfAnswer

LIMITS: Mapping[str, Limit] = {OneselfAnswer.NO_KNEELING: "kneeling", OneselfAnswer.NO_REACHING: "reaching"}
"""What is hard for whoever says so."""


def tells_of_oneself(heard: NotNow) -> bool:
    """Say whether something that is no answer now tells of the observer."""
    return heard.command in set(OneselfAnswer)


def tells_of_an_aid(heard: NotNow) -> bool:
    """Say whether it tells of something that talks or is felt."""
    return heard.command in (OneselfAnswer.RAISED_MARK, OneselfAnswer.TALKING_COMPASS, OneselfAnswer.TALKING_LEVEL)


def oneself_told(heard: NotNow, told: Oneself | None, known: Equipment) -> Oneself:
    """Return what holds from now on, after what was ``told`` this evening and what is ``known`` of the observer."""
    before = told or Oneself.of(known)
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
        case OneselfAnswer.NO_KNEELING | OneselfAnswer.NO_REACHING as told_now:
            return replace(before, limits=tuple(dict.fromkeys((*before.limits, LIMITS[told_now]))))
