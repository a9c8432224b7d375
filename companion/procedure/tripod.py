"""Before anything is looked at: firm ground, the tripod level, then the weight, balance, cables, caps, cooling."""

from __future__ import annotations

from dataclasses import dataclass

from companion import sky
from companion.procedure.handset import learn_the_level_aid
from companion.procedure.script import Context, Result, Steps, ask
from companion.talk.ground_phrases import (
    CablesAndFrost,
    CapsAndCooling,
    ClampAndBalance,
    LegsAndGround,
    LevelTheTripod,
    MindTheWeight,
    PutItOn,
)


@dataclass(frozen=True)
class StoodFirm(Result):
    """All stands, and the mount may be touched again."""

    capped: bool
    """Whether the Sun was up, so that the caps stayed on."""
    level_aid_asked: bool = False
    """Whether it was asked what tells level: who left that out isn't asked again."""


def stand_firm(context: Context) -> Steps[StoodFirm]:
    """Go through what has to be right before the mount is touched again; to skip a point is to be ready for the next.

    The tripod is levelled before the weight goes on: then it is light, and no leg is shortened under a telescope. A mount that finds its
    own position gains by it, too: it measures only small leans, and searches less.
    """
    yield MindTheWeight()
    yield from ask(LegsAndGround())
    asked = yield from learn_the_level_aid(context)
    yield from ask(LevelTheTripod(measures_its_lean=context.equipment.mount.pose_time == "by-itself"))
    yield from ask(PutItOn())
    yield from ask(ClampAndBalance())
    yield from ask(CablesAndFrost())
    last = yield from ask(CapsAndCooling())
    return StoodFirm(capped=sky.sun_state(context.moment(last.time)).is_up, level_aid_asked=asked)
