"""Whatever a server answers, a call ends in its value or in a typed failure, within its time; never in an exception or a dead line.

The bytes are made by Hypothesis: JSON of wrong types, NaN and infinity, HTTP that isn't, statuses, half-closed and trickling
connections, XML that ends anywhere.
"""

from __future__ import annotations

import contextlib
import json
import math
import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from companion.mount import Failed, Horizontal, Identity, Line, MountAddress, MountState, Nudge, Settings, Slew, mount_address
from companion.mount.alpaca.adapter import AlpacaAdapter
from companion.mount.alpaca.stop import AlpacaStopper
from companion.mount.indi.adapter import IndiAdapter
from companion.mount.indi.stop import IndiStopper
from companion.mount.opening import parts
from companion.mount.values import LineFault
from tests.mount.altaz_server import AltAzServer, altaz_server
from tests.mount.lines import free_port, line_to, until

PROPERTIES = [
    *("rightascension", "declination", "altitude", "azimuth", "slewing", "tracking", "atpark", "utcdate", "sitelatitude", "siteelevation"),
    *("sitelongitude", "connected", "name", "alignmentmode", "equatorialsystem", "canslewasync", "cansyncaltaz", "canmoveaxis"),
    "axisrates",
]
_SCALARS = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12) | st.just(10**400)
_VALUES = st.recursive(_SCALARS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3))
_TIMES = st.sampled_from(["2026-13-45T99:99:99Z", "9999-12-31T23:59:59-12:00", "0001-01-01T00:00:00+12:00", "12", "noon", "2026-10-15"])
_MANY = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))


def _now() -> datetime:
    return datetime.now(UTC)


def _within(value: float | None, lowest: float, highest: float) -> bool:
    return value is None or (math.isfinite(value) and lowest <= value <= highest)


def _check(state: MountState, told: Settings) -> None:
    assert _within(state.ra_deg, 0, 360)
    assert _within(state.dec_deg, -90, 90)
    assert _within(state.altitude_deg, -90, 90)
    assert _within(state.azimuth_deg, 0, 360)
    assert all(flag in (True, False, None) for flag in (state.slewing, state.tracking, state.parked))
    assert _within(told.latitude_deg, -90, 90)
    assert _within(told.longitude_deg, -180, 180)
    assert told.time is None or told.time.utcoffset() is not None
    assert told.time_error_s is None or math.isfinite(told.time_error_s)


def _all_calls(adapter: AlpacaAdapter | IndiAdapter, limit_s: float) -> None:
    """Make every call; each ends in its value or a fault, in time."""
    calls: list[Callable[[], object]] = [
        lambda: adapter.open(limit_s),
        lambda: adapter.state(limit_s),
        lambda: adapter.settings(limit_s),
        lambda: adapter.perform(Slew(Horizontal(40.0, 170.0)), limit_s, threading.Event()),
    ]
    results: list[object] = []
    for call in calls:
        begun = time.monotonic()
        with contextlib.suppress(LineFault):
            results.append(call())
        assert time.monotonic() - begun < limit_s + 0.5
    states, told = ([one for one in results if isinstance(one, kind)] for kind in (MountState, Settings))
    if states and told:
        _check(states[0], told[0])


@pytest.fixture(scope="module")
def server() -> Iterator[AltAzServer]:
    """Hold one server for all."""
    with altaz_server() as held:
        yield held


@_MANY
@example({"rightascension": 10**400, "altitude": float("nan"), "azimuth": float("inf"), "siteelevation": -(10**400)})
@given(st.dictionaries(st.sampled_from(PROPERTIES), _VALUES | _TIMES, max_size=6))
def test_values_of_any_type(server: AltAzServer, values: dict[str, object]) -> None:
    """Properties that answer anything JSON has, with NaN and infinity."""
    server.values = values
    adapter = AlpacaAdapter(mount_address(server.address), _now)
    try:
        _all_calls(adapter, 2.0)
        with contextlib.suppress(LineFault):
            assert isinstance(adapter.open(2.0), Identity)
            adapter.perform(Nudge("primary", 1.0, 0.01), 2.0, threading.Event())
    finally:
        server.values = {}
        adapter.close()


_STATUS = st.integers(100, 599)
_BODIES = st.one_of(
    st.binary(max_size=60),
    _VALUES.map(lambda value: json.dumps(value).encode()),
    st.dictionaries(st.sampled_from(["Value", "ErrorNumber", "ErrorMessage"]), _SCALARS).map(lambda value: json.dumps(value).encode()),
    st.just(b"[" * 100_000),
    st.just(b'{"ErrorNumber": 0, "ErrorMessage": "", "Value": ' + b"9" * 5000 + b"}"),
)


def _http(status: int, body: bytes, length: int, location: bool) -> bytes:
    where = "Location: http://127.0.0.2:9/\r\n" if location else ""
    return f"HTTP/1.1 {status} X\r\n{where}Content-Length: {length}\r\n\r\n".encode() + body


_ANSWERS = st.one_of(
    st.binary(max_size=80),
    st.builds(lambda status, body: _http(status, body, len(body), False), _STATUS, _BODIES),
    st.builds(lambda body, more: _http(200, body, len(body) + more, False), _BODIES, st.integers(-5, 5)),
    st.builds(lambda status: _http(status, b"", 0, True), st.sampled_from([301, 302, 303, 307, 308])),
    st.just(b"HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\nffffffff\r\n"),
    st.just(b"HTTP/1.1 200 OK\r\n" + b"X: y\r\n" * 300 + b"\r\n"),
    st.just(b""),
)


@_MANY
@given(_ANSWERS)
def test_http_of_any_kind(server: AltAzServer, answer: bytes) -> None:
    """Every call answered with the same bytes, and the connection closed; also by the stop."""
    server.raw = {"*": answer}
    adapter, stopper = AlpacaAdapter(mount_address(server.address), _now), AlpacaStopper(mount_address(server.address))
    try:
        _all_calls(adapter, 1.0)
        for call in (stopper.stop, stopper.is_slewing):
            begun = time.monotonic()
            with contextlib.suppress(LineFault):
                assert call(1.0) in (None, True, False)
            assert time.monotonic() - begun < 1.5
    finally:
        server.raw = {}
        adapter.close()
        stopper.close()


@contextmanager
def _raw_server(answer: Callable[[socket.socket], None]) -> Iterator[int]:
    """Accept connections and let each be answered on a thread of its own; yield the port."""
    with socket.create_server(("127.0.0.1", 0)) as listening:
        ended = threading.Event()

        def serve() -> None:
            while not ended.is_set():
                try:
                    connection, _ = listening.accept()
                except OSError:
                    return
                threading.Thread(target=one, args=(connection,), daemon=True).start()

        def one(connection: socket.socket) -> None:
            with contextlib.suppress(OSError), connection:
                answer(connection)

        threading.Thread(target=serve, daemon=True).start()
        try:
            yield listening.getsockname()[1]
        finally:
            ended.set()
            with contextlib.suppress(OSError):
                listening.shutdown(socket.SHUT_RDWR)


def _trickle(connection: socket.socket) -> None:
    """Send a header's letters one by one, for ever."""
    while True:
        connection.sendall(b"x")
        time.sleep(0.05)


def _half_closed(connection: socket.socket) -> None:
    """Say no word more and go on listening."""
    connection.shutdown(socket.SHUT_WR)
    while connection.recv(4096):
        pass


def _slow_body(connection: socket.socket) -> None:
    """Promise a long answer and send a letter now and then."""
    connection.recv(4096)
    connection.sendall(b"HTTP/1.1 200 OK\r\nContent-Length: 1000\r\n\r\n")
    _trickle(connection)


@pytest.mark.parametrize("answer", [_trickle, _half_closed, _slow_body])
@pytest.mark.parametrize("standard", ["alpaca", "indi"])
def test_connections_that_never_come_to_an_end(standard: str, answer: Callable[[socket.socket], None]) -> None:
    """Trickling and half-closed connections end at the limit, whatever comes in before; the stop's too."""
    with _raw_server(answer) as port:
        address = MountAddress("alpaca" if standard == "alpaca" else "indi", "127.0.0.1", port, "0")
        adapter, stopper = parts(address, _now)
        begun = time.monotonic()
        with pytest.raises(LineFault):
            adapter.open(0.7)
        assert time.monotonic() - begun < 1.2
        begun = time.monotonic()
        with pytest.raises(LineFault):
            stopper.stop(0.7)
        assert time.monotonic() - begun < 1.2
        adapter.close()
        stopper.close()


_DEVICE = "Mount"
_NUMBER = st.sampled_from(["0", "nan", "inf", "-inf", "1e999", "12:30:30", "::", "", "x", "25", "-91", "1" * 500, "&#0;", "<a/>"])
_XML = st.one_of(
    st.binary(max_size=60),
    st.text(max_size=40).map(str.encode),
    st.builds(
        lambda tag, name, state, one, number: (
            f'<{tag} device="{_DEVICE}" name="{name}" state="{state}" perm="rw" rule="OneOfMany" label="" group="" timestamp="{number}">'
            f'<{one} name="RA" label="" format="%g" min="{number}" max="0" step="0">{number}</{one}>'
            f'<{one} name="DEC" label="" format="%g" min="0" max="0" step="0">{number}</{one}></{tag}>'
        ).encode(),
        st.sampled_from(["defNumberVector", "setNumberVector", "defSwitchVector", "defTextVector", "delProperty", "message", "nothing"]),
        st.sampled_from(["EQUATORIAL_EOD_COORD", "HORIZONTAL_COORD", "TIME_UTC", "GEOGRAPHIC_COORD", "CONNECTION", "TELESCOPE_PARK"]),
        st.sampled_from(["Idle", "Ok", "Busy", "Alert", "", "What"]),
        st.sampled_from(["defNumber", "oneNumber", "defSwitch", "defText"]),
        _NUMBER,
    ),
)
_COORDINATES = (
    f'<defNumberVector device="{_DEVICE}" name="EQUATORIAL_EOD_COORD" label="" group="" state="Ok" perm="rw">'
    '<defNumber name="RA" label="" format="%g" min="0" max="24" step="0">3</defNumber>'
    '<defNumber name="DEC" label="" format="%g" min="-90" max="90" step="0">4</defNumber></defNumberVector>'
).encode()


@pytest.mark.slow
@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.lists(_XML, max_size=6), st.booleans())
def test_xml_of_any_kind(pieces: list[bytes], is_mount: bool) -> None:
    """A device that defines anything and says anything, also without any sense."""

    def answer(connection: socket.socket) -> None:
        if connection.recv(4096):
            connection.sendall((_COORDINATES if is_mount else b"") + b"".join(pieces))
            time.sleep(1.0)

    with _raw_server(answer) as port:
        address = MountAddress("indi", "127.0.0.1", port, _DEVICE)
        adapter, stopper = IndiAdapter(address, _now), IndiStopper(address)
        try:
            _all_calls(adapter, 0.3)
            for call in (stopper.stop, stopper.is_slewing):
                with contextlib.suppress(LineFault):
                    assert call(0.2) in (None, True, False)
        finally:
            adapter.close()
            stopper.close()


def test_a_line_outlives_what_its_adapter_raises() -> None:
    """An exception nobody thought of, in any call, is a failure of that call and no dead line."""

    class Broken:
        calls = 0

        has_answered = True

        def open(self, limit_s: float) -> Identity:
            return Identity("alpaca", None, frozenset({"read", "slew_altaz"}), None, None)

        def state(self, limit_s: float) -> MountState:
            self.calls += 1
            if self.calls % 3:
                raise ZeroDivisionError
            return MountState(_now(), altitude_deg=1.0, azimuth_deg=2.0)

        def settings(self, limit_s: float) -> Settings:
            raise RecursionError

        def perform(self, *_: object) -> None:
            raise MemoryError

        def close(self) -> None:
            return

    class BrokenStop:
        def stop(self, limit_s: float) -> None:
            raise KeyError("stop")

        def is_slewing(self, limit_s: float) -> bool | None:
            raise KeyError("slewing")

        def close(self) -> None:
            return

    line = Line(Broken(), BrokenStop())
    line.start()
    try:
        for _ in range(3):
            outcome = line.read(1.0).wait()
            assert isinstance(outcome, Failed)
            until(lambda: line.is_up)
    finally:
        line.close()


def test_a_redirect_leads_nowhere() -> None:
    """A server that sends us elsewhere is refused, and the other address never contacted."""
    contacted: list[object] = []
    with _raw_server(contacted.append) as other, altaz_server() as server:
        location = f"HTTP/1.1 307 X\r\nLocation: http://127.0.0.1:{other}/\r\nContent-Length: 0\r\n\r\n".encode()
        server.raw["*"] = location
        adapter = AlpacaAdapter(mount_address(server.address), _now)
        with pytest.raises(LineFault) as refused:
            adapter.open(2.0)
        adapter.close()
    assert refused.value.failed.why == "refused"
    assert not contacted


def test_a_proxy_of_the_environment_is_not_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    """A mount next to us is reached directly, whatever the environment says of proxies."""
    for name in ("http_proxy", "HTTP_PROXY", "all_proxy", "ALL_PROXY"):
        monkeypatch.setenv(name, f"http://127.0.0.1:{free_port()}")
    monkeypatch.delenv("no_proxy", raising=False)
    monkeypatch.delenv("NO_PROXY", raising=False)
    with altaz_server() as server, line_to(server.address) as line:
        assert line.is_up
