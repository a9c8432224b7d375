"""The Alpaca adapter: the protocol of ``companion.mount.protocol`` over the client library."""

from __future__ import annotations

import threading

from companion.mount.address import MountAddress
from companion.mount.alpaca.connection import AlpacaTelescope
from companion.mount.alpaca.motion import perform
from companion.mount.alpaca.reading import read_identity, read_settings, read_state
from companion.mount.alpaca.stop import AlpacaStopper
from companion.mount.commands import Command
from companion.mount.protocol import SEVERAL, Clock
from companion.mount.values import Identity, MountState, Settings, fault


def parts(address: MountAddress, clock: Clock) -> tuple[AlpacaAdapter, AlpacaStopper]:
    """Return what speaks with a mount and what stops it."""
    return AlpacaAdapter(address, clock), AlpacaStopper(address)


class AlpacaAdapter:
    """One Alpaca mount."""

    def __init__(self, address: MountAddress, clock: Clock) -> None:
        """Take the address and our clock; nothing is sent yet."""
        self._telescope = AlpacaTelescope(address)
        self._clock = clock
        self._identity: Identity | None = None

    @property
    def has_answered(self) -> bool:
        """Whether anything has answered since it was opened."""
        return self._telescope.has_answered

    def open(self, limit_s: float) -> Identity:
        """Reach the mount on a fresh connection."""
        self._telescope.close()
        self._telescope.allow(limit_s, SEVERAL * limit_s)
        self._identity = read_identity(self._telescope)
        return self._identity

    def state(self, limit_s: float) -> MountState:
        """Ask where it points and what it does."""
        self._telescope.allow(limit_s, SEVERAL * limit_s)
        return read_state(self._telescope, self._known().epoch, self._clock)

    def settings(self, limit_s: float) -> Settings:
        """Ask what time and place it believes in."""
        self._telescope.allow(limit_s, SEVERAL * limit_s)
        return read_settings(self._telescope, self._clock)

    def perform(self, command: Command, limit_s: float, halt: threading.Event) -> None:
        """Send a command."""
        self._telescope.allow(limit_s)
        perform(self._telescope, command, self._known(), halt)

    def close(self) -> None:
        """Let go of the line. The mount stays connected to its server: others may use it, and disconnecting can end its tracking."""
        self._telescope.close()

    def _known(self) -> Identity:
        if self._identity is None:
            raise fault("lost", "the line has not been opened")
        return self._identity
