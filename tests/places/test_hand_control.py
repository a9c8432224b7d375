"""What a mount's hand control asks for: zones with odd rules, angles written out."""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.errors import BadRequest
from companion.places import mount_settings, zone_at
from companion.places.hand_control import latitude, longitude
from companion.sky import Moment, Site


def settings_of(zone: str, time: datetime) -> tuple[float, float, bool]:
    """Return total offset, standard offset and daylight saving of a zone at a time."""
    found = mount_settings(Moment(Site(10.0, 20.0, zone=zone), time))
    return found.utc_offset_hours, found.standard_offset_hours, found.daylight_saving


JANUARY, JULY = datetime(2026, 1, 20, 12, tzinfo=UTC), datetime(2026, 7, 20, 12, tzinfo=UTC)


@pytest.mark.parametrize(
    ("zone", "time", "total", "standard", "saving"),
    [
        # Rules of the IANA data base, 2026.
        ("Europe/Dublin", JANUARY, 0.0, 0.0, False),
        ("Europe/Dublin", JULY, 1.0, 0.0, True),
        ("Australia/Lord_Howe", JANUARY, 11.0, 10.5, True),
        ("Australia/Lord_Howe", JULY, 10.5, 10.5, False),
        ("Asia/Kathmandu", JANUARY, 5.75, 5.75, False),
        ("Asia/Kathmandu", JULY, 5.75, 5.75, False),
        ("Pacific/Chatham", JANUARY, 13.75, 12.75, True),
        ("Pacific/Chatham", JULY, 12.75, 12.75, False),
        ("America/New_York", JANUARY, -5.0, -5.0, False),
        ("America/New_York", JULY, -4.0, -5.0, True),
        ("America/St_Johns", JULY, -2.5, -3.5, True),
        ("Asia/Kolkata", JULY, 5.5, 5.5, False),
        ("Etc/GMT+3", JULY, -3.0, -3.0, False),
        ("Africa/Casablanca", JULY, 1.0, 1.0, False),
        # In Ramadan Morocco sets the clock back: not daylight saving, and the total is what holds without it.
        ("Africa/Casablanca", datetime(2026, 3, 1, tzinfo=UTC), 0.0, 0.0, False),
        # Kazakhstan moved from +6 to +5 on 1 March 2024; by the rule of the two Januaries and Julys February counts as saving.
        ("Asia/Almaty", datetime(2024, 2, 1, tzinfo=UTC), 6.0, 5.0, True),
        ("Asia/Almaty", datetime(2024, 4, 1, tzinfo=UTC), 5.0, 5.0, False),
    ],
)
def test_offsets(zone: str, time: datetime, total: float, standard: float, saving: bool) -> None:
    """Total, standard offset and daylight saving follow the rule, also where daylight saving is negative, half an hour or absent."""
    assert settings_of(zone, time) == (total, standard, saving)


def test_the_hour_that_comes_twice() -> None:
    """On the night the clocks go back the same local hour is daylight saving the first time and not the second."""
    first = mount_settings(Moment(Site(40.7, -74.0, zone="America/New_York"), datetime(2026, 11, 1, 5, 30, tzinfo=UTC)))
    second = mount_settings(Moment(Site(40.7, -74.0, zone="America/New_York"), datetime(2026, 11, 1, 6, 30, tzinfo=UTC)))
    assert first.local_time == second.local_time == "01:30:00"
    assert (first.daylight_saving, second.daylight_saving) == (True, False)


def test_date_and_time_are_those_of_the_place() -> None:
    """Late in the evening in UTC it is already tomorrow in the east."""
    found = mount_settings(Moment(Site(-44.0, -176.5, zone="Pacific/Chatham"), datetime(2026, 1, 31, 18, 10, 5, tzinfo=UTC)))
    assert (found.local_date, found.local_time) == ("2026-02-01", "07:55:05")


@pytest.mark.parametrize(
    ("angle_deg", "signs", "written"),
    [
        (48.2082, "NS", "48°12'30\"N"),
        (48.208, "NS", "48°12'29\"N"),
        (-33.8688, "NS", "33°52'08\"S"),
        (59.0 + 59.0 / 60.0 + 59.9996 / 3600.0, "NS", "60°00'00\"N"),
        (10.0 + 59.9996 / 3600.0, "EW", "10°01'00\"E"),
        (-179.99999, "EW", "180°00'00\"W"),
        (0.0, "EW", "0°00'00\"E"),
        (-0.00001, "EW", "0°00'00\"E"),
        (-0.5, "NS", "0°30'00\"S"),
        (90.0, "NS", "90°00'00\"N"),
    ],
)
def test_degrees_minutes_seconds(angle_deg: float, signs: str, written: str) -> None:
    """Angles are written to the nearest second, carried over where it fills up, and zero has no negative side."""
    site = Site(angle_deg, 0.0) if signs == "NS" else Site(0.0, angle_deg)
    assert str(latitude(site) if signs == "NS" else longitude(site)) == written


@given(st.floats(-180.0, 180.0))
def test_written_angles_read_back(angle_deg: float) -> None:
    """Reading a written angle back gives the angle to half a second; minutes and seconds stay under 60."""
    keyed = longitude(Site(0.0, angle_deg))
    match = re.fullmatch(r"(\d+)°(\d\d)'(\d\d)\"([EW])", str(keyed))
    assert match is not None
    degrees, minutes, seconds = (int(match[i]) for i in (1, 2, 3))
    assert (degrees, minutes, seconds, match[4]) == (keyed.degrees, keyed.minutes, keyed.seconds, keyed.side)
    assert minutes < 60
    assert seconds < 60
    read = (degrees + minutes / 60.0 + seconds / 3600.0) * (1.0 if match[4] == "E" else -1.0)
    assert read == pytest.approx(angle_deg, abs=0.5 / 3600.0 + 1e-9)


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "zone"),
    [
        (53.35, -6.26, "Europe/Dublin"),
        (48.2082, 16.3738, "Europe/Vienna"),
        (-31.55, 159.08, "Australia/Lord_Howe"),
        (27.70, 85.32, "Asia/Kathmandu"),
        (-43.95, -176.55, "Pacific/Chatham"),
        (40.71, -74.01, "America/New_York"),
        (0.0, -30.0, "Etc/GMT+2"),
    ],
)
def test_zone_of_a_place(latitude_deg: float, longitude_deg: float, zone: str) -> None:
    """Towns have their countries' zones and the open sea has the hour of its longitude; latitude comes first."""
    assert zone_at(latitude_deg, longitude_deg) == zone


@given(st.floats(-90.0, 90.0), st.floats(-180.0, 180.0))
def test_every_place_has_a_zone(latitude_deg: float, longitude_deg: float) -> None:
    """Anywhere on the Earth there is a zone, and it is one a site accepts."""
    assert Site(latitude_deg, longitude_deg, zone=zone_at(latitude_deg, longitude_deg)).zone


def test_no_zone_off_the_earth() -> None:
    """An impossible place has no zone."""
    with pytest.raises(BadRequest, match="latitude"):
        zone_at(95.0, 10.0)


def test_declination_is_among_the_settings() -> None:
    """The declination is given in the model's years and left out beyond them."""
    site = Site(48.2, 16.4, zone="Europe/Vienna")
    assert mount_settings(Moment(site, JULY)).declination_deg == pytest.approx(5.3, abs=0.5)  # WMM2025 at Vienna
    assert mount_settings(Moment(site, datetime(2031, 1, 1, tzinfo=UTC))).declination_deg is None
