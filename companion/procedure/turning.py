"""Turning a mount on the line to something: announced, asked for, watched, and never where the way isn't clear."""

from __future__ import annotations

from datetime import datetime
from typing import Literal, TypeAlias, cast

from companion.procedure.mount_calls import TurnTo, came_to_nothing, read_mount
from companion.procedure.script import Steps, ask, told_by
from companion.talk.answers import TurnAnswer, TurningAnswer
from companion.talk.mount_phrases import (
    Halted,
    ItSaysItTurns,
    MayITurnThere,
    NotTurned,
    NotTurning,
    TurningThereNow,
    WasHalted,
    WhileItTurns,
)
from companion.talk.saying import Ask

GOOD_TURNS = 2
"""After so many turns that went well the next is announced, not asked for."""
ALIGNED_WITHIN_DEG = 5.0
"""How far an aligned mount may be wrong about where it points, before it is proven. Judgement: a miss that a finder shows."""
Turned: TypeAlias = Literal["arrived", "by-hand", "halted"]


def turn_to(name: str, time: datetime, good_turns: int) -> Steps[tuple[Turned, datetime]]:
    """Turn the mount to something if that is wanted; return how it went, and when it was over."""
    if good_turns >= GOOD_TURNS:
        yield TurningThereNow(name)
    else:
        wanted = yield from ask(MayITurnThere(name))
        time = wanted.time
        if wanted.command is not TurnAnswer.TURN_THERE:
            return "by-hand", time
    why = came_to_nothing((yield from told_by(TurnTo(name, ALIGNED_WITHIN_DEG))))
    if why is not None:
        yield NotTurning(cast(NotTurned, why))
        return "by-hand", time
    return (yield from _until_it_stands())


def _until_it_stands() -> Steps[tuple[Turned, datetime]]:
    """Wait until it stands by the line; where only the observer says so and the line differs, ask again."""
    question: Ask[TurningAnswer] = WhileItTurns()
    while True:
        told = yield from ask(question)
        if told.command is TurningAnswer.HALTED:
            yield WasHalted(cast(Halted, told.slots.get("why", "asked")))
            return "halted", told.time
        read = yield from read_mount()
        if read is None or not read.slewing:
            return ("arrived" if told.command is TurningAnswer.ARRIVED else "halted"), told.time
        question = ItSaysItTurns()
