"""Write down what was seen: a short form, any part of which may be skipped."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from typing import assert_never

from companion.equipment import EYEPIECE_MM, Instrument
from companion.observing.observation import Look, Observation, Seen, observed
from companion.procedure.notes import Observed
from companion.procedure.script import Context, Steps, ask
from companion.procedure.spoken_figures import figure_of
from companion.sky import Body
from companion.talk.answers import FewMillimetresAnswer, HowItLookedAnswer, HowItShowedAnswer, OneToFiveAnswer
from companion.talk.observation_phrases import (
    AnotherWordForIt,
    HowClearIsTheAir,
    HowDidItLook,
    HowDidItShow,
    HowSteadyIsTheAir,
    WhichEyepieceWasIn,
    WrittenDown,
)
from companion.talk.saying import Ask

AIR_HOLDS = timedelta(minutes=30)
"""So long the air is taken to be as it was, and isn't asked for again. Judgement."""
MOST_WORDS = 4
"""More words of one thing nobody wants to be led through. Judgement."""

_SEEN: Mapping[HowItShowedAnswer, Seen | None] = {
    HowItShowedAnswer.EASILY: "easily",
    HowItShowedAnswer.JUST: "just",
    HowItShowedAnswer.SUSPECTED: "suspected",
    HowItShowedAnswer.NOT_AT_ALL: "not at all",
    HowItShowedAnswer.SKIP: None,
}
_LOOKS: Mapping[HowItLookedAnswer, Look] = {
    HowItLookedAnswer.ROUND: "round",
    HowItLookedAnswer.LONG: "long",
    HowItLookedAnswer.TWO: "two",
    HowItLookedAnswer.COLOUR: "colour",
    HowItLookedAnswer.BRIGHT: "bright",
    HowItLookedAnswer.FAINT: "faint",
    HowItLookedAnswer.MISTY: "misty",
    HowItLookedAnswer.SINGLE_STARS: "single stars",
    HowItLookedAnswer.BRIGHT_MIDDLE: "bright middle",
    HowItLookedAnswer.SHARP_EDGE: "sharp edge",
    HowItLookedAnswer.DARK_PATCH: "dark patch",
    HowItLookedAnswer.DETAIL: "detail",
}
_MARKS: Mapping[OneToFiveAnswer, int | None] = {
    OneToFiveAnswer.ONE: 1,
    OneToFiveAnswer.TWO: 2,
    OneToFiveAnswer.THREE: 3,
    OneToFiveAnswer.FOUR: 4,
    OneToFiveAnswer.FIVE: 5,
    OneToFiveAnswer.SKIP: None,
}


def write_down(
    context: Context, body: Body, time: datetime, *, eyepiece_mm: float | None = None, last: Observation | None = None
) -> Steps[Observation]:
    """Lead through the form for a body that was looked at at ``time``, note the observation and return it.

    ``eyepiece_mm`` is the eyepiece that is in, where that is known; else it is asked for, unless there is only one. ``last`` is the
    observation before this one, this evening: its marks for the air still hold for half an hour.
    """
    instrument = context.equipment.instrument
    seen = _SEEN[(yield from ask(HowDidItShow())).command]
    if eyepiece_mm is None:
        eyepiece_mm = yield from _eyepiece_in(instrument)
    looks = () if seen == "not at all" else (yield from _looks())
    if last is not None and timedelta(0) <= time - last.time <= AIR_HOLDS:
        steadiness, clearness = last.steadiness, last.clearness
    else:
        steadiness = yield from _mark(HowSteadyIsTheAir())
        clearness = yield from _mark(HowClearIsTheAir())
    known = observed(body, context.moment(time), instrument, eyepiece_mm)
    observation = replace(known, seen=seen, steadiness=steadiness, clearness=clearness, looks=looks)
    yield Observed(observation)
    yield WrittenDown()
    return observation


def _eyepiece_in(instrument: Instrument) -> Steps[float | None]:
    """Return the focal length of the eyepiece that is in: the only one, else the one of the profile nearest to what is told."""
    owned_mm = [eyepiece.focal_length_mm for eyepiece in instrument.eyepieces]
    if len(owned_mm) < 2:
        return owned_mm[0] if owned_mm else None
    told = yield from ask(WhichEyepieceWasIn())
    match told.command:
        case FewMillimetresAnswer.FEW_MILLIMETRES:
            figure_mm = figure_of(told.slots)
        case FewMillimetresAnswer.SKIP:
            return None
        case _:
            assert_never(told.command)
    nearest_mm = min(owned_mm, key=lambda owned: abs(owned - figure_mm))
    # "Nine" for the 9.7; anything else is another eyepiece, a borrowed one.
    if abs(nearest_mm - figure_mm) < 1.0:
        return nearest_mm
    return figure_mm if figure_mm in EYEPIECE_MM else None


def _looks() -> Steps[tuple[Look, ...]]:
    """Ask for words, one at a time."""
    looks: dict[Look, None] = {}
    while len(looks) < MOST_WORDS:
        told = (yield from ask(AnotherWordForIt() if looks else HowDidItLook())).command
        if told is HowItLookedAnswer.DONE or told is HowItLookedAnswer.SKIP:
            break
        looks[_LOOKS[told]] = None
    return tuple(looks)


def _mark(question: Ask[OneToFiveAnswer]) -> Steps[int | None]:
    return _MARKS[(yield from ask(question)).command]
