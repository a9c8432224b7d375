"""Where nothing shows: what to try, one thing at a time, the likeliest first; and the way by hand, with what to do when it is lost."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TypeAlias

from companion.equipment import Equipment
from companion.procedure.by_hand import steps_by_hand
from companion.procedure.night.state import Night, WayTaken
from companion.sky import Body, Moment, Sight
from companion.talk.by_hand_phrases import BackToTheStarBefore, StartByHand, StepByEye, StepByFinder
from companion.talk.night_phrases import CheckTheFinder, HowItLooks, LeaveItForLater, LookBeside, LowestPower, SweepForIt, Told
from companion.talk.saying import Ask

_BY_HAND_AFTER = 5
"""After so many remedies the way there is gone by hand."""

Searched: TypeAlias = tuple[Night, Ask[Told]]


def found(night: Night) -> Searched:
    """Go one step on, on a way by hand that is under way: what was to be centred is."""
    way = night.way
    assert way.at is not None
    on = replace(way, is_back=False) if way.is_back else replace(way, at=way.at + 1)
    assert on.at is not None
    return replace(night, way=on), on.steps[on.at]


def not_there(night: Night, body: Body, moment: Moment, equipment: Equipment, hides: Callable[[Sight], bool]) -> Searched:
    """Return the next thing to try.

    The way by hand comes after the other remedies, where the mount doesn't know the sky before them. A step of it that is lost is gone
    once more from the star before; a star to begin at that can't be seen is left for another. Then the other remedies are tried.
    """
    if night.way.at is not None:
        return _lost(night, body, moment, equipment, hides)
    if not night.way.steps and night.tried == (0 if night.by_hand else _BY_HAND_AFTER):
        steps = steps_by_hand(body, moment, equipment, hides)
        if steps:
            return replace(night, way=WayTaken(steps, 0)), steps[0]
    return replace(night, tried=night.tried + 1), _remedy(body, night.tried)


def measured_anew(night: Night, body: Body, moment: Moment, equipment: Equipment, hides: Callable[[Sight], bool]) -> Searched | None:
    """Return the way under way by another finder: from the star one is at, where that is on it, else from the beginning.

    None where no way is under way, or this finder has none.
    """
    steps = steps_by_hand(body, moment, equipment, hides) if night.way.at is not None else ()
    if not steps:
        return None
    places = [_begins_at(step) for step in steps]
    here = _begins_at(night.way.steps[night.way.at or 0])
    at = places.index(here) if here in places else 0
    return replace(night, way=WayTaken(steps, at)), steps[at]


def _begins_at(step: Ask[Told]) -> tuple[float, float] | None:
    """Return where a step of the way begins: right ascension and declination, degrees; None for the first, at a bright star."""
    return (step.start_ra_deg, step.start_dec_deg) if isinstance(step, StepByEye | StepByFinder) else None


def _lost(night: Night, body: Body, moment: Moment, equipment: Equipment, hides: Callable[[Sight], bool]) -> Searched:
    """Return what to try where a step of the way is lost."""
    way, at = night.way, night.way.at or 0
    if way.is_back:
        # The star before is lost, too: from the beginning.
        return replace(night, way=replace(way, at=0, is_back=False)), way.steps[0]
    if at in way.lost:
        return not_there(replace(night, way=replace(way, at=None)), body, moment, equipment, hides)
    if at > 0:
        return replace(night, way=replace(way, lost=(*way.lost, at), is_back=True)), BackToTheStarBefore()
    start = way.steps[0]
    unseen = start.star if isinstance(start, StartByHand) else ""
    others = steps_by_hand(body, moment, equipment, lambda sight: sight.body.name == unseen or hides(sight))
    if not others:
        return not_there(replace(night, way=replace(way, at=None)), body, moment, equipment, hides)
    return replace(night, way=WayTaken(others, 0, lost=(0,))), others[0]


def _remedy(body: Body, tried: int) -> Ask[Told]:
    """Return what to try after so many remedies; in the end only to leave it."""
    steps: tuple[Ask[Told], ...] = (
        CheckTheFinder(body.name),
        LowestPower(),
        LookBeside(),
        HowItLooks(body.name, body.kind),
        SweepForIt(),
        LeaveItForLater(),
    )
    return steps[min(tried, len(steps) - 1)]
