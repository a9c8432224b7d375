"""Find the mistake behind a miss: compute what explains it, ask the readings that tell the causes apart, and say how sure that is."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass
from datetime import datetime

from companion import diagnosis, sky
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.confirm_clock import agree_on_the_clock, minutes_off
from companion.procedure.misses import Message, as_request
from companion.procedure.notes import ItsClockIsWrong, LikelyCause, WrongReading
from companion.procedure.script import Steps, ask
from companion.talk.answers import ReadyAnswer, YesNoAnswer
from companion.talk.mistakes_phrases import (
    AnOrdinaryMiss,
    FairlySureOfTheCause,
    KeyOurTimeAgain,
    MendIt,
    MendItsClock,
    MendThat,
    NotSureAtAll,
    OneOfTwoCauses,
    PerhapsOurOwnClock,
    ReadItBack,
    ReadMeItsTime,
)
from companion.talk.saying import Reply

FAIRLY_SURE = 0.8
"""Said plainly from here on; below, the second cause is named too. A confident wrong answer costs more than an honest pair."""
NOT_SURE = 0.5
"""Below this even the likeliest cause isn't named: the time the mount shows is asked for instead."""
_CLOCK_IS_WRONG_MINUTES = 5.0
_STEERABLE_DEG = 15.0
"""A first star this far to one side is what a compass does: the mount takes it in when the star is centred. Common practice."""
_OURS_TOO: Container[diagnosis.Cause] = ("hour", "date_day", "date_month", "longitude", "latitude", "site")
"""Causes that a wrong clock or place of our own would look like, when the hand control shows all that it should."""


@dataclass(frozen=True)
class Mended:
    """That a mistake is mended, or that it was given up, and when."""

    time: datetime
    done: bool

    @classmethod
    def by(cls, reply: Reply[ReadyAnswer]) -> Mended:
        """Return what an answer to "say ready" means."""
        return cls(reply.time, reply.command is ReadyAnswer.READY)


def find_the_mistake(state: AlignmentState, message: Message = "none", clue: diagnosis.Clue | None = None) -> Steps[Mended | None]:
    """Ask, conclude, and wait until it is mended; return when, or None where nothing is wrong but an ordinary miss."""
    found = _what_fits(state, message, clue)
    star = state.misses[-1].star
    while (reading := diagnosis.next_reading(found)) is not None:
        answer = yield from ask(ReadItBack(reading, star))
        if answer.command is YesNoAnswer.SKIP:
            break
        agrees = answer.command is YesNoAnswer.YES
        found = diagnosis.settle(found, reading, agrees=agrees)
        if not agrees:
            # A figure that is wrong is a mistake found, whatever else fits.
            yield WrongReading(reading)
            return Mended.by((yield from ask(MendThat(reading, star))))
    likeliest, second = found.causes[:2]
    yield LikelyCause(likeliest.cause, round(likeliest.probability, 3))
    if likeliest.cause == "none" or _only_needs_steering(likeliest.cause, state):
        yield AnOrdinaryMiss()
        return None
    if likeliest.probability >= FAIRLY_SURE:
        yield FairlySureOfTheCause(likeliest.cause)
    elif likeliest.probability >= NOT_SURE:
        yield OneOfTwoCauses(likeliest.cause, second.cause)
    else:
        shown = yield from ask(ReadMeItsTime())
        off = minutes_off(state.context, shown)
        if off is not None and abs(off) >= _CLOCK_IS_WRONG_MINUTES:
            yield ItsClockIsWrong(off)
            return Mended.by((yield from ask(MendItsClock(off))))
        yield NotSureAtAll()
    if likeliest.cause in _OURS_TOO and found.asked:
        yield PerhapsOurOwnClock()
        if (yield from agree_on_the_clock(state.context)):
            return Mended.by((yield from ask(KeyOurTimeAgain(state.context.equipment.mount.hours))))
    return Mended.by((yield from ask(MendIt(likeliest.cause, state.context.equipment.observer.compass or "unknown"))))


def _what_fits(state: AlignmentState, message: Message, clue: diagnosis.Clue | None) -> diagnosis.Diagnosis:
    """Return what explains the misses and the clue, less what can't be."""
    found = diagnosis.diagnose(as_request(state.context.site, state.started, state.misses, message))
    if clue is not None:
        found = diagnosis.weigh_clue(found, clue)
    if not state.centred and all(miss.right_deg is None for miss in state.misses):
        # Nothing was centred yet, so no wrong star can have been.
        found = diagnosis.without(found, "wrong_star")
    last = state.misses[-1]
    if sky.sight(sky.find(last.star), state.context.moment(last.time)).altitude_deg < 0:
        # No mount that is told right goes to a star below the horizon.
        found = diagnosis.without(found, "none")
    return found


def _only_needs_steering(cause: diagnosis.Cause, state: AlignmentState) -> bool:
    """Say whether a first star missed sideways, and not far, tells no more than that north was found by compass."""
    across_deg = [miss.right_deg for miss in state.misses if miss.right_deg is not None]
    near = len(across_deg) == len(state.misses) and all(abs(across) <= _STEERABLE_DEG for across in across_deg)
    return cause in ("start_azimuth", "magnetic_declination") and not state.centred and near
