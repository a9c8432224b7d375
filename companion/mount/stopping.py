"""Stopping: a thread that waits for nothing but to be told to stop, on a connection nothing else uses."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable

from companion.mount.pending import Pending
from companion.mount.protocol import Stopper
from companion.mount.values import Failed, LineFault, Standstill

STOP_LIMIT_S = 4.0
"""For all tries together. Judgement: longer than any slow answer we have seen, shorter than a person takes to reach the power."""
TRY_LIMIT_S = 1.0
PAUSE_S = 0.1
"""Between two tries, and between two questions whether it stands."""
SETTLING_S = 0.6
"""A mount that slows down is given so long before it is told again. Judgement."""


class Stopping:
    """Stops one mount as often as told, until it says that it stands or the time is up."""

    def __init__(self, stopper: Stopper, may_begin: Callable[[], bool]) -> None:
        """Take what stops, and what tells whether a call that may begin a motion is under way: the stop is sent again after it."""
        self.count = 0
        """How many stops have been called."""
        self._stopper, self._may_begin = stopper, may_begin
        self._wake = threading.Condition()
        self._waiting: list[tuple[float, Pending[Standstill]]] = []
        self._busy = False
        self._closing = False
        self._thread = threading.Thread(target=self._run, name="mount stop", daemon=True)

    @property
    def is_busy(self) -> bool:
        """Whether a stop has been called whose outcome isn't known yet: nothing may be set going meanwhile."""
        with self._wake:
            return self._busy or bool(self._waiting)

    def start(self) -> None:
        """Be ready."""
        self._thread.start()

    def close(self) -> None:
        """End, after the stops that have been called."""
        with self._wake:
            self._closing = True
            self._wake.notify_all()
        self._thread.join(STOP_LIMIT_S if self._waiting else 1.0)

    def stop(self) -> Pending[Standstill]:
        """Stop at once."""
        # The outcome is always known a little after the last try at the latest.
        pending: Pending[Standstill] = Pending(STOP_LIMIT_S + TRY_LIMIT_S)
        with self._wake:
            self.count += 1
            self._waiting.append((time.monotonic(), pending))
            self._wake.notify_all()
        return pending

    def _run(self) -> None:
        while True:
            with self._wake:
                self._wake.wait_for(lambda: bool(self._waiting) or self._closing)
                waiting, self._waiting = self._waiting, []
                self._busy = bool(waiting)
            if not waiting:
                return
            outcome = self._stop_now(waiting[0][0])
            self._stopper.close()
            with self._wake:
                self._busy = False
            for _, pending in waiting:
                pending.resolve(outcome)

    def _stop_now(self, called_at: float) -> Standstill | Failed:
        deadline = called_at + STOP_LIMIT_S
        taken_at: float | None = None
        last = Failed("unanswered", "no time was left")
        while (left_s := deadline - time.monotonic()) > 0:
            try:
                self._stopper.stop(min(TRY_LIMIT_S, left_s))
                taken_at = taken_at or time.monotonic()
                told, stands = self._stands(min(deadline, time.monotonic() + SETTLING_S))
                if not told or stands:
                    return Standstill(taken_at - called_at, stands)
            except Exception as error:
                last = error.failed if isinstance(error, LineFault) else Failed("nonsense", f"{type(error).__name__}: {error}"[:300])
                self._stopper.close()
                time.sleep(PAUSE_S)
        return last if taken_at is None else Standstill(taken_at - called_at, confirmed=False)

    def _stands(self, until: float) -> tuple[bool, bool]:
        """Return whether the mount tells if it turns, and whether it stands with nothing on the way to it that might move it."""
        while True:
            slewing = self._stopper.is_slewing(TRY_LIMIT_S)
            busy = self._may_begin()
            if slewing is False and not busy:
                return True, True
            if slewing is None and not busy:
                return False, False
            if time.monotonic() >= until:
                return True, False
            time.sleep(PAUSE_S)
