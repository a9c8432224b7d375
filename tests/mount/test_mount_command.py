"""The command ``companion mount``: the fields of CONTRACT.md, exit codes, one line of complaint."""

from __future__ import annotations

import json
import math
import sys
import time
from collections.abc import Iterator
from datetime import datetime, timedelta
from ipaddress import IPv4Network
from pathlib import Path
from typing import Any

import pytest
from astropy import units
from astropy.coordinates import EarthLocation

from companion import mount
from companion.cli import main
from companion.commands.mount import mount_document
from companion.mount import FoundMount, Identity, MountAddress, MountReading, MountState, Settings
from companion.mount.alpaca import discover
from companion.sky import Site
from tests.mount.altaz_server import AltAzServer, altaz_server
from tests.mount.lines import alpaca_simulator, free_port, indi_simulator

EARTH_KM = 6371.0
HERE = ["--lat", "46.31", "--lon", "-67.52"]
FIELDS = [
    *("name", "standard", "connected", "can", "altitude_deg", "azimuth_deg", "ra_deg", "dec_deg", "epoch", "slewing", "tracking", "parked"),
    *("time", "latitude_deg", "longitude_deg", "time_error_s", "distance_from_site_km"),
]
"""As CONTRACT.md has them."""
NULLABLE_NUMBERS = [name for name in FIELDS if name.endswith(("_deg", "_s", "_km"))]


@pytest.fixture
def server() -> Iterator[AltAzServer]:
    """Hold the tests' own mount."""
    with altaz_server() as held:
        yield held


def _check_schema(document: dict[str, Any]) -> None:
    assert list(document) == FIELDS
    assert document["standard"] in ("alpaca", "indi")
    assert document["epoch"] in ("J2000", "of_date", None)
    order = ["read", "set_time", "set_place", "sync", "slew", "slew_altaz", "abort", "nudge", "park", "track"]
    assert document["can"] == [ability for ability in order if ability in document["can"]]
    for name in NULLABLE_NUMBERS:
        assert document[name] is None or isinstance(document[name], float), name
    for name in ("slewing", "tracking", "parked"):
        assert document[name] is None or isinstance(document[name], bool), name
    assert document["connected"] is True
    if document["time"] is not None:
        assert datetime.fromisoformat(document["time"]).utcoffset() is not None
        assert len(document["time"]) == len("2026-10-15T19:30:00-03:00")


def _document(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    assert main(["mount", *arguments, "--json"]) == 0
    out = capsys.readouterr().out
    assert out.count("\n") == 1
    document: dict[str, Any] = json.loads(out)
    _check_schema(document)
    return document


def _complaint(capsys: pytest.CaptureFixture[str], *arguments: str, code: int) -> str:
    assert main(["mount", *arguments]) == code
    captured = capsys.readouterr()
    assert captured.err.startswith("companion: error: ")
    assert captured.err.count("\n") == 1
    assert not captured.out
    return captured.err


def test_all_fields_of_a_mount_that_tells_everything(capsys: pytest.CaptureFixture[str], server: AltAzServer) -> None:
    """An hour fast and a degree of latitude too far north: seen in seconds and kilometres."""
    server.mount.clock_error_s, server.mount.latitude_deg, server.mount.longitude_deg = 3600.0, 47.31, -67.52
    document = _document(capsys, "--mount", server.address, *HERE)
    assert document["name"] == "Invented Alt-Azimuth"
    assert document["epoch"] == "of_date"
    assert (document["altitude_deg"], document["azimuth_deg"]) == (30.0, 180.0)
    assert document["time_error_s"] == pytest.approx(3600.0, abs=0.5)
    assert document["time"].endswith(("-03:00", "-04:00"))  # Moncton, by the IANA tz database
    # A degree of latitude there is 111.18 km on WGS84 (Snyder, Map Projections, USGS PP 1395, table 8); ours takes the Earth for a ball.
    assert document["distance_from_site_km"] == pytest.approx(111.18, rel=0.005)


def test_what_a_mount_does_not_tell_is_null(capsys: pytest.CaptureFixture[str], server: AltAzServer) -> None:
    """Calls it hasn't got, and no site of ours: null, and the rest stands."""
    server.missing |= {"utcdate", "sitelatitude", "sitelongitude", "tracking", "altitude", "equatorialsystem"}
    document = _document(capsys, "--mount", server.address)
    for name in ("time", "latitude_deg", "longitude_deg", "tracking", "altitude_deg", "epoch", "time_error_s", "distance_from_site_km"):
        assert document[name] is None, name
    assert document["ra_deg"] is not None
    assert not {"set_time", "set_place"} & set(document["can"])


def test_the_clock_can_be_replaced(capsys: pytest.CaptureFixture[str], server: AltAzServer) -> None:
    """``--at`` is our clock: the error is counted from it."""
    ahead = (server.mount.now() + timedelta(seconds=90)).isoformat()
    assert _document(capsys, "--mount", server.address, "--at", ahead)["time_error_s"] == pytest.approx(-90.0, abs=2.0)


def test_lines_for_a_person(capsys: pytest.CaptureFixture[str], server: AltAzServer) -> None:
    """Without --json the same is told line by line, and what isn't told is said to be."""
    assert main(["mount", "--mount", server.address]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert "name: Invented Alt-Azimuth" in lines
    assert "distance from site km: not told" in lines


def test_stop_stops_and_then_tells(capsys: pytest.CaptureFixture[str], server: AltAzServer) -> None:
    """A mount on its way stands when the command ends."""
    server.mount.slew(300.0, 60.0)
    document = _document(capsys, "stop", "--mount", server.address)
    assert document["slewing"] is False
    assert server.mount.slewing is False
    assert server.mount.says()[0] == pytest.approx(180.0, abs=20.0)


@pytest.mark.parametrize("action", [[], pytest.param(["stop"], marks=(pytest.mark.slow, pytest.mark.alone))], ids=["read", "stop"])
@pytest.mark.parametrize("standard", ["alpaca", "indi"])
def test_nobody_there_is_exit_3_within_five_seconds(capsys: pytest.CaptureFixture[str], standard: str, action: list[str]) -> None:
    """With the remedy; a stop that reached nobody says what stops it by hand."""
    address = f"{standard}://127.0.0.1:{free_port()}/0"
    begun = time.monotonic()
    said = _complaint(capsys, *action, "--mount", address, code=3)
    assert time.monotonic() - begun < 5.5
    assert "pull the power" in said if action else "switched on" in said


@pytest.mark.alone
@pytest.mark.slow
def test_a_silent_mount_is_exit_3_within_five_seconds(capsys: pytest.CaptureFixture[str], server: AltAzServer) -> None:
    """Something listens and never answers."""
    server.hung.add("*")
    begun = time.monotonic()
    _complaint(capsys, "--mount", server.address, code=3)
    assert time.monotonic() - begun < 6.0


def test_a_slow_mount_is_there(capsys: pytest.CaptureFixture[str], server: AltAzServer) -> None:
    """A fifth of a second an answer, some thirty answers: longer than nobody is waited for, and all of it is told."""
    server.slow_s["*"] = 0.2
    begun = time.monotonic()
    assert _document(capsys, "--mount", server.address)["name"] == "Invented Alt-Azimuth"
    assert time.monotonic() - begun > 5.0


def test_what_speaks_another_language_is_exit_3(capsys: pytest.CaptureFixture[str], server: AltAzServer) -> None:
    """A web server that is no mount."""
    server.raw["*"] = b"HTTP/1.1 200 OK\r\nContent-Length: 5\r\n\r\nhello"
    assert "another language" in _complaint(capsys, "--mount", server.address, code=3)


def test_a_stop_that_the_server_turns_down_says_so(capsys: pytest.CaptureFixture[str], server: AltAzServer) -> None:
    """The line names the answer's HTTP status as everywhere else."""
    server.raw = {"*": b"HTTP/1.1 404 Not Found\r\nContent-Length: 0\r\nConnection: close\r\n\r\n"}
    assert "the mount would not stop: the server answers HTTP 404)" in _complaint(capsys, "stop", "--mount", server.address, code=3)


def test_a_number_nobody_has_is_exit_3(capsys: pytest.CaptureFixture[str], server: AltAzServer) -> None:
    """The server is there, the mount isn't."""
    assert "no mount of that number" in _complaint(capsys, "--mount", server.address.replace("/0", "/7"), code=3)


@pytest.mark.parametrize("arguments", [[], ["--mount", "192.168.4.1"], ["stop", "--mount", "alpaca://host/0"], ["start"]])
def test_a_malformed_request_is_exit_2(capsys: pytest.CaptureFixture[str], arguments: list[str]) -> None:
    """One line, nothing sent."""
    _complaint(capsys, *arguments, code=2)


def test_discover_takes_the_one_mount_that_answers(
    capsys: pytest.CaptureFixture[str], server: AltAzServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    """None is exit 3, several are exit 2 with their addresses."""
    here = FoundMount(mount.mount_address(server.address), "Invented Alt-Azimuth")
    monkeypatch.setattr(mount, "discover", lambda: (here,))
    assert _document(capsys, "--mount", "discover")["name"] == "Invented Alt-Azimuth"
    monkeypatch.setattr(mount, "discover", tuple)
    assert "local network" in _complaint(capsys, "--mount", "discover", code=3)
    other = FoundMount(MountAddress("alpaca", "127.0.0.1", 1, "0"), None)
    monkeypatch.setattr(mount, "discover", lambda: (here, other))
    assert server.address in _complaint(capsys, "--mount", "discover", code=2)


def test_without_the_extra_the_remedy_is_said(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """The libraries are optional: exit 3 and what to install."""
    for module in ("companion.mount.alpaca.adapter", "alpaca.telescope"):
        monkeypatch.setitem(sys.modules, module, None)
    monkeypatch.delattr("companion.mount.alpaca.adapter", raising=False)
    assert "pip install 'dark-field-companion[mount]'" in _complaint(capsys, "--mount", "alpaca://127.0.0.1:1/0", code=3)


@pytest.mark.alone
@pytest.mark.slow
def test_the_published_simulators(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """The same document from parts that aren't ours; INDI tells no altitude and no place."""
    with alpaca_simulator() as address:
        told = _document(capsys, "--mount", address, *HERE)
        assert (told["standard"], told["parked"], told["epoch"]) == ("alpaca", True, None)
        place = EarthLocation.from_geodetic(told["longitude_deg"] * units.deg, told["latitude_deg"] * units.deg)
        ours = EarthLocation.from_geodetic(-67.52 * units.deg, 46.31 * units.deg)
        # The chord through the Earth, by astropy on WGS84; 0.5 % is what our ball may be off.
        chord = sum((there - here) ** 2 for there, here in zip(place.geocentric, ours.geocentric, strict=True)) ** 0.5
        arc_km = 2 * EARTH_KM * math.asin(float(chord.to_value("km")) / 2 / EARTH_KM)
        assert told["distance_from_site_km"] == pytest.approx(arc_km, rel=0.005)
    with indi_simulator(tmp_path) as address:
        told = _document(capsys, "--mount", address, *HERE)
        assert (told["standard"], told["altitude_deg"], told["latitude_deg"], told["epoch"]) == ("indi", None, None, "of_date")


def test_angles_stay_below_a_full_turn() -> None:
    """359.999999 rounds to 0, not to 360."""
    at = datetime.fromisoformat("2026-10-15T22:30:00+00:00")
    state = MountState(at, ra_deg=359.9999999, dec_deg=0.0, azimuth_deg=359.9999999, altitude_deg=1.0)
    document = mount_document(MountReading(Identity("alpaca", None, frozenset(), None, None), state, Settings(at)), Site(0.0, 0.0))
    _check_schema(document)
    assert (document["ra_deg"], document["azimuth_deg"]) == (0.0, 0.0)


def test_looking_on_the_local_network_asks_nobody_else(server: AltAzServer, monkeypatch: pytest.MonkeyPatch) -> None:
    """What a machine is on is what is asked: here only loopback."""
    asked: list[object] = []
    monkeypatch.setattr(discover, "discover", lambda networks: asked.extend(networks) or ())
    monkeypatch.setattr(discover, "local_networks", lambda: [IPv4Network("127.0.0.0/8")])
    assert mount.discover() == ()
    assert asked == [IPv4Network("127.0.0.0/8")]
