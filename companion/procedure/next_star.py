"""Which star comes next: the one the mount names, judged at once, or our own choice; and the wait until it can be seen."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import assert_never

from companion import alignment, sky
from companion.procedure.alignment_state import AlignmentState, Ending, FinderReply, Visit
from companion.procedure.ask_observer import measure_fist
from companion.procedure.notes import MissTold, ReferenceStar
from companion.procedure.script import Steps, ask
from companion.talk.answers import FinderAnswer, StarNameAnswer, WaitingAnswer
from companion.talk.mistakes_phrases import ThatStarIsDown
from companion.talk.stars_phrases import (
    NoneItNamesWillDo,
    NoStarsTonight,
    PressItsKeyForAnother,
    Unfit,
    WaitForTheFirstStar,
    WhichOfThese,
    WhichStarDoesItName,
)

_MOST_KEYS = 4
"""After so many stars that won't do, the observer is told how to choose for the mount."""


@dataclass(frozen=True)
class Offered:
    """The star to go to."""

    star: str
    is_down: Visit | None = None
    """A star below the horizon ends its visit at once: no mount that is told right offers one, so it is a miss of its own."""


def offer(state: AlignmentState, time: datetime) -> Steps[Offered | None]:
    """Settle on the next star, and wait until it can be seen; None when there is none."""
    if state.choice == "names" and not sky.sun_state(state.context.moment(time)).is_up:
        named = yield from hear_its_star(state)
        if named is not None:
            return named
    while True:
        star = state.next_star(time)
        if star is None:
            return None
        waited = yield from _wait_until_seen(star, state, time)
        if waited is None:
            return None
        if waited == time:
            yield ReferenceStar(star)
            return Offered(star)
        time = waited


def hear_its_star(state: AlignmentState, told: FinderReply | None = None) -> Steps[Offered | None]:
    """Hear which star the mount names, until it names one that will do; None where that is skipped.

    ``told`` may name the first of them already.
    """
    for turn in range(_MOST_KEYS):
        if turn or told is None or told.command is FinderAnswer.NAMES_ANOTHER:
            told = yield from ask(WhichStarDoesItName(again=turn > 0))
        star = yield from _name_in(told)
        if star is None:
            return None
        verdict = alignment.judge_star(sky.find(star), state.context.moment(told.time), hidden=state.hides, partners=state.partners)
        if not verdict.is_up:
            miss = MissTold(star, told.time, None, None, bool(state.centred))
            state.misses.append(miss)
            yield ReferenceStar(star)
            yield miss
            yield ThatStarIsDown(star)
            return Offered(star, Visit(Ending.WAY_OFF, told.time))
        unfit = _unfit(verdict)
        if unfit == "too-bright-sky":
            waited = yield from _wait_until_seen(star, state, told.time)
            unfit = None if waited is not None else unfit
        if unfit is None:
            yield ReferenceStar(star)
            return Offered(star)
        yield PressItsKeyForAnother(star, unfit)
    yield NoneItNamesWillDo()
    return None


def _name_in(told: FinderReply) -> Steps[str | None]:
    """Return the star that was named; letters that several names begin with are asked about until one is left."""
    while told.command is StarNameAnswer.STAR_LETTERS:
        beginning = [body.name for body in sky.nameable_from(told.slots["letters"])]
        if len(beginning) < 2:
            return next(iter(beginning), None)
        told = yield from ask(WhichOfThese(tuple(beginning)))
    return (told.slots.get("star") or told.slots["constellation"]) if told.command is StarNameAnswer.STAR_NAME else None


def _unfit(verdict: alignment.StarVerdict) -> Unfit | None:
    """Return the weightiest thing that speaks against a star that is up; None where it will do."""
    against: dict[Unfit, bool] = {
        "near-sun": verdict.near_sun,
        "hidden": verdict.is_hidden,
        "too-low": verdict.too_low,
        "too-high": verdict.too_high,
        "too-bright-sky": not verdict.visible,
        "near-another": verdict.close_to_partner is not None,
        "sets-soon": verdict.sets_soon,
    }
    return next((why for why, so in against.items() if so), None)


def _wait_until_seen(star: str, state: AlignmentState, time: datetime) -> Steps[datetime | None]:
    """Wait while the Sun is up or the sky too bright for a star; return the time then, None to give up. By day nothing is pointed at."""
    while True:
        moment = state.context.moment(time)
        sight, sun_is_up = sky.sight(sky.find(star), moment), sky.sun_state(moment).is_up
        if not sun_is_up and (state.seen_in_twilight or sky.visible_now(sight, moment)):
            return time
        seen = None if sight.magnitude is None else sky.first_seen(sight.magnitude, sight.altitude_deg, moment)
        sunset = sky.night_around(moment).sunset if sun_is_up else moment.time
        if seen is None or sunset is None:
            state.no_star_tonight = True
            yield NoStarsTonight()
            return None
        answer = yield from ask(WaitForTheFirstStar(star, max(seen, sunset)))
        match answer.command:
            case WaitingAnswer.MEASURE_FIST:
                state.fist_deg = (yield from measure_fist(state.context, answer.time)) or state.fist_deg
            case WaitingAnswer.READY:
                state.seen_in_twilight = True
            case WaitingAnswer.SKIP:
                return None
            case _:
                assert_never(answer.command)
        time = answer.time
