"""From the call to the stand, by key: median and longest of 50, also with a reading hung. Run with ``-s`` to see the figures.

The tests' own mount tells when it stood by the same clock; the simulators are asked by others, again and again, so theirs are upper
bounds.
"""

from __future__ import annotations

import http.client
import json
import socket
import statistics
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from companion.mount import Equatorial, Finished, Horizontal, Line, Park, SetPlace, Slew, Standstill, Sync, Track, mount_address
from tests.mount.altaz_server import altaz_server
from tests.mount.lines import alpaca_simulator, indi_simulator, line_to, reading, tell, until

pytestmark = [pytest.mark.slow, pytest.mark.alone]
MOST_S = 0.15
"""From a key, as the issue asks."""
ROUNDS = 50


def _figures(name: str, latencies_s: list[float]) -> None:
    """Tell them; one in fifty may come late, for a machine that others use stands still now and then."""
    print(f"{name}: median {statistics.median(latencies_s) * 1000:.0f} ms, longest of {len(latencies_s)} {max(latencies_s) * 1000:.0f} ms")
    assert len(latencies_s) == ROUNDS
    assert statistics.median(latencies_s) < MOST_S
    assert sorted(latencies_s)[-2] < MOST_S


@pytest.mark.parametrize("hung", [False, True], ids=["at rest", "with a poll hung"])
def test_the_tests_own_mount_stands_in_time(hung: bool) -> None:
    """The server says when the axes stood. A hung poll holds the client library's lock meanwhile."""
    with altaz_server(rate_deg_s=2.0) as server, line_to(server.address) as line:
        latencies_s = []
        for turn in range(ROUNDS):
            until(lambda: line.is_up)
            assert isinstance(tell(line, Slew(Horizontal(30.0 + 20 * (turn % 2), (250.0 + 90 * turn) % 360))), Finished)
            until(lambda: server.mount.slewing)
            if hung:
                asked = server.requests.count("GET rightascension")
                server.hung.add("GET rightascension")
                until(lambda asked=asked: server.requests.count("GET rightascension") > asked)
            called_at = time.monotonic()
            stopped = line.stop().wait()
            assert isinstance(stopped, Standstill)
            assert stopped.confirmed
            assert server.mount.stopped_at is not None
            latencies_s.append(server.mount.stopped_at - called_at)
            server.hung.clear()
        _figures(f"own mount{', poll hung' if hung else ''}", latencies_s)


@contextmanager
def _watched(slewing: Callable[[], bool]) -> Iterator[Callable[[float], float]]:
    """Watch a mount from a thread of its own; yield what waits until it stood after a moment and returns when that was known."""
    seen: list[tuple[float, float]] = []
    ended = threading.Event()

    def watch() -> None:
        while not ended.is_set():
            asked_at = time.monotonic()
            if not slewing():
                seen.append((asked_at, time.monotonic()))
            time.sleep(0.001)

    watcher = threading.Thread(target=watch, daemon=True)
    watcher.start()
    try:
        yield lambda after: until(lambda: next((known for asked, known in list(seen) if asked > after), None))
    finally:
        ended.set()
        watcher.join(5.0)


def _ready(line: Line) -> None:
    for command in (Park(False), SetPlace(46.3, -67.5), Track(True)):
        assert isinstance(tell(line, command), Finished)


def _rounds(line: Line, stood_after: Callable[[float], float]) -> list[float]:
    epoch = reading(line).identity.epoch
    latencies_s = []
    for turn in range(ROUNDS):
        assert isinstance(tell(line, Sync(Equatorial(100.0, 40.0, epoch))), Finished)
        assert isinstance(tell(line, Slew(Equatorial(140.0 if turn % 2 else 60.0, 50.0, epoch))), Finished)
        until(lambda: reading(line).state.slewing)
        called_at = time.monotonic()
        stopped = line.stop().wait()
        assert isinstance(stopped, Standstill)
        assert stopped.confirmed
        latencies_s.append(stood_after(called_at) - called_at)
    return latencies_s


def test_the_alpaca_simulator_stands_in_time() -> None:
    """Asked whether it turns by someone else, as fast as it answers."""
    with alpaca_simulator() as address, line_to(address) as line:
        _ready(line)
        other = http.client.HTTPConnection("127.0.0.1", mount_address(address).port, timeout=5)

        def slewing() -> bool:
            other.request("GET", "/api/v1/telescope/0/slewing")
            return bool(json.loads(other.getresponse().read())["Value"])

        with _watched(slewing) as stood_after:
            _figures("alpaca-simulators", _rounds(line, stood_after))


def test_the_indi_simulator_stands_in_time(tmp_path: Path) -> None:
    """What its coordinates are said to do, by another connection."""
    with indi_simulator(tmp_path) as address, line_to(address) as line:
        _ready(line)
        other = socket.create_connection(("127.0.0.1", mount_address(address).port), 5)
        ask = b'<getProperties version="1.7" device="Telescope Simulator" name="EQUATORIAL_EOD_COORD"/>'
        heard = bytearray()

        def slewing() -> bool:
            heard.clear()
            other.sendall(ask)
            while b"</defNumberVector>" not in heard:
                heard.extend(other.recv(65536))
            return b'state="Busy"' in heard[heard.index(b"<defNumberVector") :]

        with _watched(slewing) as stood_after:
            _figures("indi_simulator_telescope", _rounds(line, stood_after))
