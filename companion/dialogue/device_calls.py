"""Who sees to what a script wants of a device, and how its answers look: the dialogue knows no device itself."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import TypeAlias

from companion.messages import Answer, Slots
from companion.sky import Moment
from companion.talk.saying import Call, Outcome

Calls: TypeAlias = Callable[[Call, str, Moment], Answer]
"""Does a call under an id, at a moment, and says what came of it; never raises. An id is used once."""


def done(time: datetime, slots: Slots) -> Answer:
    """Return the answer that a call was done, with what was told."""
    return Answer(str(Outcome.DONE), time, slots)


def failed(why: str, time: datetime) -> Answer:
    """Return the answer that a call came to nothing."""
    return Answer(str(Outcome.FAILED), time, {"why": why})


def ask_nobody(call: Call, id: str, moment: Moment) -> Answer:
    """Do nothing: no device is there, as when an evening with a mount on the line is gone on with without it."""
    return failed("no-link", moment.time)
