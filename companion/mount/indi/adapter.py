"""The INDI adapter: the protocol of ``companion.mount.protocol`` over the client library."""

from __future__ import annotations

import threading
import time

from companion.mount.address import MountAddress
from companion.mount.commands import Command
from companion.mount.indi.connection import IndiDevice
from companion.mount.indi.motion import perform
from companion.mount.indi.reading import read_identity, read_settings, read_state
from companion.mount.indi.stop import IndiStopper
from companion.mount.protocol import Clock
from companion.mount.values import Identity, MountState, Settings


def parts(address: MountAddress, clock: Clock) -> tuple[IndiAdapter, IndiStopper]:
    """Return what speaks with a mount and what stops it."""
    return IndiAdapter(address, clock), IndiStopper(address)


class IndiAdapter:
    """One INDI mount."""

    def __init__(self, address: MountAddress, clock: Clock) -> None:
        """Take the address and our clock; nothing is sent yet."""
        self._device = IndiDevice(address)
        self._clock = clock

    @property
    def has_answered(self) -> bool:
        """Whether the server took the connection."""
        return self._device.is_connected

    def open(self, limit_s: float) -> Identity:
        """Reach the mount on a fresh connection."""
        deadline = time.monotonic() + limit_s
        self._device.connect(deadline)
        return read_identity(self._device, deadline)

    def state(self, limit_s: float) -> MountState:
        """Ask where it points and what it does: what the driver last said, once it is sure that it is there."""
        self._device.ask_if_silent(time.monotonic() + limit_s)
        return read_state(self._device, self._clock)

    def settings(self, limit_s: float) -> Settings:
        """Ask what time and place it believes in."""
        self._device.ask_if_silent(time.monotonic() + limit_s)
        return read_settings(self._device, self._clock)

    def perform(self, command: Command, limit_s: float, halt: threading.Event) -> None:
        """Send a command. Axes have no rates in degrees, so there are no nudges."""
        perform(self._device, command, time.monotonic() + limit_s)

    def close(self) -> None:
        """Let go of the line; the driver stays connected to its mount."""
        self._device.close()
