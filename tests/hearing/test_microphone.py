"""The microphone, with a stand-in for PortAudio: rates, names, queues, and devices that go away."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from companion.devices import MICROPHONE, find
from companion.errors import MissingPart
from companion.hearing import microphone
from companion.hearing.microphone import Microphone


class PortAudioError(Exception):
    """What the library raises."""


class Status:
    """What a callback is told."""

    def __init__(self, overflow: bool = False) -> None:
        """Say whether sound was lost."""
        self.input_overflow = overflow


class Stream:
    """An open device."""

    def __init__(self, callback: Callable[..., None], finished_callback: Callable[[], None], **settings: Any) -> None:
        """Keep how it was opened."""
        self.settings = settings
        self.give = callback
        self.end = finished_callback
        self.closed = False

    def start(self) -> None:
        """Do nothing."""

    def close(self) -> None:
        """Note it."""
        self.closed = True


class Default:
    """The system's choice."""

    device = (2, 0)


class PortAudio:
    """Stands for the module."""

    def __init__(self, *, rates: tuple[int, ...] = (48_000,), channels: tuple[int, ...] = (1,)) -> None:
        """Take which settings the devices accept."""
        self.PortAudioError = PortAudioError
        self.default = Default()
        self.streams: list[Stream] = []
        self._rates, self._channels = rates, channels

    @staticmethod
    def query_devices() -> list[dict[str, Any]]:
        """Return a loudspeaker and two microphones."""
        return [
            {"name": "Speakers", "max_input_channels": 0, "default_samplerate": 48_000.0},
            {"name": "Built-in Mic", "max_input_channels": 2, "default_samplerate": 44_100.0},
            {"name": "USB Headset", "max_input_channels": 2, "default_samplerate": 48_000.0},
        ]

    def check_input_settings(self, *, samplerate: int, channels: int, **_: Any) -> None:
        """Refuse what the devices can't do."""
        if samplerate not in self._rates or channels not in self._channels:
            raise PortAudioError("Invalid sample rate [PaErrorCode -9997]")

    def InputStream(self, **settings: Any) -> Stream:  # noqa: N802 -- the library's name
        """Open a device."""
        self.streams.append(Stream(**settings))
        return self.streams[-1]


@pytest.fixture
def portaudio(monkeypatch: pytest.MonkeyPatch) -> Callable[..., PortAudio]:
    """Return what puts a stand-in in the library's place."""

    def put(**settings: Any) -> PortAudio:
        module = PortAudio(**settings)
        monkeypatch.setitem(sys.modules, "sounddevice", module)
        return module

    return put


def block(seconds: float, rate_hz: int, level: float, channels: int = 1) -> np.ndarray:
    """Return a tone of 440 Hz."""
    tone = level * np.sin(2 * np.pi * 440 * np.arange(round(seconds * rate_hz)) / rate_hz)
    return np.repeat(tone[:, np.newaxis], channels, axis=1).astype(np.float32)


def test_the_default_at_its_own_rate(portaudio: Callable[..., PortAudio]) -> None:
    """Without a name the system's choice is opened, at its own rate, mono, with the sound as 16 kHz."""
    module = portaudio()
    with Microphone() as opened:
        assert (opened.name, opened.rate_hz) == ("USB Headset", 48_000)
        for _ in range(20):
            module.streams[0].give(block(0.05, 48_000, 0.5), 2400, None, Status())
        heard = np.concatenate([captured.samples for _ in range(20) if (captured := opened.read(0.01)) is not None])
    assert len(heard) == pytest.approx(16_000, abs=800)
    assert np.sqrt(np.mean(heard[2000:-2000] ** 2)) == pytest.approx(0.5 / np.sqrt(2), rel=0.01)
    assert module.streams[0].closed


def test_a_refused_rate_is_followed_by_others(portaudio: Callable[..., PortAudio]) -> None:
    """A device that refuses the rate it calls its own is tried at others, and in stereo; the sound is mixed to mono."""
    module = portaudio(rates=(32_000,), channels=(2,))
    opened = Microphone("built-in")
    assert (opened.name, opened.rate_hz) == ("Built-in Mic", 32_000)
    assert module.streams[0].settings["channels"] == 2
    module.streams[0].give(block(0.2, 32_000, 0.5, channels=2), 6400, None, Status())
    captured = opened.read(0.01)
    assert captured is not None
    assert captured.samples.ndim == 1


def test_a_device_that_refuses_everything(portaudio: Callable[..., PortAudio]) -> None:
    """The error names the device and the choices, and has a sentence for the dark."""
    portaudio(rates=())
    with pytest.raises(MissingPart, match=r"'USB Headset' can't be opened .*-9997.*; choose another: Built-in Mic, USB Headset"):
        Microphone()


def test_a_name_that_is_not_there(portaudio: Callable[..., PortAudio]) -> None:
    """An unknown name lists those that are."""
    portaudio()
    with pytest.raises(MissingPart, match="no microphone is called 'Moon'; there are Built-in Mic, USB Headset"):
        find(MICROPHONE, "Moon")
    assert find(MICROPHONE, "headset").index == 2


def test_no_microphone_at_all(portaudio: Callable[..., PortAudio], monkeypatch: pytest.MonkeyPatch) -> None:
    """A machine with a loudspeaker only is told to type; one without the library how to get it."""
    module = portaudio()
    monkeypatch.setattr(module, "query_devices", lambda: PortAudio.query_devices()[:1])
    with pytest.raises(MissingPart, match="there is no microphone; plug one in, or type"):
        find(MICROPHONE, None)
    monkeypatch.setitem(sys.modules, "sounddevice", None)
    with pytest.raises(MissingPart, match="pip install sounddevice"):
        find(MICROPHONE, None)


def test_overflows_are_counted(portaudio: Callable[..., PortAudio]) -> None:
    """Sound the device lost, and sound we were too late for, is counted; the queue stays bounded."""
    module = portaudio()
    opened = Microphone()
    module.streams[0].give(block(0.032, 48_000, 0.1), 1536, None, Status(overflow=True))
    assert opened.overflows == 1
    size = round(microphone.QUEUE_SECONDS / microphone.BLOCK_SECONDS)
    for _ in range(size + 4):
        module.streams[0].give(block(0.032, 48_000, 0.1), 1536, None, Status())
    assert opened.overflows == 1 + 5


def test_a_device_that_ends_or_falls_silent_is_lost(portaudio: Callable[..., PortAudio], monkeypatch: pytest.MonkeyPatch) -> None:
    """Ended by the system, or without a block for two seconds: lost, once the queue is read; closing it ourselves isn't."""
    module = portaudio()
    opened = Microphone()
    module.streams[0].give(block(0.032, 48_000, 0.1), 1536, None, Status())
    module.streams[0].end()
    assert not opened.lost
    opened.read(0.01)
    assert opened.lost
    other = Microphone()
    assert not other.lost
    now = time.monotonic()
    monkeypatch.setattr(microphone.time, "monotonic", lambda: now + 3.0)
    assert other.lost
    third = Microphone()
    third.close()
    module.streams[2].end()
    assert not third.lost
