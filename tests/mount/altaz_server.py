"""An alt-azimuth mount behind ASCOM Alpaca, for what no published simulator does.

It keeps a sync in altitude and azimuth, has a clock that is wrong, a base that leans and limits, is slow, hangs, answers nonsense, and
loses its line. Written from the ASCOM Alpaca API reference (https://ascom-standards.org/api/) and what its calls mean
(https://ascom-standards.org/newdocs/telescope.html); it imports nothing of ours.
"""

from __future__ import annotations

import json
import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qsl, urlsplit

from tests.mount.altaz_mount import AltAzMount

NOT_IMPLEMENTED, INVALID_VALUE, PARKED, INVALID_OPERATION = 0x400, 0x401, 0x408, 0x40B
"""Reserved error numbers of the API reference."""


class No(Exception):
    """The mount says no."""

    def __init__(self, number: int, message: str) -> None:
        """Take the number the standard reserves for it."""
        super().__init__(message)
        self.number = number


class AltAzServer:
    """The server; ``mount`` is what stands behind it. Faults are set from the tests and hold until taken back."""

    def __init__(self, mount: AltAzMount, port: int = 0) -> None:
        """Listen on loopback, at a free port unless one is given."""
        self.mount = mount
        self.slow_s: dict[str, float] = {}
        """By call (``slewing``, ``PUT slewtoaltazasync``): wait so long before doing anything."""
        self.hung: set[str] = set()
        """These calls are never answered, until taken out."""
        self.raw: dict[str, bytes] = {}
        """These calls are answered with these bytes and nothing else, and the connection closed."""
        self.values: dict[str, Any] = {}
        """These properties have this value, whatever it is."""
        self.missing: set[str] = set()
        """These calls are not implemented."""
        self.devices: Any = [{"DeviceName": "Invented Alt-Azimuth", "DeviceType": "Telescope", "DeviceNumber": 0, "UniqueID": "invented"}]
        """What the management says stands behind the server."""
        self.requests: list[str] = []
        self.connected = False
        self._open: set[socket.socket] = set()
        self.port = port
        self._server: ThreadingHTTPServer | None = None
        self.restore()

    @property
    def address(self) -> str:
        """Return the address as its owner writes it."""
        return f"alpaca://127.0.0.1:{self.port}/0"

    def cut(self) -> None:
        """Lose the line: open connections end, new ones are refused. A mount that turns goes on turning."""
        server, self._server = self._server, None
        if server is not None:
            server.shutdown()
            server.server_close()
        for connection in list(self._open):
            with suppress(OSError):
                connection.shutdown(socket.SHUT_RDWR)

    def restore(self) -> None:
        """Be there again, at the same port."""
        owner = self

        class Handler(_Handler):
            server_owner = owner

        self._server = _Server(("127.0.0.1", self.port), Handler)
        self.port = self._server.server_address[1]
        threading.Thread(target=self._server.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True).start()

    def answer(self, method: str, call: str, given: dict[str, str]) -> Any:
        """Do a call and return its value."""
        if call in self.missing or f"{method} {call}" in self.missing:
            raise No(NOT_IMPLEMENTED, "not implemented")
        if method == "GET" and call in self.values:
            return self.values[call]
        work = (_READ if method == "GET" else _WRITE).get(call)
        if work is None:
            raise LookupError(call)
        return work(self, given)


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    allow_reuse_address = True

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Say nothing: a connection cut by the test is no news."""


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server_owner: AltAzServer

    def setup(self) -> None:
        super().setup()
        self.connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self.server_owner._open.add(self.connection)

    def finish(self) -> None:
        self.server_owner._open.discard(self.connection)
        super().finish()

    def log_message(self, *_: Any) -> None:
        """Say nothing."""

    def do_GET(self) -> None:
        self._do("GET", dict(parse_qsl(urlsplit(self.path).query)))

    def do_PUT(self) -> None:
        body = self.rfile.read(int(self.headers.get("Content-Length") or 0))
        self._do("PUT", dict(parse_qsl(body.decode(), keep_blank_values=True)))

    def _do(self, method: str, given: dict[str, str]) -> None:
        owner = self.server_owner
        parts = urlsplit(self.path).path.split("/")
        call = parts[-1]
        names = {call, f"{method} {call}", "*"}
        owner.requests.append(f"{method} {call}")
        while names & owner.hung:
            time.sleep(0.02)
        time.sleep(max((owner.slow_s.get(name, 0.0) for name in names), default=0.0))
        for name in names & owner.raw.keys():
            self.wfile.write(owner.raw[name])
            self.close_connection = True
            return
        if method == "GET" and parts == ["", "management", "v1", "configureddevices"]:
            self._send(200, json.dumps({"Value": owner.devices, "ErrorNumber": 0, "ErrorMessage": ""}).encode(), "application/json")
            return
        if parts[:5] != ["", "api", "v1", "telescope", "0"]:
            self._send(400, b"no such device", "text/plain")
            return
        document = {"ClientTransactionID": 0, "ServerTransactionID": 1, "ErrorNumber": 0, "ErrorMessage": ""}
        try:
            value = owner.answer(method, call, {name.casefold(): text for name, text in given.items()})
            if method == "GET":
                document["Value"] = value
        except No as no:
            document |= {"ErrorNumber": no.number, "ErrorMessage": str(no)}
        except (LookupError, ValueError) as error:
            self._send(400, str(error).encode(), "text/plain")
            return
        self._send(200, json.dumps(document).encode(), "application/json")

    def _send(self, status: int, body: bytes, kind: str) -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)


def _free(server: AltAzServer) -> AltAzMount:
    if server.mount.parked:
        raise No(PARKED, "parked")
    return server.mount


def _slew_altaz(server: AltAzServer, given: dict[str, str]) -> None:
    mount = _free(server)
    if mount.tracking:
        raise No(INVALID_OPERATION, "not while tracking")
    if not mount.slew(float(given["azimuth"]), float(given["altitude"])):
        raise No(INVALID_VALUE, "beyond the limits")


def _slew(server: AltAzServer, given: dict[str, str]) -> None:
    mount = _free(server)
    if not mount.tracking:
        raise No(INVALID_OPERATION, "only while tracking")
    if not mount.slew(*mount.axes_of(float(given["rightascension"]) * 15, float(given["declination"]))):
        raise No(INVALID_VALUE, "beyond the limits")


def _sync_altaz(server: AltAzServer, given: dict[str, str]) -> None:
    _free(server).sync(float(given["azimuth"]), float(given["altitude"]))


def _sync(server: AltAzServer, given: dict[str, str]) -> None:
    mount = _free(server)
    mount.sync(*mount.axes_of(float(given["rightascension"]) * 15, float(given["declination"])))


def _set_time(server: AltAzServer, given: dict[str, str]) -> None:
    told = datetime.fromisoformat(given["utcdate"])
    server.mount.clock_error_s = (told.replace(tzinfo=told.tzinfo or UTC) - datetime.now(UTC)).total_seconds()


def _park(server: AltAzServer, parked: bool) -> None:
    server.mount.halt()
    server.mount.parked, server.mount.tracking = parked, False


def _connect(server: AltAzServer, given: dict[str, str]) -> None:
    server.connected = given["connected"].casefold() == "true"


def _assign(name: str, kind: Callable[[str], Any]) -> Callable[[AltAzServer, dict[str, str]], None]:
    def assign(server: AltAzServer, given: dict[str, str]) -> None:
        (text,) = (value for key, value in given.items() if not key.startswith("client"))
        setattr(server.mount, name, kind(text))

    return assign


def _true(text: str) -> bool:
    return text.casefold() == "true"


_READ: dict[str, Callable[[AltAzServer, dict[str, str]], Any]] = {
    "connected": lambda server, _: server.connected,
    "name": lambda server, _: "Invented Alt-Azimuth",
    "alignmentmode": lambda server, _: 0,
    "equatorialsystem": lambda server, _: 1,
    **dict.fromkeys(
        ("canslewasync", "canslewaltazasync", "cansync", "cansyncaltaz", "canpark", "canunpark", "cansettracking", "canmoveaxis"),
        lambda server, _: True,
    ),
    "rightascension": lambda server, _: server.mount.says_equatorial()[0] / 15,
    "declination": lambda server, _: server.mount.says_equatorial()[1],
    "azimuth": lambda server, _: server.mount.says()[0],
    "altitude": lambda server, _: server.mount.says()[1],
    "slewing": lambda server, _: (server.mount.step(), server.mount.slewing)[1],
    "tracking": lambda server, _: server.mount.tracking,
    "atpark": lambda server, _: server.mount.parked,
    "utcdate": lambda server, _: server.mount.now().strftime("%Y-%m-%dT%H:%M:%S.%f0Z"),
    "sitelatitude": lambda server, _: server.mount.latitude_deg,
    "sitelongitude": lambda server, _: server.mount.longitude_deg,
    "siteelevation": lambda server, _: server.mount.elevation_m,
    "axisrates": lambda server, _: [{"Minimum": 0.1, "Maximum": 3.0}],
}
_WRITE: dict[str, Callable[[AltAzServer, dict[str, str]], Any]] = {
    "connected": _connect,
    "tracking": _assign("tracking", _true),
    "utcdate": _set_time,
    "sitelatitude": _assign("latitude_deg", float),
    "sitelongitude": _assign("longitude_deg", float),
    "siteelevation": _assign("elevation_m", float),
    "slewtocoordinatesasync": _slew,
    "slewtoaltazasync": _slew_altaz,
    "synctocoordinates": _sync,
    "synctoaltaz": _sync_altaz,
    "abortslew": lambda server, _: _free(server).halt(),
    "moveaxis": lambda server, given: _free(server).turn_axis(int(given["axis"]), float(given["rate"])),
    "park": lambda server, _: _park(server, True),
    "unpark": lambda server, _: _park(server, False),
}


@contextmanager
def altaz_server(**mount: Any) -> Iterator[AltAzServer]:
    """Hold a server for a mount of these properties."""
    server = AltAzServer(AltAzMount(**mount))
    try:
        yield server
    finally:
        server.hung.clear()
        server.cut()
