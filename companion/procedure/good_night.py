"""End the evening safely: offer to remember what was told, then pack up one thing at a time, for as long as that is wanted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import assert_never

from companion import sky
from companion.equipment import Instrument
from companion.procedure.notes import Keep
from companion.procedure.script import Context, Done, Script, Skipped, ask
from companion.procedure.targets import Visited
from companion.talk.answers import PackingAnswer, YesNoAnswer
from companion.talk.packing_phrases import (
    CablesIn,
    CapBeforeItMoves,
    CapEverything,
    CapsOnFirst,
    DryAndChargeAtHome,
    EyepiecesIn,
    MindTheWeightAndGoodNight,
    ParkIt,
    SearchTheGround,
    SwitchItOff,
    TakeItDown,
    WhereThingsHide,
)
from companion.talk.saying import Ask, Say
from companion.talk.targets_phrases import GoodNight, ShallIRemember


def good_night(context: Context) -> Script:
    """Keep what was told only if that is wanted; get telescope and observer home in one piece."""
    if context.something_learned and (yield from ask(ShallIRemember())).command is YesNoAnswer.YES:
        yield Keep()
    sun_is_up = context.site_is_known and sky.sun_state(context.moment(context.started)).is_up
    visited = context.found(Visited)
    never_on = visited is not None and visited.by_hand_alone and isinstance(context.results.get("power"), Skipped)
    steps = _steps(context.equipment.instrument, sun_is_up=sun_is_up, never_on=never_on)
    done = 0
    while done < len(steps):
        told = (yield from ask(steps[done])).command
        match told:
            case PackingAnswer.DONE | PackingAnswer.SKIP:
                done += 1
            case PackingAnswer.MISSING:
                yield WhereThingsHide()
            case PackingAnswer.ENOUGH:
                yield from _in_short(steps[done:])
                return Done()
            case _:
                assert_never(told)
    yield DryAndChargeAtHome()
    return Done()


def _steps(instrument: Instrument, *, sun_is_up: bool, never_on: bool) -> tuple[Ask[PackingAnswer], ...]:
    """Return what is to be done, in order. Nothing turns an open tube while the Sun is up; nothing is carried over cables.

    A mount that was never switched on is neither parked nor switched off.
    """
    owned_mm = tuple(sorted((eyepiece.focal_length_mm for eyepiece in instrument.eyepieces), reverse=True))
    to_rest: tuple[Ask[PackingAnswer], ...] = () if never_on else (ParkIt(), SwitchItOff())
    first = (CapBeforeItMoves(), *to_rest) if sun_is_up else (*to_rest, CapEverything())
    return (*first, EyepiecesIn(owned_mm, instrument.has_diagonal is True), CablesIn(), TakeItDown(), SearchTheGround())


def _in_short(left: Sequence[Ask[PackingAnswer]]) -> Iterator[Say]:
    """Yield what must still be said to somebody who knows the rest: the cautions for what is to be done yet."""
    kinds = {type(step) for step in left}
    if CapBeforeItMoves in kinds:
        yield CapsOnFirst()
    if kinds & {ParkIt, SwitchItOff}:
        yield GoodNight()
    else:
        yield MindTheWeightAndGoodNight() if TakeItDown in kinds else DryAndChargeAtHome()
