"""Stops an INDI mount on a connection of its own, with the protocol's own element and no library between."""

from __future__ import annotations

import contextlib
import socket
import time
import xml.etree.ElementTree as ET
from collections.abc import Callable
from typing import Any, TypeVar
from xml.sax.saxutils import quoteattr

from companion.mount.address import MountAddress
from companion.mount.indi.reading import EQUATORIAL, is_turning
from companion.mount.values import fault

T = TypeVar("T")

_ABORT = "TELESCOPE_ABORT_MOTION"
_LARGEST_PIECE = 65_536


class IndiStopper:
    """The stop of one mount."""

    def __init__(self, address: MountAddress) -> None:
        """Take the address; nothing is sent yet."""
        self._address = address
        self._socket: socket.socket | None = None
        self._parser = _stream()
        self._states: dict[str, str] = {}

    def stop(self, limit_s: float) -> None:
        """Send the stop; return when the driver has said that it took it. ``LineFault`` of ``refused`` where it raised an alert."""
        deadline = time.monotonic() + limit_s
        device = quoteattr(self._address.device)
        self._states.pop(_ABORT, None)
        self._send(f'<newSwitchVector device={device} name="{_ABORT}"><oneSwitch name="ABORT">On</oneSwitch></newSwitchVector>', deadline)
        # Asked about after the stop: the server tells a client only of what it asked about, and the stop must not wait for that.
        self._send(f'<getProperties version="1.7" device={device} name="{_ABORT}"/>', deadline)
        state = self._said(lambda: self._states.get(_ABORT), deadline)
        if state == "Alert":
            raise fault("refused", "the driver raised an alert at the stop")

    def is_slewing(self, limit_s: float) -> bool | None:
        """Ask whether it turns, by the state of its coordinates."""
        deadline = time.monotonic() + limit_s
        names = [*(name for name, _ in EQUATORIAL), "HORIZONTAL_COORD"]
        for name in names:
            self._states.pop(name, None)
        for name in names:
            self._send(f'<getProperties version="1.7" device={quoteattr(self._address.device)} name="{name}"/>', deadline)
        return self._said(lambda: is_turning(*(self._states.get(name) for name in names)), deadline)

    def close(self) -> None:
        """Let go of the connection."""
        if self._socket is not None:
            with contextlib.suppress(OSError):
                self._socket.close()
        self._socket = None

    def _send(self, element: str, deadline: float) -> None:
        if self._socket is None:
            try:
                self._socket = socket.create_connection((self._address.host, self._address.port), _left(deadline))
                self._socket.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            except (OSError, UnicodeError) as error:
                raise fault("unreachable", f"{type(error).__name__}: {error}") from error
            self._parser, self._states = _stream(), {}
        try:
            self._socket.settimeout(_left(deadline))
            self._socket.sendall(element.encode())
        except OSError as error:
            self.close()
            raise fault("unanswered", f"{type(error).__name__}: {error}") from error

    def _said(self, told: Callable[[], T | None], deadline: float) -> T:
        """Read until something has been told; ``LineFault`` at the deadline."""
        while (value := told()) is None:
            if self._socket is None:
                raise fault("unanswered", "the connection has ended")
            try:
                self._socket.settimeout(_left(deadline))
                self._take(self._socket.recv(_LARGEST_PIECE))
            except (OSError, ET.ParseError) as error:
                self.close()
                raise fault("unanswered", f"{type(error).__name__}: {error}") from error
        return value

    def _take(self, data: bytes) -> None:
        if not data:
            raise ConnectionError("the server ended the connection")
        self._parser.feed(data)
        for _, element in self._parser.read_events():
            name, state = element.get("name"), element.get("state")
            if element.get("device") == self._address.device and name and state:
                self._states[name] = state


def _stream() -> Any:
    """Return a parser for a stream of elements; a document has one, so they are put into another that never ends."""
    parser: Any = ET.XMLPullParser(events=("end",))
    parser.feed(b"<stream>")
    return parser


def _left(deadline: float) -> float:
    left = deadline - time.monotonic()
    if left <= 0:
        raise fault("unanswered", "out of time")
    return left
