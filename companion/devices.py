"""PortAudio, through ``sounddevice``: loaded only when a device is wanted, so that a machine without it gets a remedy, not a traceback."""

from __future__ import annotations

from typing import Any

from companion.errors import MissingPart

_BLIND = "I can't look for sound devices."


def sounddevice(spoken: str) -> Any:
    """Return the module. Raises MissingPart, with ``spoken`` for the ear, where sounddevice or PortAudio isn't installed."""
    try:
        import sounddevice as module  # noqa: PLC0415 - so that a missing PortAudio is a remedy, not an ImportError or OSError
    except ImportError as error:
        raise MissingPart("sounddevice is not installed; pip install sounddevice, or use --text", spoken=spoken) from error
    except OSError as error:
        raise MissingPart(f"{error}; install it (Debian: sudo apt install libportaudio2), or use --text", spoken=spoken) from error
    return module


def look_again() -> None:
    """Have PortAudio count the devices anew; raises MissingPart where it can't.

    It ends every stream of the process: close them first, and open them again afterwards.
    """
    module = sounddevice(_BLIND)
    try:
        module._terminate()
        module._initialize()
    except module.PortAudioError as error:
        raise MissingPart(f"sound devices can't be looked for ({error}); start the companion again", spoken=_BLIND) from error
