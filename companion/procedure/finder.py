"""Line the finder up with the main tube: by day on a far fixed thing, after dark on the pole star, the Moon or a lamp."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, assert_never

from companion import alignment, sky
from companion.procedure.script import Context, Result, Steps, ask
from companion.talk.answers import FinderCheckAnswer, MarkAnswer, YesNoAnswer
from companion.talk.ground_phrases import (
    CapBothAgain,
    CapsAndTheSun,
    CentreTheMark,
    CheckAtHigherPower,
    PickAFarMark,
    PickAMarkAfterDark,
    ShallWeDoTheFinder,
    TakeAFartherMark,
    TurnTheFinderScrews,
)
from companion.talk.saying import Ask

_USUAL_FIELD_DEG = 1.0
"""What a low-power eyepiece shows where nothing is known of it: common practice, no published source."""

_LOWEST_MOON_DEG = 15.0


@dataclass(frozen=True)
class FinderLined(Result):
    """What came of the finder."""

    lined_up: bool
    """Whether it was lined up now; else it is as it was."""


def finder_by_hand(context: Context) -> Steps[FinderLined]:
    """Line it up now, unless the tube can only be moved with the mount switched on."""
    return FinderLined(False) if context.equipment.mount.turns_by_hand is False else (yield from line_up_the_finder(context))


def finder_by_keys(context: Context) -> Steps[FinderLined]:
    """Line it up now that the mount is on, where the tube can't be moved by hand."""
    return (yield from line_up_the_finder(context)) if context.equipment.mount.turns_by_hand is False else FinderLined(False)


def line_up_the_finder(context: Context) -> Steps[FinderLined]:
    """Offer it, find something to do it on, and go from low power to high."""
    wanted = yield from ask(ShallWeDoTheFinder())
    if wanted.command is not YesNoAnswer.YES:
        return FinderLined(False)
    moment, metres = context.moment(wanted.time), _far_enough_m(context)
    if sky.sun_state(moment).is_up:
        yield CapsAndTheSun()
        found = yield from _found_a_mark(PickAFarMark(metres))
    else:
        found = yield from _found_a_mark(PickAMarkAfterDark(_mark_after_dark(context, moment), metres))
    if not found:
        return FinderLined(False)
    yield from ask(CentreTheMark())
    agrees = False
    while not agrees:
        yield from ask(TurnTheFinderScrews())
        check = yield from ask(CheckAtHigherPower())
        match check.command:
            case FinderCheckAnswer.AGREES | FinderCheckAnswer.SKIP:
                agrees = True
            case FinderCheckAnswer.MOVED:
                pass
            case _:
                assert_never(check.command)
    if sky.sun_state(context.moment(check.time)).is_up:
        yield CapBothAgain()
    return FinderLined(True)


def _found_a_mark(question: Ask[MarkAnswer]) -> Steps[bool]:
    """Ask for a mark that comes to a focus; return whether there is one."""
    while True:
        answer = yield from ask(question)
        match answer.command:
            case MarkAnswer.READY:
                return True
            case MarkAnswer.SKIP:
                return False
            case MarkAnswer.NO_FOCUS:
                question = TakeAFartherMark()
            case _:
                assert_never(answer.command)


def _far_enough_m(context: Context) -> float:
    """Return how far a mark must be, for the field of the eyepiece at hand."""
    instrument = context.equipment.instrument
    lowest = instrument.lowest_power
    field_deg = instrument.true_field_deg(lowest) if lowest is not None else None
    return alignment.far_enough_m(instrument.finder_offset_cm, field_deg or _USUAL_FIELD_DEG)


def _mark_after_dark(context: Context, moment: sky.Moment) -> Literal["Polaris", "Moon", "lamp"]:
    """Return what hardly drifts and is easily found: the pole star, else the Moon, else a lamp far away."""
    if alignment.pole_way(moment, context.conceals) in alignment.NORTHERN:
        return "Polaris"
    moon = sky.sight(sky.MOON, moment)
    return "Moon" if moon.altitude_deg > _LOWEST_MOON_DEG and not context.hides(moon) else "lamp"
