"""Places, times and missing parts: what is refused, and how."""

from __future__ import annotations

import math
import subprocess
import sys
from datetime import UTC, datetime, timedelta, timezone

import pytest

from companion.errors import BadRequest, MissingPart
from companion.sky import Moment, Site, ephemeris


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "elevation_m"),
    [(90.0, 180.0, 0.0), (-90.0, -180.0, 0.0), (0.0, 0.0, -500.0), (0.0, 0.0, 100_000.0), (48, 16, 200)],
)
def test_every_place_on_earth_will_do(latitude_deg: float, longitude_deg: float, elevation_m: float) -> None:
    """The poles, the date line and the limits of elevation are places."""
    assert Site(latitude_deg, longitude_deg, elevation_m).latitude_deg == latitude_deg


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "elevation_m", "what"),
    [
        (90.001, 0.0, 0.0, "latitude"),
        (-91.0, 0.0, 0.0, "latitude"),
        (math.nan, 0.0, 0.0, "latitude"),
        (0.0, 180.001, 0.0, "longitude"),
        (0.0, math.inf, 0.0, "longitude"),
        (0.0, 0.0, -501.0, "elevation"),
        (0.0, 0.0, 100_001.0, "elevation"),
        (0.0, 0.0, math.nan, "elevation"),
    ],
)
def test_impossible_places_are_refused(latitude_deg: float, longitude_deg: float, elevation_m: float, what: str) -> None:
    """A figure out of bounds, or none at all, is refused by name with the bounds."""
    with pytest.raises(BadRequest, match=f"the {what} .* is not possible; give"):
        Site(latitude_deg, longitude_deg, elevation_m)


@pytest.mark.parametrize("zone", ["Europe/Dublin", "Asia/Kathmandu", "Etc/GMT+3", "UTC"])
def test_zones_are_iana_names(zone: str) -> None:
    """A zone of the IANA data base will do."""
    assert Site(0.0, 0.0, zone=zone).zone == zone


@pytest.mark.parametrize("zone", ["Europe/Atlantis", "", "CEST or so", "../../etc/passwd", "/etc/localtime", "Europe", "a\0b"])
def test_other_zones_are_refused(zone: str) -> None:
    """A name nobody knows, a folder or a path is refused in one line."""
    with pytest.raises(BadRequest, match="I don't know a time zone called"):
        Site(0.0, 0.0, zone=zone)


def test_a_time_without_offset_is_refused() -> None:
    """A time that doesn't say its offset is refused, with the remedy."""
    with pytest.raises(BadRequest, match="has no offset; add one"):
        Moment(Site(0.0, 0.0), datetime(2026, 11, 5, 18, 10))


@pytest.mark.parametrize("year", [1, 9999])
def test_the_ends_of_the_calendar_are_refused(year: int) -> None:
    """A year that can't be turned into another zone's is refused, not overflown."""
    with pytest.raises(BadRequest, match="too far away"):
        Moment(Site(0.0, 0.0), datetime(year, 1, 1, tzinfo=UTC))


def test_any_offset_will_do() -> None:
    """An aware time of any offset is a moment."""
    assert Moment(Site(0.0, 0.0), datetime(2026, 1, 1, tzinfo=timezone(timedelta(hours=-9, minutes=-30)))).time.year == 2026


def test_missing_ephemeris_names_the_remedy(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the ephemeris package the message says what to install."""
    ephemeris.close()
    monkeypatch.setitem(sys.modules, "skyfield_data", None)
    with pytest.raises(MissingPart, match="pip install skyfield-data"):
        ephemeris.kernel()


def test_closing_twice_and_opening_again() -> None:
    """The ephemeris can be closed at any time and opens by itself."""
    ephemeris.close()
    ephemeris.close()
    assert ephemeris.kernel() is ephemeris.kernel()
    ephemeris.close()


PROBE = """
import socket
def refuse(*_a, **_k): raise RuntimeError("the network was used")
socket.socket.connect = socket.create_connection = socket.getaddrinfo = refuse
from datetime import datetime, UTC
from companion.alignment import *
from companion.observing import *
from companion.places import *
from companion.sky import *
moment = Moment(Site(48.2, 16.4, 200.0, "Europe/Vienna"), datetime(2026, 11, 5, 18, 10, tzinfo=UTC))
assert sight(find("Vega"), moment).altitude_deg > 0
night_around(moment), moon_state(moment), declination(moment), mount_settings(moment), reference_stars(moment), targets(moment, 3)
"""


def test_no_network_and_no_warning() -> None:
    """A fresh interpreter with warnings as errors and the network cut works everything out."""
    done = subprocess.run([sys.executable, "-W", "error", "-c", PROBE], capture_output=True, text=True, timeout=120, check=False)
    assert (done.returncode, done.stderr) == (0, "")
