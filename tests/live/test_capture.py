"""What comes from the microphone, and what is told of one that gives nothing or too much."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import pytest

from companion.errors import MissingPart
from companion.hearing.stream import Captured
from companion.live.capture import PERSISTENT_OVERFLOWS, SILENT_SECONDS, Capture
from companion.live.sound_devices import SoundDevices
from companion.talk.live_phrases import MicrophoneSilent, SoundDropped
from companion.talk.saying import Say


@dataclass
class Microphone:
    """Gives what it was given."""

    captured: list[Captured] = field(default_factory=list)
    overflows: int = 0
    lost: bool = False
    name: str = "a microphone"

    def read(self, wait_seconds: float) -> Captured | None:
        """Return what was captured next."""
        return self.captured.pop(0) if self.captured else None

    def close(self) -> None:
        """Do nothing."""


def absent() -> Microphone:
    """Open a device that isn't there."""
    raise MissingPart("there is none")


def test_what_the_microphone_gives_comes_out() -> None:
    """It comes as it is; without a microphone nothing does, and the time passes all the same."""
    heard, rested = Captured(np.zeros(3, np.float32), 5.0), list[float]()
    there = Capture(SoundDevices(lambda: Microphone([heard]), absent), rested.append)
    assert there.is_possible
    assert there.read(0.05) is heard
    assert rested == []
    gone = Capture(SoundDevices(absent, absent), rested.append)
    assert not gone.is_possible
    assert gone.read(0.05) is None
    assert rested == [0.05]


@pytest.mark.parametrize(("first", "told"), [(0.0, [MicrophoneSilent()]), (1e-5, [])], ids=["switched off", "a single sound"])
def test_a_microphone_that_gives_only_zeros_is_told_once(first: float, told: list[Say]) -> None:
    """Half a minute of zeros from its opening on; with a single sample of sound it counts as switched on."""
    levels = ((first, 5.0), (0.0, 20.0), (0.0, 5.1 + SILENT_SECONDS))
    microphone = Microphone([Captured(np.full(3, level, np.float32), at) for level, at in levels])
    capture = Capture(SoundDevices(lambda: microphone, absent))
    for _ in levels:
        assert list(capture.flaws()) == []
        capture.read(0.05)
    assert list(capture.flaws()) == told
    assert list(capture.flaws()) == []


def test_lost_sound_is_told_once() -> None:
    """A few overflows are nothing; when they go on, one sentence."""
    microphone = Microphone(overflows=PERSISTENT_OVERFLOWS - 1)
    capture = Capture(SoundDevices(lambda: microphone, absent))
    assert list(capture.flaws()) == []
    microphone.overflows += 1
    assert list(capture.flaws()) == [SoundDropped()]
    assert list(capture.flaws()) == []
