"""Microphone and loudspeaker together: opened where possible, missed when they go away, looked for again, and told about."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterator
from typing import Generic, Protocol, TypeVar

from companion import devices
from companion.devices import DeviceKind
from companion.errors import CompanionError, MissingPart
from companion.hearing.stream import Captured
from companion.speaking.speaker import SoundOut
from companion.talk.live_phrases import (
    LoudspeakerBack,
    LoudspeakerLost,
    MicrophoneBack,
    MicrophoneLost,
    OtherLoudspeaker,
    OtherMicrophone,
)
from companion.talk.saying import Say

_Device = TypeVar("_Device")

LOOK_SECONDS = 3.0
"""Between two looks for a device that is missing."""
LONGEST_GAP_SECONDS = 120.0
"""Between two looks that interrupt the other device: at first twice LOOK_SECONDS, each fruitless one doubles it up to this."""


MOST_OTHERS = 4
"""Devices tried in place of the wanted one and the default: a system may list dozens, and each that refuses takes its time."""


class SoundIn(Protocol):
    """A microphone, or what stands for it in a test."""

    overflows: int

    @property
    def name(self) -> str:
        """What the system calls it."""
        ...

    @property
    def lost(self) -> bool:
        """Whether the device went away."""
        ...

    def read(self, wait_seconds: float) -> Captured | None:
        """Return what has been heard next, or None when nothing comes within ``wait_seconds``."""
        ...

    def close(self) -> None:
        """Give the device back."""
        ...


class Opener(Generic[_Device]):
    """Opens the device that is wanted, else another one: the system's default, then whichever can be opened."""

    def __init__(
        self, kind: DeviceKind, open_device: Callable[[str | None], _Device], *, named: str | None, remembered: str | None
    ) -> None:
        """Take how one is opened by its name; one that was ``named`` for this evening is waited for until it has been there once."""
        self._kind = kind
        self._open_device = open_device
        self._wanted = named or remembered
        self._insists = named is not None

    def __call__(self) -> _Device:
        """Return it opened. Raises CompanionError, the first complaint, where none can be."""
        if self._insists:
            device = self._open_device(self._wanted)
            self._insists = False
            return device
        complaint: CompanionError | None = None
        for name in self._in_turn():
            try:
                return self._open_device(name)
            except CompanionError as error:
                complaint = complaint or error
        raise complaint or MissingPart(f"no {self._kind.name} can be opened")

    def _in_turn(self) -> Iterator[str | None]:
        known = [device.name for device in devices.present(self._kind)]
        if self._wanted is not None and self._wanted in known:
            yield self._wanted
        yield None
        yield from known[:MOST_OTHERS]


class SoundDevices:
    """Both devices. ``microphone`` and ``loudspeaker`` are None while they are missing."""

    def __init__(
        self,
        open_microphone: Callable[[], SoundIn],
        open_loudspeaker: Callable[[], SoundOut],
        look_again: Callable[[], None] = devices.look_again,
    ) -> None:
        """Take how each is opened (raising CompanionError), and how devices plugged in since are found, which closes both."""
        self._open_microphone = open_microphone
        self._open_loudspeaker = open_loudspeaker
        self._look_again = look_again
        self._looked_at = 0.0
        self._thorough_at = 0.0
        self._gap_seconds = 2 * LOOK_SECONDS
        self.complaints: list[str] = []
        """Why each missing device could not be opened first, for the screen."""
        self.microphone = self._opened(open_microphone)
        self.loudspeaker = self._opened(open_loudspeaker)
        self._names = (self._named(self.microphone), self._named(self.loudspeaker))
        """Of those that were there last."""

    def mend(self, now: float, *, busy: bool) -> list[Say]:
        """Let go of what went away and look for what is missing; return what tells what changed.

        Now and then PortAudio has to count its devices anew, which interrupts the other device: not while it is ``busy``.
        """
        news: list[Say] = []
        if self.microphone is not None and self.microphone.lost:
            _closed(self.microphone)
            self.microphone = None
            news.append(MicrophoneLost())
        if self.loudspeaker is not None and self.loudspeaker.lost:
            _closed(self.loudspeaker)
            self.loudspeaker = None
            news.append(LoudspeakerLost())
        if news:
            self._looked_at, self._thorough_at, self._gap_seconds = now, now, 2 * LOOK_SECONDS
            return news
        if (self.microphone is not None and self.loudspeaker is not None) or now - self._looked_at < LOOK_SECONDS:
            return []
        self._looked_at = now
        thoroughly = now >= self._thorough_at and not busy
        if thoroughly:
            self._thorough_at = now + self._gap_seconds
            self._gap_seconds = min(2 * self._gap_seconds, LONGEST_GAP_SECONDS)
        return self._look(thoroughly=thoroughly)

    @property
    def missing(self) -> tuple[str, ...]:
        """What each device that is missing is called."""
        held = ((devices.MICROPHONE, self.microphone), (devices.LOUDSPEAKER, self.loudspeaker))
        return tuple(kind.name for kind, device in held if device is None)

    def look_thoroughly(self) -> list[Say]:
        """Count the devices anew, and open both again; return what tells what changed."""
        return self._look(thoroughly=True)

    def close(self) -> None:
        """Give both back."""
        for device in (self.microphone, self.loudspeaker):
            if device is not None:
                _closed(device)

    def _look(self, *, thoroughly: bool) -> list[Say]:
        had_microphone, had_loudspeaker = self.microphone is not None, self.loudspeaker is not None
        if thoroughly:
            self.close()
            self.microphone = self.loudspeaker = None
            with contextlib.suppress(CompanionError):
                self._look_again()
        self.microphone = self.microphone or self._opened(self._open_microphone)
        self.loudspeaker = self.loudspeaker or self._opened(self._open_loudspeaker)
        (heard_by, spoken_by), now = self._names, (self._named(self.microphone), self._named(self.loudspeaker))
        self._names = (now[0] or heard_by, now[1] or spoken_by)
        news: list[Say] = []
        if had_loudspeaker and now[1] is None:
            news.append(LoudspeakerLost())
        elif now[1] is not None and (now[1] != spoken_by or not had_loudspeaker):
            news.append(LoudspeakerBack() if spoken_by in (None, now[1]) else OtherLoudspeaker())
        if had_microphone and now[0] is None:
            news.append(MicrophoneLost())
        elif now[0] is not None and (now[0] != heard_by or not had_microphone):
            news.append(MicrophoneBack() if heard_by in (None, now[0]) else OtherMicrophone())
        return news

    @staticmethod
    def _named(device: SoundIn | SoundOut | None) -> str | None:
        return None if device is None else device.name

    def _opened(self, open_device: Callable[[], _Device]) -> _Device | None:
        try:
            return open_device()
        except CompanionError as error:
            if str(error) not in self.complaints:
                self.complaints.append(str(error))
            return None


def _closed(device: SoundIn | SoundOut) -> None:
    """Close a device, whatever it says to that: one that is gone may complain."""
    with contextlib.suppress(Exception):  # PortAudio has many ways to object, and none of them helps here
        device.close()
