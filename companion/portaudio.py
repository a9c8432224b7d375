"""PortAudio's calls on threads of their own, since some never come back.

ALSA's plug-in for sound servers waits for ever for one that hangs, and it seems sometimes for one that has died.
"""

from __future__ import annotations

import atexit
import contextlib
import importlib
import sys
import threading
import time
from collections.abc import Callable
from concurrent.futures import Future
from typing import Any, TypeVar

from companion.errors import MissingPart

_Answer = TypeVar("_Answer")

ANSWER_SECONDS = 8.0
"""Opening a Bluetooth headset takes some seconds; what takes longer than this may never come back."""
CLOSING_SECONDS = 2.0
"""Closing takes some hundredths."""
REST_SECONDS = 30.0
"""After a call that doesn't come back nothing is asked for so long: each one in vain holds the evening up."""
_CAN_HANG = sys.platform.startswith("linux")
"""Elsewhere PortAudio wants all its calls on the thread that loaded it."""


class PortAudio:
    """The library, asked but not waited for too long."""

    def __init__(self, complaint: str) -> None:
        """Take what to say of a call that doesn't come back."""
        self._complaint = complaint
        self._under_way: set[object] = set()
        self._rests_until = 0.0

    @property
    def is_stuck(self) -> bool:
        """Whether some call hasn't come back yet."""
        return bool(self._under_way)

    def module(self) -> Any:
        """Return sounddevice, which has PortAudio look for devices when it is loaded.

        Raises what importing it raises, and MissingPart where that doesn't come back.
        """
        return self.ask(lambda: importlib.import_module("sounddevice"))

    def ask(self, call: Callable[[], _Answer], too_late: Callable[[_Answer], object] = lambda _: None) -> _Answer:
        """Return what a call returns, or raise what it raises; raises MissingPart where it doesn't come back.

        What it returns after all is handed to ``too_late``.
        """
        if self._rests:
            raise MissingPart(self._complaint)
        return self._answer(call, ANSWER_SECONDS, too_late)

    def tell(self, call: Callable[[], None]) -> None:
        """Have a call done, whether or not it comes back."""
        with contextlib.suppress(MissingPart):
            self._answer(call, 0.0 if self._rests else CLOSING_SECONDS, lambda _: None)

    @property
    def _rests(self) -> bool:
        return time.monotonic() < self._rests_until

    def _answer(self, call: Callable[[], _Answer], seconds: float, too_late: Callable[[_Answer], object]) -> _Answer:
        if not _CAN_HANG:
            return call()
        token = object()

        def noted() -> _Answer:
            try:
                return call()
            finally:
                self._under_way.discard(token)

        self._under_way.add(token)
        try:
            return _in_time(noted, seconds, too_late)
        except TimeoutError as error:
            self._rests_until = time.monotonic() + REST_SECONDS
            if "sounddevice" in sys.modules:
                # At the end of the process it would wait for that call.
                atexit.unregister(sys.modules["sounddevice"]._exit_handler)
            raise MissingPart(self._complaint) from error


def _in_time(call: Callable[[], _Answer], seconds: float, too_late: Callable[[_Answer], object]) -> _Answer:
    """Return what a call returns, or raise what it raises; raises TimeoutError where it isn't back within ``seconds``.

    It runs on a thread that no end of the process waits for.
    """
    future: Future[_Answer] = Future()

    def run() -> None:
        try:
            answer = call()
        except BaseException as error:
            if future.set_running_or_notify_cancel():
                future.set_exception(error)
        else:
            if future.set_running_or_notify_cancel():
                future.set_result(answer)
            else:
                too_late(answer)

    threading.Thread(target=run, name="PortAudio", daemon=True).start()
    try:
        return future.result(seconds)
    except TimeoutError:
        if future.cancel():
            raise
        # It came at the last moment.
        return future.result()
