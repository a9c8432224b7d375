"""Loudspeakers as PortAudio sees them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from companion import devices
from companion.errors import MissingPart

UNHEARD = "I can't find the loudspeaker."


@dataclass(frozen=True)
class Loudspeaker:
    """An output device."""

    index: int
    """PortAudio's number for it, until ``look_again``."""
    name: str
    """As the system calls it."""
    rate_hz: int
    """The rate it likes best."""
    channels: int
    """1 or 2: as many as we fill, all with the same sound."""


def loudspeakers() -> list[Loudspeaker]:
    """Return every output device; raises MissingPart where sounddevice or PortAudio isn't installed."""
    return [
        Loudspeaker(index, device["name"], int(device["default_samplerate"]), min(2, device["max_output_channels"]))
        for index, device in enumerate(devices.sounddevice(UNHEARD).query_devices())
        if device["max_output_channels"] > 0
    ]


def find_loudspeaker(wanted: str | None) -> Loudspeaker:
    """Return the first device of this name, else the first whose name holds it, in any case; the system's default for None.

    Raises MissingPart that lists the choices when there is none.
    """
    known = loudspeakers()
    if not known:
        raise MissingPart("there is no loudspeaker; plug one in, or use --text", spoken=UNHEARD)
    if wanted is None:
        default_index = devices.sounddevice(UNHEARD).default.device[1]
        return next((device for device in known if device.index == default_index), known[0])
    exact = [device for device in known if device.name.casefold() == wanted.casefold()]
    matching = exact or [device for device in known if wanted.casefold() in device.name.casefold()]
    if not matching:
        raise MissingPart(f"no loudspeaker is called {wanted!r}; there are {', '.join(device.name for device in known)}", spoken=UNHEARD)
    return matching[0]


def opened(device: Loudspeaker, block_frames: int, latency_seconds: float, fill: Callable[..., None], finished: Callable[[], None]) -> Any:
    """Return a started ``sounddevice.OutputStream`` of 32-bit floats; raises MissingPart when the device refuses."""
    sounddevice = devices.sounddevice(UNHEARD)
    settings = {"device": device.index, "channels": device.channels, "samplerate": device.rate_hz, "dtype": "float32"}
    try:
        sounddevice.check_output_settings(**settings)
        stream = sounddevice.OutputStream(
            **settings, blocksize=block_frames, latency=latency_seconds, callback=fill, finished_callback=finished
        )
        stream.start()
    except sounddevice.PortAudioError as error:
        names = ", ".join(other.name for other in loudspeakers())
        raise MissingPart(f"the loudspeaker {device.name!r} can't be opened ({error}); choose another: {names}", spoken=UNHEARD) from error
    return stream
