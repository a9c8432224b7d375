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
    WasHalted,
    WhileItTurns,
)
from companion.talk.saying import Ask

ALIGNED_WITHIN_DEG = 5.0
"""How far an aligned mount may be wrong about where it points, before it is proven. Judgement: a miss that a finder shows."""
ANYWHERE_DEG = 180.0
"""How far a mount may be wrong that has not been aligned."""
Turned: TypeAlias = Literal["arrived", "by-hand", "stopped", "halted"]
"""``stopped``: the observer had it halted, or nobody watched it after we were cut off; ``halted``: for another reason."""


def why_not_now(*, aligned: bool = True) -> Steps[NotTurned | None]:
    """Return why the mount can't be turned over the line now, before any way is looked at; None where it can."""
    told = yield from read_mount()
    if told is None:
        return "line"
    if told.left_alone:
        return "hands-off"
    if not {"slew", "slew_altaz"} & told.can:
        return "cannot"
    return None if aligned else "unaligned"


def turn_to(name: str, time: datetime) -> Steps[tuple[Turned, datetime]]:
    """Turn the mount to something if that is wanted; return how it went, and when it was over."""
    wanted = yield from ask(MayITurnThere(name))
    if wanted.command is not TurnAnswer.TURN_THERE:
        return "by-hand", wanted.time
    return (yield from turn_now(name, wanted.time))


def turn_now(name: str, time: datetime) -> Steps[tuple[Turned, datetime]]:
    """Turn the mount to something after the observer has asked for it; return how it went, and when it was over."""
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
        if "why" in told.slots:
            why = cast(Halted, told.slots["why"])
            yield WasHalted(why)
            return ("stopped" if why in ("asked", "unwatched") else "halted"), told.time
        read = yield from read_mount()
        if read is None or not read.slewing:
            return ("arrived" if told.command is TurningAnswer.ARRIVED else "halted"), told.time
        question = ItSaysItTurns()
