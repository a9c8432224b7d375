"""What a call on the line will come to: asked for at once, known later, never an exception."""

from __future__ import annotations

import threading
import time
from typing import Generic, TypeVar

from companion.mount.values import Failed

T = TypeVar("T")


class Pending(Generic[T]):
    """The outcome of one call. It is there by ``limit_s`` after the call at the latest: whoever asks later reads ``unanswered``."""

    def __init__(self, limit_s: float) -> None:
        """Begin the time."""
        self.deadline = time.monotonic() + limit_s
        self._known = threading.Event()
        self._outcome: T | Failed | None = None
        self._lock = threading.Lock()

    def resolve(self, outcome: T | Failed) -> None:
        """Say what came of it. Only the first word counts."""
        with self._lock:
            if self._outcome is None:
                self._outcome = outcome
        self._known.set()

    def outcome(self) -> T | Failed | None:
        """Return what came of it, None while that is open."""
        if self._outcome is None and time.monotonic() >= self.deadline:
            self.resolve(Failed("unanswered", "no answer in time"))
        return self._outcome

    def wait(self) -> T | Failed:
        """Return what came of it, as soon as it is known."""
        while (outcome := self.outcome()) is None:
            self._known.wait(max(self.deadline - time.monotonic(), 0.0))
        return outcome
