"""PortAudio, through ``sounddevice``: loaded only when a device is wanted, so that a machine without it gets a remedy, not a traceback."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal

from companion.errors import DeviceMissing, MissingPart
from companion.portaudio import PortAudio


@dataclass(frozen=True)
class DeviceKind:
    """Microphones, or loudspeakers."""

    name: str
    """What one is called."""
    side: Literal["input", "output"]
    """PortAudio's word for it."""
    remedy: str
    """What to do where there is none."""


_SILENTLY = "'start --text' or 'say --out FILE.wav'"
"""What goes without sound devices."""
MICROPHONE = DeviceKind("microphone", "input", "plug one in, or type your answers")
LOUDSPEAKER = DeviceKind("loudspeaker", "output", f"plug one in, or use {_SILENTLY}")
_HANGS = f"the sound system doesn't answer; start its sound server again, or use {_SILENTLY}"
_portaudio = PortAudio(_HANGS)


@dataclass(frozen=True)
class Device:
    """A microphone or a loudspeaker as PortAudio sees it."""

    index: int
    """PortAudio's number for it, until ``look_again``."""
    name: str
    """As the system calls it."""
    rate_hz: int
    """The rate it likes best."""
    channels: int
    """How many it has."""


def present(kind: DeviceKind) -> list[Device]:
    """Return every device of a kind; raises MissingPart where sounddevice or PortAudio isn't installed."""
    return [
        Device(index, device["name"], int(device["default_samplerate"]), device[f"max_{kind.side}_channels"])
        for index, device in enumerate(sounddevice().query_devices())
        if device[f"max_{kind.side}_channels"] > 0
    ]


def find(kind: DeviceKind, wanted: str | None) -> Device:
    """Return the first device of this name, else the first whose name holds it, in any case; the system's default for None.

    Raises DeviceMissing that lists the choices when there is none.
    """
    known = present(kind)
    if not known:
        raise DeviceMissing(f"there is no {kind.name}; {kind.remedy}", is_microphone=kind is MICROPHONE)
    if wanted is None:
        default_index = sounddevice().default.device[("input", "output").index(kind.side)]
        return next((device for device in known if device.index == default_index), known[0])
    exact = [device for device in known if device.name.casefold() == wanted.casefold()]
    matching = exact or [device for device in known if wanted.casefold() in device.name.casefold()]
    if not matching:
        raise DeviceMissing(f"no {kind.name} is called {wanted!r}; there are {names(kind)}", is_microphone=kind is MICROPHONE)
    return matching[0]


def names(kind: DeviceKind) -> str:
    """Return the names of all devices of a kind, for an error to list."""
    return ", ".join(device.name for device in present(kind))


def sounddevice() -> Any:
    """Return the module. Raises MissingPart where sounddevice or PortAudio isn't installed, or doesn't answer."""
    try:
        return _portaudio.module()
    except ImportError as error:
        raise MissingPart(f"sounddevice is not installed; pip install sounddevice, or use {_SILENTLY}") from error
    except OSError as error:
        raise MissingPart(f"{error}; install it (Debian: sudo apt install libportaudio2), or use {_SILENTLY}") from error


def opened(open_stream: Callable[[], Any]) -> Any:
    """Return the stream that a call opens, or raise what it raises. Raises MissingPart where it doesn't come back."""
    return _portaudio.ask(open_stream, too_late=let_go)


def let_go(stream: Any) -> None:
    """Close a stream, whatever it says to that; where it doesn't come back from it, it is left as it is."""

    def close() -> None:
        with contextlib.suppress(Exception):  # PortAudio has many ways to object, and none of them helps here
            stream.close()

    _portaudio.tell(close)


def look_again() -> None:
    """Have PortAudio count the devices anew; raises MissingPart where it can't.

    It ends every stream of the process: close them first, and open them again afterwards.
    """
    module = sounddevice()
    if _portaudio.is_stuck:
        raise MissingPart(f"sound devices can't be looked for: {_HANGS}")

    def count_anew() -> None:
        module._terminate()
        module._initialize()

    try:
        _portaudio.ask(count_anew)
    except module.PortAudioError as error:
        raise MissingPart(f"sound devices can't be looked for ({error}); start the companion again") from error
