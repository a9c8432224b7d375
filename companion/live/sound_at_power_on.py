"""Where nobody can type: sound is waited for, since a sound server may start after us and a headset may be switched on later."""

from __future__ import annotations

import logging
import os
import time
from collections.abc import Callable
from typing import TextIO

from companion import devices
from companion.errors import DeviceMissing
from companion.live.sound_devices import LOOK_SECONDS, SoundDevices

WAIT_SECONDS = 60.0
"""Long enough for a board's sound server; then we end, and whoever started us may start us again."""

_LOG = logging.getLogger("companion.live")


def nobody_types(source: TextIO) -> bool:
    """Say whether no line will ever come: there is no standard input, as where the system itself starts us."""
    try:
        return os.path.samestat(os.fstat(source.fileno()), os.stat(os.devnull))
    except (OSError, ValueError):
        return False


def wait_for_sound(
    sound: SoundDevices,
    tell: Callable[[str], None],
    *,
    clock: Callable[[], float] = time.monotonic,
    rest: Callable[[float], None] = time.sleep,
) -> None:
    """Wait until microphone and loudspeaker are there; ``tell`` and the log hear what is waited for.

    Raises DeviceMissing where they don't come within WAIT_SECONDS, MissingPart at once where PortAudio can't be loaded.
    """
    devices.sounddevice()
    ends, told = clock() + WAIT_SECONDS, ""
    while missing := " and a ".join(sound.missing):
        if missing != told:
            told = missing
            line = f"waiting up to {WAIT_SECONDS:.0f} seconds for a {missing}"
            _LOG.warning(line)
            tell(line)
        if clock() >= ends:
            raise DeviceMissing(
                f"after {WAIT_SECONDS:.0f} seconds there is still no {missing.replace(' and a ', ' and no ')}; plug one in",
                is_microphone=devices.MICROPHONE.name in missing,
            )
        rest(LOOK_SECONDS)
        sound.look_thoroughly()
    if told:
        _LOG.warning("sound is there")
        tell("sound is there")
