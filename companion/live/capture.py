"""What the microphone hears next, and what is wrong with one that is there."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator

import numpy as np

from companion.hearing.stream import Captured
from companion.live.sound_devices import SoundDevices
from companion.talk.live_phrases import MicrophoneSilent, SoundDropped
from companion.talk.saying import Say

PERSISTENT_OVERFLOWS = 5
SILENT_SECONDS = 30.0
"""A microphone that gives nothing but zeros for so long from its opening on is switched off. Later zeros may be a headset's own gate."""


class Capture:
    """Sound in, as it comes from whichever microphone there is."""

    def __init__(self, devices: SoundDevices, rest: Callable[[float], None] = time.sleep) -> None:
        """Take where the microphone is, and what lets seconds pass while there is none to wait for."""
        self._devices = devices
        self._rest = rest
        self._told: set[Say] = set()
        self._has_sounded = False
        self._zeros: tuple[float, float] | None = None

    @property
    def is_possible(self) -> bool:
        """Whether there is a microphone."""
        return self._devices.microphone is not None

    def read(self, wait_seconds: float) -> Captured | None:
        """Return what has been heard next, or None when nothing comes within ``wait_seconds``."""
        if self._devices.microphone is None:
            self._rest(wait_seconds)
            return None
        captured = self._devices.microphone.read(wait_seconds)
        if captured is not None and not self._has_sounded:
            self._has_sounded = bool(np.any(captured.samples))
            self._zeros = (self._zeros[0] if self._zeros else captured.at, captured.at)
        return captured

    def flaws(self) -> Iterator[Say]:
        """Yield what is wrong with the microphone, each once."""
        silent = not self._has_sounded and self._zeros is not None and self._zeros[1] - self._zeros[0] > SILENT_SECONDS
        dropped = self._devices.microphone is not None and self._devices.microphone.overflows >= PERSISTENT_OVERFLOWS
        wrong: tuple[tuple[Say, bool], ...] = ((MicrophoneSilent(), silent), (SoundDropped(), dropped))
        for flaw, is_so in wrong:
            if is_so and flaw not in self._told:
                self._told.add(flaw)
                yield flaw
