"""Silence is left alone for a good while, broken once, and not again before somebody has spoken."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from companion.messages import Hearing, Silence

REMINDER_SECONDS = 45.0
"""Hands are busy: silence is left alone for so long."""


class Patience:
    """Hears silence, when it has lasted too long."""

    def __init__(self, clock: Callable[[], float], is_busy: Callable[[], bool]) -> None:
        """Take a clock, in seconds, and who knows whether anybody, we included, is speaking. There is nothing to wait for yet."""
        self._clock = clock
        self._is_busy = is_busy
        self._since: float | None = None

    def wait(self) -> None:
        """Begin to wait for an answer."""
        self._since = self._clock()

    def wait_no_longer(self) -> None:
        """Leave the silence alone: it was reminded of, or asked for."""
        self._since = None

    def hearings(self) -> Iterator[Hearing]:
        """Yield Silence when it is time for the one reminder."""
        if self._since is None:
            return
        if self._is_busy():
            self._since = self._clock()
        elif self._clock() - self._since >= REMINDER_SECONDS:
            self._since = None
            yield Silence()
