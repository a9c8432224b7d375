"""A talking key on any input device: a presenter, a pedal, a headset's button. Linux tells when it goes down and up; through ``evdev``.

The library is loaded only where such a key is wanted: it is the extra ``keys``, and built from source.
"""

from __future__ import annotations

import contextlib
import queue
import select
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from companion.errors import BadRequest, MissingPart

LOOK_SECONDS = 3.0
"""Between two looks for a device that isn't there."""
_WAIT_SECONDS = 0.5
_UP, _DOWN = 0, 1
"""Values of a key's event; 2 is a repeat (Linux, Documentation/input/event-codes.rst)."""


@dataclass(frozen=True)
class NamedKey:
    """A key, as it is remembered."""

    device: str
    """The device's name, as Linux has it."""
    key: str
    """The key's name, as Linux has it: ``KEY_PAGEDOWN``."""


class HandKey:
    """Waits for one key on a thread of its own, on every device of its name, and looks for the device where it isn't there."""

    def __init__(self, named: NamedKey, clock: Callable[[], float] = time.monotonic, library: Any = None) -> None:
        """Begin to wait. Raises MissingPart where evdev isn't installed, BadRequest where there is no such key."""
        self._evdev = library or evdev()
        self._named = named
        self._code = self._evdev.ecodes.ecodes.get(named.key)
        if not isinstance(self._code, int):
            raise BadRequest(f"keys.key: there is no key {named.key!r}; choose one with: companion key choose")
        self._clock = clock
        self._changes: queue.Queue[tuple[bool, float]] = queue.Queue()
        self._closing = threading.Event()
        self._thread = threading.Thread(target=self._wait, name="hand key", daemon=True)
        self._thread.start()

    def changes(self) -> Iterator[tuple[bool, float]]:
        """Yield each time the key went down (True) or up (False), and when, in the order in which that was."""
        while not self._changes.empty():
            yield self._changes.get()

    def close(self) -> None:
        """Wait no longer."""
        self._closing.set()
        self._thread.join(2 * _WAIT_SECONDS)

    def _wait(self) -> None:
        while not self._closing.is_set():
            found = keyed_devices(self._evdev, self._named.device)
            try:
                while found and not self._closing.is_set():
                    for code, value in _events(self._evdev, found):
                        if code == self._code and value in (_UP, _DOWN):
                            self._changes.put((value == _DOWN, self._clock()))
            except OSError:
                # It went away, perhaps with the key down.
                self._changes.put((False, self._clock()))
            finally:
                for device in found:
                    device.close()
            self._closing.wait(LOOK_SECONDS)


def next_key(seconds: float, ask: Callable[[], None], library: Any = None, clock: Callable[[], float] = time.monotonic) -> NamedKey:
    """Ask for a key, and return the first that goes down on any device from then on, at most so many seconds after it was asked.

    Raises MissingPart where none may be read, or none is pressed.
    """
    found = keyed_devices(library := library or evdev())
    if not found:
        raise MissingPart("no input device may be read here; connect one, and let yourself read it: sudo usermod -aG input $USER")
    try:
        ask()
        ends = clock() + seconds
        while clock() < ends:
            for device in found:
                for code, value in _events(library, [device], wait_seconds=_WAIT_SECONDS / len(found)):
                    if value == _DOWN:
                        return NamedKey(device.name, _name(library, code))
    except OSError as error:
        raise MissingPart(f"a device went away while I waited for a key ({error.strerror}); try again") from error
    finally:
        for device in found:
            device.close()
    raise MissingPart(f"no key was pressed for {seconds:.0f} seconds; try again")


def keyed_devices(library: Any, name: str | None = None) -> list[Any]:
    """Return every device with keys that may be read, or those of a name, opened."""
    found = []
    for path in library.list_devices():
        with contextlib.suppress(OSError):  # it went away since it was listed
            device = library.InputDevice(path)
            if name in (None, device.name) and library.ecodes.EV_KEY in device.capabilities():
                found.append(device)
            else:
                device.close()
    return found


def evdev() -> Any:
    """Return the module. Raises MissingPart where it isn't installed."""
    try:
        import evdev as module  # noqa: PLC0415 - an extra, for Linux alone
    except ImportError as error:
        raise MissingPart("a key of your own needs Linux and evdev: pip install 'dark-field-companion[keys]'") from error
    return module


def _events(library: Any, devices: list[Any], wait_seconds: float = _WAIT_SECONDS) -> Iterator[tuple[int, int]]:
    """Yield code and value of what keys did since, waiting a moment for it. OSError where a device went away."""
    ready, _, _ = select.select(devices, [], [], wait_seconds)
    for device in ready:
        for event in device.read():
            if event.type == library.ecodes.EV_KEY:
                yield event.code, event.value


def _name(library: Any, code: int) -> str:
    """Return a key's name; of several the first, which Linux means."""
    name = library.ecodes.bytype[library.ecodes.EV_KEY].get(code)
    if name is None:
        raise MissingPart("that key has no name; press another one")
    return str(name if isinstance(name, str) else name[0])
