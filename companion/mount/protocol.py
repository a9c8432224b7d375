"""The one small protocol every adapter keeps.

Its calls block, for so long as they are allowed, so only ``Line`` makes them, on a thread of its own; whoever holds an evening talks
to ``Line``. Every call ends in its value or raises ``LineFault``: commands within the time they are given, and what asks for several
things within ``SEVERAL`` times that, but without an answer for so long as one may take.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import datetime
from typing import Protocol, TypeAlias

from companion.mount.commands import Command
from companion.mount.values import Identity, MountState, Settings

SEVERAL = 4
"""Where a standard wants a question for each thing, all of them together may take so many times what one answer may. Judgement: a slow
bridge is no empty one."""
Clock: TypeAlias = Callable[[], datetime]
"""Our own clock: aware times."""


class Adapter(Protocol):
    """A mount behind one standard."""

    @property
    def has_answered(self) -> bool:
        """Whether anything has answered since it was opened."""
        ...

    def open(self, limit_s: float) -> Identity:
        """Reach the mount, again if need be, and ask who it is and what it can."""
        ...

    def state(self, limit_s: float) -> MountState:
        """Ask where it points and what it does."""
        ...

    def settings(self, limit_s: float) -> Settings:
        """Ask what time and place it believes in."""
        ...

    def perform(self, command: Command, limit_s: float, halt: threading.Event) -> None:
        """Send a command and wait until the mount has taken it: a slew then goes on by itself, a nudge is over.

        ``halt`` ends a nudge early. Nothing is ever sent a second time.
        """
        ...

    def close(self) -> None:
        """Let go of the line, leaving the mount as it is. Never raises."""
        ...


class Stopper(Protocol):
    """What stops a mount, on a connection of its own that no other call can hold up."""

    def stop(self, limit_s: float) -> None:
        """Send the standard's stop; return when the mount has taken it."""
        ...

    def is_slewing(self, limit_s: float) -> bool | None:
        """Ask whether it turns; None where it doesn't tell."""
        ...

    def close(self) -> None:
        """Let go of the connection. Never raises."""
        ...
