"""Silence is left alone for a good while, broken once, and not again before somebody has spoken; at the eyepiece now and then."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from companion.messages import Hearing, Silence

REMINDER_SECONDS = 45.0
"""Hands are busy: silence is left alone for so long."""
AT_THE_EYEPIECE_SECONDS = 300.0
"""Whoever looks doesn't speak: every so often there may be something worth a word. Judgement."""


class Patience:
    """Hears silence, when it has lasted too long."""

    def __init__(self, clock: Callable[[], float], is_busy: Callable[[], bool]) -> None:
        """Take a clock, in seconds, and who knows whether anybody, we included, is speaking. There is nothing to wait for yet."""
        self._clock = clock
        self._is_busy = is_busy
        self._since: float | None = None
        self._seconds = REMINDER_SECONDS

    def wait(self, seconds: float = REMINDER_SECONDS) -> None:
        """Begin to wait for an answer; silence is heard after so many seconds."""
        self._since = self._clock()
        self._seconds = seconds

    def wait_no_longer(self) -> None:
        """Leave the silence alone: it was reminded of, or asked for."""
        self._since = None

    def hearings(self) -> Iterator[Hearing]:
        """Yield Silence when it is time for the one reminder."""
        if self._since is None:
            return
        if self._is_busy():
            self._since = self._clock()
        elif self._clock() - self._since >= self._seconds:
            self._since = None
            yield Silence()
