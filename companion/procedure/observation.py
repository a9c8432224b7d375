"""Write down what was seen: a short form, any part of which may be skipped."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial
from typing import Any, TypeAlias

from companion.equipment import EYEPIECE_MM
from companion.observing.observation import Look, Observation, Seen, observed
from companion.procedure.notes import Observed
from companion.procedure.script import Context, Steps, ask
from companion.procedure.spoken_figures import figure_of
from companion.sky import Body
from companion.talk.answers import FewMillimetresAnswer, HowItLookedAnswer, HowItShowedAnswer, OneToFiveAnswer
from companion.talk.night_answers import ASKED_AT_A_TARGET
from companion.talk.observation_phrases import (
    AnotherWordForIt,
    HowClearIsTheAir,
    HowDidItLook,
    HowDidItShow,
    HowSteadyIsTheAir,
    Instead,
    WhichEyepieceWasIn,
    WrittenDown,
)
from companion.talk.saying import Reply

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


_Told: TypeAlias = tuple[Observation, Reply[Instead] | None]
"""The observation as it is then, and what is wanted instead of the rest of the form."""


def write_down(
    context: Context, body: Body, time: datetime, *, eyepiece_mm: float | None = None, last: Observation | None = None
) -> Steps[_Told]:
    """Lead through the form for a body that was looked at at ``time``, note the observation, and return it with what is wanted instead.

    ``eyepiece_mm`` is the eyepiece that is in, where that is known; else it is asked for, unless there is only one. ``last`` is the
    observation before this one, this evening: its marks for the air still hold for half an hour. It is noted at once, and anew with each
    part that is told: so who wants something else in the midst of the form, or goes to pack up, leaves out only the rest of it.
    """
    owned_mm = tuple(eyepiece.focal_length_mm for eyepiece in context.equipment.instrument.eyepieces)
    if eyepiece_mm is None and len(owned_mm) == 1:
        eyepiece_mm = owned_mm[0]
    observation = observed(body, context.moment(time), context.equipment.instrument, eyepiece_mm)
    parts: list[Callable[[Observation], Steps[_Told]]] = [_showing]
    if eyepiece_mm is None and owned_mm:
        parts.append(partial(_eyepiece_in, owned_mm))
    parts.append(_looks)
    if last is not None and timedelta(0) <= time - last.time <= AIR_HOLDS:
        observation = replace(observation, steadiness=last.steadiness, clearness=last.clearness)
    else:
        parts += [_steadiness, _clearness]
    yield Observed(observation)
    instead = None
    for part in parts:
        observation, instead = yield from part(observation)
        if instead is not None:
            break
    if instead is None or instead.command not in ASKED_AT_A_TARGET:
        # What is asked has an answer long enough.
        yield WrittenDown()
    return observation, instead


def _noted(observation: Observation, **told: Any) -> Steps[Observation]:
    """Note what was told, unless nothing new was, and return the observation with it."""
    fuller = replace(observation, **told)
    if fuller != observation:
        yield Observed(fuller)
    return fuller


def _showing(observation: Observation) -> Steps[_Told]:
    """Ask how well it showed."""
    told = yield from ask(HowDidItShow())
    if isinstance(told.command, HowItShowedAnswer):
        return (yield from _noted(observation, seen=_SEEN[told.command])), None
    return observation, Reply(told.command, told.time, told.slots)


def _eyepiece_in(owned_mm: tuple[float, ...], observation: Observation) -> Steps[_Told]:
    """Ask which eyepiece is in: the one of the profile nearest to what is told."""
    told = yield from ask(WhichEyepieceWasIn())
    match told.command:
        case FewMillimetresAnswer.FEW_MILLIMETRES:
            figure_mm = figure_of(told.slots)
        case FewMillimetresAnswer.SKIP:
            return observation, None
        case instead:
            return observation, Reply(instead, told.time, told.slots)
    nearest_mm = min(owned_mm, key=lambda owned: abs(owned - figure_mm))
    # "Nine" for the 9.7; anything else is another eyepiece, a borrowed one.
    other_mm = figure_mm if figure_mm in EYEPIECE_MM else None
    eyepiece_mm = nearest_mm if abs(nearest_mm - figure_mm) < 1.0 else other_mm
    return (yield from _noted(observation, eyepiece_mm=eyepiece_mm)), None


def _looks(observation: Observation) -> Steps[_Told]:
    """Ask for words, one at a time."""
    if observation.seen == "not at all":
        return observation, None
    while len(observation.looks) < MOST_WORDS:
        told = yield from ask(AnotherWordForIt() if observation.looks else HowDidItLook())
        match told.command:
            case HowItLookedAnswer.DONE | HowItLookedAnswer.SKIP:
                break
            case HowItLookedAnswer() as word:
                observation = yield from _noted(observation, looks=tuple(dict.fromkeys((*observation.looks, _LOOKS[word]))))
            case instead:
                return observation, Reply(instead, told.time, told.slots)
    return observation, None


def _steadiness(observation: Observation) -> Steps[_Told]:
    """Ask how steady the air is."""
    told = yield from ask(HowSteadyIsTheAir())
    if isinstance(told.command, OneToFiveAnswer):
        return (yield from _noted(observation, steadiness=_MARKS[told.command])), None
    return observation, Reply(told.command, told.time, told.slots)


def _clearness(observation: Observation) -> Steps[_Told]:
    """Ask how clear the air is."""
    told = yield from ask(HowClearIsTheAir())
    if isinstance(told.command, OneToFiveAnswer):
        return (yield from _noted(observation, clearness=_MARKS[told.command])), None
    return observation, Reply(told.command, told.time, told.slots)
