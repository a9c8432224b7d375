"""Devices that are missing, go away and come back: what is tried when, and what is told."""

from __future__ import annotations

import contextlib
from dataclasses import dataclass, field

import pytest

from companion import devices
from companion.devices import MICROPHONE
from companion.errors import MissingPart
from companion.live.sound_devices import LOOK_SECONDS, MOST_OTHERS, Opener, SoundDevices
from companion.talk.live_phrases import LoudspeakerBack, LoudspeakerLost, MicrophoneBack, MicrophoneLost, OtherMicrophone


@dataclass
class Device:
    """Microphone or loudspeaker."""

    lost: bool = False
    overflows: int = 0
    closed: bool = False
    complains: bool = False
    name: str = "headset"

    def close(self) -> None:
        """Note it, or object as PortAudio does."""
        self.closed = True
        if self.complains:
            raise OSError("PaErrorCode -9988")


@dataclass
class Shop:
    """Where devices come from."""

    microphones: list[Device | None] = field(default_factory=list)
    loudspeakers: list[Device | None] = field(default_factory=list)
    looks: int = 0

    def devices(self) -> SoundDevices:
        """Open both; None in a list means that this time there is none."""
        return SoundDevices(lambda: self._next(self.microphones), lambda: self._next(self.loudspeakers), self._look)

    def _look(self) -> None:
        self.looks += 1

    @staticmethod
    def _next(shelf: list[Device | None]) -> Device:
        device = shelf.pop(0) if shelf else None
        if device is None:
            raise MissingPart("there is none; plug one in")
        return device


def test_what_is_missing_at_the_start() -> None:
    """Both may be missing; the screen gets each complaint once."""
    found = Shop().devices()
    assert found.microphone is None
    assert found.loudspeaker is None
    assert found.complaints == ["there is none; plug one in"]


def test_one_that_goes_away_and_comes_back() -> None:
    """It is told at once, looked for every few seconds, and told when it is back; closing it may fail without harm."""
    old, new, loudspeaker = Device(complains=True), Device(), Device()
    shop = Shop([old, None, new], [loudspeaker])
    found = shop.devices()
    assert found.mend(100.0, busy=True) == []
    old.lost = True
    assert found.mend(101.0, busy=True) == [MicrophoneLost()]
    assert old.closed
    assert found.mend(101.0 + LOOK_SECONDS - 0.1, busy=True) == []
    assert len(shop.microphones) == 2
    assert found.mend(101.0 + LOOK_SECONDS, busy=True) == []
    assert found.mend(101.0 + 2 * LOOK_SECONDS, busy=True) == [MicrophoneBack()]
    assert found.microphone is new
    assert (shop.looks, loudspeaker.closed) == (0, False)


@pytest.mark.parametrize("busy", [True, False])
def test_devices_are_counted_anew_only_in_quiet(busy: bool) -> None:
    """Counting anew closes and reopens the other device, too: never while we speak or listen to somebody."""
    first, again = Device(), Device()
    shop = Shop([None, None, Device()], [first, again, Device()])
    found = shop.devices()
    assert found.mend(10.0, busy=busy) == []
    assert shop.looks == (0 if busy else 1)
    assert first.closed is not busy
    assert found.loudspeaker is (first if busy else again)
    assert found.mend(20.0, busy=busy) == [MicrophoneBack()]


def test_looking_for_one_may_cost_the_other() -> None:
    """A loudspeaker that doesn't open again after a look for the microphone is told to be gone."""
    shop = Shop([None, Device()], [Device(), None])
    found = shop.devices()
    assert found.mend(10.0, busy=False) == [LoudspeakerLost(), MicrophoneBack()]


def test_both_gone_at_once() -> None:
    """A sound server that dies takes both; both are told, and both come back."""
    shop = Shop([Device(), Device()], [Device(), Device()])
    found = shop.devices()
    found.microphone.lost = found.loudspeaker.lost = True
    assert found.mend(5.0, busy=False) == [MicrophoneLost(), LoudspeakerLost()]
    assert found.mend(5.0 + LOOK_SECONDS, busy=False) == [LoudspeakerBack(), MicrophoneBack()]
    found.close()
    assert found.microphone.closed


def test_a_device_that_stays_away_is_looked_for_ever_less() -> None:
    """An hour without a loudspeaker interrupts the microphone fewer than forty times, once in two minutes at last."""
    shop = Shop([Device() for _ in range(100)])
    found = shop.devices()
    looks = []
    for second in range(3600):
        found.mend(float(second), busy=False)
        looks.append(shop.looks)
    assert looks[59] >= 3
    assert looks[-1] < 40
    assert looks[-1] - looks[-601] == pytest.approx(5, abs=1)


def test_another_microphone_in_its_place_is_told() -> None:
    """One that comes in place of another has a sentence of its own; the same one again is back."""
    headset, camera = Device(), Device(name="camera")
    found = Shop([headset, camera, camera, Device()], [Device(), Device(), Device()]).devices()
    headset.lost = True
    assert found.mend(10.0, busy=True) == [MicrophoneLost()]
    assert found.mend(10.0 + LOOK_SECONDS, busy=True) == [OtherMicrophone()]
    camera.lost = True
    assert found.mend(20.0, busy=True) == [MicrophoneLost()]
    camera.lost = False
    assert found.mend(20.0 + LOOK_SECONDS, busy=True) == [MicrophoneBack()]


def opened(known: list[str], refusing: set[str | None], monkeypatch: pytest.MonkeyPatch, **wanted: str | None) -> list[str | None]:
    """Open twice where these devices are known and some refuse (None: the default); return the names that were tried."""
    monkeypatch.setattr(devices, "present", lambda _: [devices.Device(number, name, 48_000, 1) for number, name in enumerate(known)])
    tried: list[str | None] = []

    def open_device(name: str | None) -> Device:
        tried.append(name)
        if name in refusing:
            raise MissingPart(f"{name} refuses")
        return Device(name=name or "default")

    opener = Opener(MICROPHONE, open_device, **{"named": None, "remembered": None, **wanted})
    for _ in range(2):
        with contextlib.suppress(MissingPart):
            opener()
    return tried


def test_which_device_is_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    """The remembered one where it is there, else the default, else another; one that is named is waited for until it has been there."""
    assert opened(["a", "b"], set(), monkeypatch, remembered="b") == ["b", "b"]
    assert opened(["a"], set(), monkeypatch, remembered="b") == [None, None]
    assert opened(["a", "b"], {None, "a"}, monkeypatch) == [None, "a", "b"] * 2
    assert opened(["a"], {"b"}, monkeypatch, named="b") == ["b", "b"]
    assert opened(["a"], set(), monkeypatch, named="b") == ["b", None]
    many = [f"device {number}" for number in range(40)]
    assert len(opened(many, {None, *many}, monkeypatch)) == 2 * (1 + MOST_OTHERS)
