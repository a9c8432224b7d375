"""Where things stand: against astropy, and against examples published in books."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from skyfield.earthlib import refraction

from companion.errors import BadRequest
from companion.sky import PLANETS, Body, Moment, Place, Site, angle_deg, bright_stars, ephemeris, find, separation_deg, sight, sights
from companion.sky.positions import refracted_deg, target
from tests.sky import astropy_reference as reference

TENTH_OF_A_FINGER_ARCSEC = 36.0  # 0.01 degrees, what the project promises
PUBLISHED_TO_DEG = 0.0005

SITES = [
    Site(48.2082, 16.3738, 200.0),
    Site(-33.8688, 151.2093, 58.0),
    Site(69.6500, 18.9600, 10.0),
    Site(-54.8000, -68.3000, 20.0),
]
TIMES = [datetime(2025, 3, 1, 3, tzinfo=UTC), datetime(2026, 11, 5, 18, 10, tzinfo=UTC), datetime(2027, 6, 20, 22, tzinfo=UTC)]
STARS = [
    "Sirius",
    "Canopus",
    "Arcturus",
    "Rigil Kentaurus",
    "Vega",
    "Capella",
    "Altair",
    "Polaris",
    "Achernar",
    "Acrux",
    "Betelgeuse",
    "Deneb",
    "Alula Australis",
    "Gamma Velorum",
]
WANDERERS = ["Moon", "Sun", "Mercury", "Venus", "Mars", "Jupiter", "Saturn", "Uranus", "Neptune"]

VIENNA = SITES[0]
EVENING = Moment(VIENNA, TIMES[1])


@pytest.mark.parametrize("name", [*STARS, *WANDERERS])
def test_agrees_with_astropy(name: str) -> None:
    """Airless places agree with astropy's to 0.01 degrees at four sites and three dates (catalogue and kernel are shared)."""
    body = find(name)
    for site in SITES:
        for time in TIMES:
            ours = sight(body, Moment(site, time), refraction=False)
            altitude, azimuth = reference.altaz(body, site, reference.times(time, 0.0))
            apart = reference.apart_arcsec(ours.altitude_deg, ours.azimuth_deg, float(altitude), float(azimuth))
            assert apart < TENTH_OF_A_FINGER_ARCSEC


def test_many_together_equal_one_by_one() -> None:
    """The vectorised places are those of each body alone, in the order asked, mixed kinds and repeats included."""
    bodies = [find("Jupiter"), *bright_stars(2.0), find("Moon"), find("M 31"), find("Jupiter")]
    together = sights(bodies, EVENING)
    assert [seen.body for seen in together] == bodies
    for seen in together:
        alone = sight(seen.body, EVENING)
        assert seen.altitude_deg == pytest.approx(alone.altitude_deg, abs=1e-9)
        assert seen.azimuth_deg == pytest.approx(alone.azimuth_deg, abs=1e-9)
        assert (seen.magnitude, seen.constellation) == (alone.magnitude, alone.constellation)


def test_offset_of_the_clock_does_not_matter() -> None:
    """The same instant written with another offset gives the same place."""
    elsewhere = Moment(VIENNA, datetime.fromisoformat("2026-11-05T23:55:00+05:45"))
    assert sight(find("Vega"), elsewhere).altitude_deg == pytest.approx(sight(find("Vega"), EVENING).altitude_deg, abs=1e-9)


def test_sidereal_time_of_meeus_12a() -> None:
    """Apparent sidereal time at Greenwich, 1987 April 10, 0h UT: 13h10m46.1351s (Meeus, Astronomical Algorithms, example 12.a)."""
    published = 13 + 10 / 60 + 46.1351 / 3600
    assert float(ephemeris.timescale().ut1_jd(2446895.5).gast) == pytest.approx(published, abs=0.01 / 3600)


def test_venus_of_meeus_13b() -> None:
    """Venus over Washington, 1987 April 10, 19h21m UT: azimuth 68.0337 from south, altitude 15.1249 (Meeus, example 13.b).

    The book reckons from the Earth's centre: Venus's parallax of 7" lowers it by up to 0.002 degrees here.
    """
    washington = Site(38 + 55 / 60 + 17 / 3600, -(77 + 3 / 60 + 56 / 3600))
    venus = sight(find("Venus"), Moment(washington, datetime(1987, 4, 10, 19, 21, tzinfo=UTC)), refraction=False)
    # The book's 19h21m is UT1, which was then 0.44 s behind UTC: 0.002 degrees of turning.
    assert venus.azimuth_deg == pytest.approx(180.0 + 68.0337, abs=0.003)
    assert venus.altitude_deg == pytest.approx(15.1249, abs=0.004)


def test_separation_of_meeus_17a() -> None:
    """Arcturus and Spica are 32 degrees 47'35" apart by catalogue place J2000 (Meeus, example 17.a), also by our table."""

    def j2000(body: Body) -> tuple[float, float]:
        place = body.place
        assert place is not None
        to_deg = 8.75 / 3.6e6  # years from the catalogue's epoch, milliarcseconds to degrees
        across = place.pm_ra_mas / np.cos(np.radians(place.dec_deg))
        return place.dec_deg + place.pm_dec_mas * to_deg, place.ra_deg + across * to_deg

    assert angle_deg(*j2000(find("Arcturus")), *j2000(find("Spica"))) == pytest.approx(32 + 47 / 60 + 35 / 3600, abs=PUBLISHED_TO_DEG)


def test_bennett_of_meeus_16a() -> None:
    """The refraction formula in use gives 28.754' at an apparent 0.5 degrees (Meeus, example 16.a, Bennett's formula).

    Skyfield's, as the Nautical Almanac's, scales it by pressure and temperature: 1010 mbar and 10 C make 0.9993 of the book's.
    """
    scaled = float(refraction(np.array(0.5), 10.0, 1010.0)) * 60.0
    assert scaled == pytest.approx(28.754 * 0.28 * 1010.0 / 283.0, abs=0.002)


@pytest.mark.parametrize(
    ("apparent_deg", "minutes"), [(0.5, 28.754), (1.0, 24.33), (2.0, 18.22), (5.0, 9.88), (10.0, 5.39), (20.0, 2.70), (45.0, 0.995)]
)
def test_refraction_lifts_as_the_nautical_almanac_says(apparent_deg: float, minutes: float) -> None:
    """Lifting an airless altitude by Bennett's refraction (formula of the Nautical Almanac 1998, p. 280) gives the apparent one back."""
    airless = np.array([apparent_deg - minutes / 60.0 + 1e-6])
    assert refracted_deg(airless, 0.0)[0] == pytest.approx(apparent_deg, abs=0.05 / 60.0 + 0.0005)


def test_refraction_of_meeus_16a_inverse() -> None:
    """A true 33.246' is lifted by about 24.618' (Meeus, example 16.a, Saemundsson's formula, consistent with Bennett's to 0.1')."""
    seen_deg = refracted_deg(np.array([33.246 / 60.0]), 0.0)[0]
    assert (seen_deg * 60.0 - 33.246) == pytest.approx(24.618, abs=0.1)


@given(st.floats(-90.0, 90.0), st.floats(-500.0, 100_000.0))
def test_refraction_only_lifts_and_only_what_shows(airless_deg: float, elevation_m: float) -> None:
    """Refraction never lowers a body noticeably, never lifts by more than it can, and leaves alone what stays below the horizon."""
    seen = float(refracted_deg(np.array([airless_deg]), elevation_m)[0])
    assert -0.0005 <= seen - airless_deg < 0.65  # Bennett's formula falls a hair below zero at the zenith
    assert seen >= 0.0 or seen == airless_deg


@pytest.mark.parametrize("elevation_m", [-400.0, 0.0, 2850.0, 5600.0])
def test_refraction_is_skyfields_at_standard_pressure(elevation_m: float) -> None:
    """Above the horizon the lifted height is skyfield's own for its standard atmosphere at that elevation."""
    moment = Moment(Site(10.0, 20.0, elevation_m), TIMES[1])
    when = ephemeris.instant(moment.time)
    for seen in sights(bright_stars(1.0), moment):
        theirs, _, _ = ephemeris.apparent(moment.site, target(seen.body), when).altaz(temperature_C="standard", pressure_mbar="standard")
        if seen.altitude_deg > 0.0:
            assert seen.altitude_deg == pytest.approx(theirs.degrees, abs=1e-6)


def test_no_refraction_is_lower_by_the_refraction() -> None:
    """With the air left out a star at 34 degrees stands about 1.4' lower, at the same bearing."""
    saturn = find("Saturn")
    with_air, without = sight(saturn, EVENING), sight(saturn, EVENING, refraction=False)
    assert (with_air.altitude_deg - without.altitude_deg) * 60.0 == pytest.approx(1.4, abs=0.1)
    assert with_air.azimuth_deg == without.azimuth_deg


@pytest.mark.parametrize(
    ("name", "constellation"), [("Vega", "Lyr"), ("Polaris", "UMi"), ("M 31", "And"), ("Acrux", "Cru"), ("Albireo", "Cyg"), ("M 5", "Ser")]
)
def test_constellations(name: str, constellation: str) -> None:
    """Each lies in its constellation (IAU boundaries)."""
    assert sight(find(name), EVENING).constellation == constellation


def test_magnitudes_of_what_varies() -> None:
    """Planets shine as they do: Jupiter -2.9 to -1.6, Venus -4.9 to -3.8, Saturn -0.6 to 1.5 (Mallama and Hilton 2018, extremes)."""
    for month in range(1, 13):
        moment = Moment(VIENNA, datetime(2026, month, 5, tzinfo=UTC))
        seen = {one.body.name: one.magnitude for one in sights(PLANETS, moment)}
        assert -3.0 < (seen["Jupiter"] or 0.0) < -1.6
        assert -5.0 < (seen["Saturn"] or 9.0) < 1.5
        assert 5.3 < (seen["Uranus"] or 0.0) < 6.1
        assert seen["Venus"] is None or -5.0 < seen["Venus"] < -2.5


def test_full_moon_shines_as_the_formula_says() -> None:
    """Near full the Moon is about magnitude -12.5 (Krisciunas and Schaefer 1991, -12.73 at phase angle 0)."""
    full = sight(find("Moon"), Moment(VIENNA, datetime(2026, 11, 24, 15, tzinfo=UTC)))
    assert full.magnitude == pytest.approx(-12.5, abs=0.25)


@pytest.mark.parametrize("latitude_deg", [90.0, -90.0])
def test_at_the_poles_height_is_declination(latitude_deg: float) -> None:
    """At a pole a star's airless height is its declination of date, north or south, within precession and aberration."""
    vega = sight(find("Vega"), Moment(Site(latitude_deg, 0.0), TIMES[1]), refraction=False)
    assert vega.altitude_deg == pytest.approx(np.sign(latitude_deg) * 38.8, abs=0.05)


@pytest.mark.parametrize("year", [1850, 1899, 2053, 2054, 2200])
def test_dates_outside_the_ephemeris_are_refused(year: int) -> None:
    """Outside 1899-07-29 to 2053-10-09 the sky says in one line which dates it knows, for stars too."""
    time = datetime(year, 1, 15, tzinfo=UTC) if year < 2000 else datetime(year, 12, 15, tzinfo=UTC)
    for name in ("Vega", "Moon"):
        with pytest.raises(BadRequest, match="I only know dates from 1899 to 2053"):
            sight(find(name), Moment(VIENNA, time))


PLACES = st.builds(Place, st.floats(0.0, 359.99), st.floats(-90.0, 90.0))
MOMENTS = st.builds(
    Moment,
    st.builds(Site, st.floats(-90.0, 90.0), st.floats(-180.0, 180.0), st.floats(-500.0, 9_000.0)),
    st.datetimes(datetime(1900, 1, 1), datetime(2053, 1, 1)).map(lambda time: time.replace(tzinfo=UTC)),
)


@settings(max_examples=60, deadline=None)
@given(PLACES, PLACES, MOMENTS)
def test_directions_are_directions_and_distances_stay(one: Place, other: Place, moment: Moment) -> None:
    """Anywhere, any time: angles in range, and two fixed places as far apart over the horizon as in the catalogue, but for aberration."""
    a, b = sights([Body("one", "star", 1.0, place=one), Body("other", "star", 1.0, place=other)], moment, refraction=False)
    for seen in (a, b):
        assert -90.0 <= seen.altitude_deg <= 90.0
        assert 0.0 <= seen.azimuth_deg < 360.0
    # Aberration moves a star by 20.5", so that a pair's distance changes by twice that at most; the Sun's limb bends light by 1.75".
    assert separation_deg(a, b) == pytest.approx(angle_deg(one.dec_deg, one.ra_deg, other.dec_deg, other.ra_deg), abs=45.0 / 3600.0)


@settings(max_examples=30, deadline=None)
@given(MOMENTS)
def test_a_sidereal_day_later_a_star_is_back(moment: Moment) -> None:
    """After 23h56m4.09s a star stands where it stood, to 0.005 degrees: a leap second between the two is 0.0042."""
    later = Moment(moment.site, moment.time + timedelta(seconds=86164.0905))
    assert separation_deg(sight(find("Vega"), moment, False), sight(find("Vega"), later, False)) < 0.005
