"""The way to a target by hand, as questions: one for each step, the bright star first."""

from __future__ import annotations

from collections.abc import Callable

from companion import observing
from companion.equipment import Equipment
from companion.sky import Body, Moment, Sight
from companion.talk.by_hand_phrases import StartByHand, StepByEye, StepByFinder
from companion.talk.night_phrases import Told
from companion.talk.saying import Ask


def steps_by_hand(body: Body, moment: Moment, equipment: Equipment, hidden: Callable[[Sight], bool]) -> tuple[Ask[Told], ...]:
    """Return what to ask, step by step; nothing where there is no way: then say ``NoWayByHand``.

    The Moon and the planets need no way but the eye's: ``FindTarget`` says where they stand. Whatever is in the finder after a step
    is the brightest star there, so "there it is" leads on; where nothing is found, ask the same step again.
    """
    finder = observing.finder_of(equipment.instrument)
    way = observing.way_to(body, moment, finder, hidden)
    if way is None:
        return ()
    questions: list[Ask[Told]] = [StartByHand(way.start.name)]
    for step in way.steps:
        places = (step.start.ra_deg, step.start.dec_deg, step.end.ra_deg, step.end.dec_deg)
        if step.by == "eye":
            questions.append(StepByEye(*places, towards=step.towards))
        else:
            questions.append(StepByFinder(*places, field_deg=finder.field_deg, target=body.name if step is way.steps[-1] else None))
    return tuple(questions)
