"""Which star comes next: the one the mount names, judged at once, or our own choice; and the wait until it can be seen."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass
from datetime import datetime

from companion import alignment, sky
from companion.messages import Answer, Ask, Note, Say
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.ask_equipment import measure_fist
from companion.procedure.misses import SpokenMiss

_MOST_KEYS = 4
"""After so many stars that won't do, the observer is told how to choose for the mount."""


@dataclass(frozen=True)
class Offered:
    """The star to go to."""

    star: str
    is_down: Answer | None = None
    """The answer that told of a star below the horizon: no mount that is told right offers one, so it is a miss of its own."""


Offering = Generator[Say | Ask | Note, Answer, Offered | None]


def offer(state: AlignmentState, time: datetime) -> Offering:
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
            yield Note("reference-star", {"star": star})
            return Offered(star)
        time = waited


def hear_its_star(state: AlignmentState, told: Answer | None = None) -> Offering:
    """Hear which star the mount names, until it names one that will do; None where that is skipped.

    ``told`` may name the first of them already.
    """
    for turn in range(_MOST_KEYS):
        if turn or told is None or told.command == "names-another":
            told = yield Ask("which-star-does-it-name", expects="star_name", facts={"again": turn > 0})
        while told.command == "star-letters" and len(beginning := sky.nameable_from(told.slots["letters"])) > 1:
            told = yield Ask("which-of-these", expects="star_name", facts={"stars": [body.name for body in beginning]})
        if told.command == "star-letters":
            star = beginning[0].name
        elif told.command == "star-name":
            star = told.slots.get("star") or told.slots["constellation"]
        else:
            return None
        verdict = alignment.judge_star(sky.find(star), state.context.moment(told.time), hidden=state.hides, partners=state.partners)
        if not verdict.is_up:
            miss = SpokenMiss(star, told.time.isoformat(), None, None, bool(state.centred), 2.0)
            state.misses.append(miss)
            yield Note("reference-star", {"star": star})
            yield Note("miss", miss.as_facts())
            yield Say("that-star-is-down", {"star": star})
            return Offered(star, Answer("way-off", told.time))
        unfit = _unfit(verdict)
        if unfit == "too-bright-sky":
            waited = yield from _wait_until_seen(star, state, told.time)
            unfit = None if waited is not None else unfit
        if unfit is None:
            yield Note("reference-star", {"star": star})
            return Offered(star)
        yield Say("press-its-key-for-another", {"star": star, "why": unfit})
    yield Say("none-it-names-will-do")
    return None


def _unfit(verdict: alignment.StarVerdict) -> str | None:
    """Return the weightiest thing that speaks against a star that is up; None where it will do."""
    against = {
        "near-sun": verdict.near_sun,
        "hidden": verdict.is_hidden,
        "too-low": verdict.too_low,
        "too-high": verdict.too_high,
        "too-bright-sky": not verdict.visible,
        "near-another": verdict.close_to_partner is not None,
        "sets-soon": verdict.sets_soon,
    }
    return next((why for why, so in against.items() if so), None)


def _wait_until_seen(star: str, state: AlignmentState, time: datetime) -> Generator[Say | Ask | Note, Answer, datetime | None]:
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
            yield Say("no-stars-tonight")
            return None
        facts = {"star": star, "first": max(seen, sunset).isoformat()}
        answer = yield Ask("wait-for-the-first-star", expects="waiting", facts=facts)
        if answer.command == "measure-fist":
            state.fist_deg = (yield from measure_fist(state.context, answer.time)) or state.fist_deg
        elif answer.command == "skip":
            return None
        else:
            state.seen_in_twilight = True
        time = answer.time
