"""The INDI client library on a thread of its own: what the driver last said of each property, and sending.

A driver says what changes, unasked. The library doesn't see that a server has gone until a write fails, so silence is asked about.
"""

from __future__ import annotations

import asyncio
import contextlib
import logging
import socket
import threading
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from indipyclient import IPyClient

from companion.mount.address import MountAddress
from companion.mount.values import LineFault, fault

T = TypeVar("T")

# The library warns of every connection it tries; what matters of that comes as an event of the line.
logging.getLogger("indipyclient").addHandler(logging.NullHandler())

SILENCE_S = 1.0
"""After so long without a word the driver is asked whether it is there."""
_SAID = ("Define", "Set", "Delete")


@dataclass(frozen=True)
class Property:
    """What a driver last said of one property."""

    values: Mapping[str, str]
    state: str
    """Idle, Ok, Busy or Alert."""
    writable: bool
    version: int
    """Counts what has been said on this connection."""
    said_at: float
    """Our monotonic clock, when it was said."""
    is_news: bool
    """Whether the driver set it while we listened; else it only defined it, with a value of any age."""


class IndiDevice:
    """One device on one server."""

    def __init__(self, address: MountAddress) -> None:
        """Take the address; nothing is sent yet."""
        self._address = address
        self.name = address.device
        self._changed = threading.Condition()
        self._properties: dict[str, Property] = {}
        self._others: set[str] = set()
        self._version = 0
        self._last_word = 0.0
        self._connected = False
        self._loop: asyncio.AbstractEventLoop | None = None
        self._client: _Client | None = None
        self._task: asyncio.Task[None] | None = None

    def connect(self, deadline: float) -> None:
        """Reach the server anew and learn the device's properties; ``LineFault`` where there is no server or no such device."""
        self.close()
        self._try_the_door(deadline)
        with self._changed:
            self._properties, self._others, self._connected = {}, set(), False
        started = threading.Event()
        threading.Thread(target=self._run, args=(started,), name="indi client", daemon=True).start()
        if not started.wait(_left(deadline)):
            raise fault("unreachable", "out of time")
        self.wait_for(lambda: self._connected, deadline, "unreachable", f"nobody answers at {self._address.server}")
        others = "there is no device of that name; there are: "
        with contextlib.suppress(LineFault):
            self.wait_for(lambda: bool(self._properties), deadline, "refused", others)
        if not self._properties:
            raise fault("refused", others + (", ".join(sorted(self._others)) or "none"))

    def _try_the_door(self, deadline: float) -> None:
        """See whether anybody is there at all: the library keeps that to itself and tries again for ever."""
        try:
            socket.create_connection((self._address.host, self._address.port), _left(deadline)).close()
        except (OSError, UnicodeError, ValueError) as error:
            raise fault("unreachable", f"{type(error).__name__}: {error}") from error

    @property
    def is_connected(self) -> bool:
        """Whether the server took the connection."""
        return self._connected

    def get(self, name: str) -> Property | None:
        """Return what was last said of a property."""
        with self._changed:
            return self._properties.get(name)

    def wait_for(self, condition: Callable[[], T], deadline: float, why: Any, detail: str) -> T:
        """Return a condition's value as soon as it is true; ``LineFault`` at the deadline."""
        with self._changed:
            value = self._changed.wait_for(condition, _left(deadline))
        if not value:
            raise fault(why, detail)
        return value

    def settle(self, quiet_s: float, deadline: float) -> None:
        """Wait until nothing new has been defined for a while: the protocol doesn't say when a device has told all."""
        count = -1
        while count != len(self._properties) and time.monotonic() < deadline:
            count = len(self._properties)
            time.sleep(quiet_s)

    def send(self, name: str, values: Mapping[str, str | float], deadline: float) -> int:
        """Send new values for a property; return the version after which anything said is later."""
        known = self.get(name)
        if known is None or not known.writable:
            raise fault("cannot", f"the driver has no {name} that can be set")
        with self._changed:
            version = self._version
        self._on_loop(lambda client: client.send_newVector(self.name, name, members=dict(values)), deadline)
        return version

    def answer(self, name: str, after: int, accepted: Callable[[Property], bool], deadline: float) -> Property:
        """Return what the driver said of a property after that version and that was accepted; ``refused`` where it raised an alert."""

        def said() -> Property | None:
            known = self._properties.get(name)
            if known is None or known.version <= after:
                return None
            return known if known.state == "Alert" or accepted(known) else None

        known = self.wait_for(said, deadline, "unanswered", f"the driver said nothing of {name}")
        assert known is not None
        if known.state == "Alert":
            raise fault("refused", f"the driver raised an alert for {name}")
        return known

    def ask_if_silent(self, deadline: float) -> None:
        """Make sure that the driver is there: where it has been silent, ask and wait for any word of it."""
        if not self._connected:
            raise fault("lost", "the connection has ended")
        if time.monotonic() - self._last_word < SILENCE_S:
            return
        asked_at = time.monotonic()
        self._on_loop(lambda client: client.send_getProperties(self.name, "CONNECTION"), deadline)
        self.wait_for(lambda: self._last_word >= asked_at, deadline, "unanswered", "the driver is silent")

    def close(self) -> None:
        """Let go of the connection."""
        loop, task = self._loop, self._task
        self._loop = self._client = self._task = None
        if loop is not None and task is not None:
            with contextlib.suppress(RuntimeError):  # its thread may have ended by itself
                loop.call_soon_threadsafe(task.cancel)

    def _on_loop(self, work: Callable[[Any], Any], deadline: float) -> None:
        if self._loop is None or self._client is None or not self._connected:
            raise fault("unreachable", "the connection has ended")
        try:
            asyncio.run_coroutine_threadsafe(work(self._client), self._loop).result(_left(deadline))
        except Exception as error:
            raise fault("unanswered", f"{type(error).__name__}: {error}") from error

    def _run(self, started: threading.Event) -> None:
        """Hold one connection until it is closed; the library's own tries to reach the server again would go on for ever."""

        async def hold() -> None:
            client = _Client(self._address.host, self._address.port, self)
            self._client, self._loop, self._task = client, asyncio.get_running_loop(), asyncio.current_task()
            started.set()
            await client.asyncrun()

        with contextlib.suppress(asyncio.CancelledError):
            asyncio.run(hold())

    def took(self, client: _Client, event: Any) -> None:
        """Take note of what the library received; called on its thread."""
        if client is not self._client:
            return
        with self._changed:
            if event.eventtype == "ConnectionMade":
                self._connected = True
            elif event.eventtype == "ConnectionLost":
                self._connected = False
            elif event.eventtype in _SAID:
                self._note(event)
            self._changed.notify_all()

    def _note(self, event: Any) -> None:
        if event.devicename != self.name:
            self._others.add(str(event.devicename))
            return
        self._last_word = time.monotonic()
        if event.eventtype == "Delete":
            if event.vectorname is None:
                self._properties.clear()
            self._properties.pop(event.vectorname, None)
        elif event.vector is not None:
            self._version += 1
            before = self._properties.get(event.vectorname)
            self._properties[event.vectorname] = Property(
                values={name: str(event.vector[name]) for name in event.vector},
                state=event.vector.state,
                writable="w" in str(event.vector.perm),
                version=self._version,
                said_at=self._last_word,
                is_news=event.eventtype == "Set" or (before is not None and before.is_news and _same(before, event.vector)),
            )


class _Client(IPyClient):  # type: ignore[misc]
    """The library's client, handing on what it receives."""

    def __init__(self, host: str, port: int, device: IndiDevice) -> None:
        super().__init__(host, port)
        self.enable_reports = False
        self.set_vector_timeouts(timeout_enable=False)
        self._device = device

    async def rxevent(self, event: Any) -> None:
        """Hand an event on."""
        self._device.took(self, event)


def _same(before: Property, vector: Any) -> bool:
    return dict(before.values) == {name: str(vector[name]) for name in vector}


def _left(deadline: float) -> float:
    return max(deadline - time.monotonic(), 0.0)
