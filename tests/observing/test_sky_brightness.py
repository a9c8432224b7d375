"""How bright the sky is: against printed figures, and as it must behave."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.observing import Lamps, SiteSky, darkness_from_faintest_star, darkness_from_milky_way, lamps, sky_brightness
from companion.observing.sky_brightness import moonlight_nanolamberts, night_nanolamberts, sunlight_nanolamberts
from companion.observing.surface_brightness import candelas_m2, candelas_m2_of_nanolamberts, mag_arcsec2, nanolamberts
from companion.sky import MOON, SUN, Moment, Site, angle_deg, sight

DARK = SiteSky(21.5)
NO_LAMPS = Lamps(-60.0, 0.0, -60.0, 0.0, -12.7)
ALTITUDES = st.floats(0.0, 90.0)
AZIMUTHS = st.floats(0.0, 360.0)
SUNS = st.floats(-60.0, 60.0)
MOONS = st.floats(-60.0, 85.0)
DARKNESS = st.floats(16.5, 22.2)


def moon_magnitude(phase_angle_deg: float) -> float:
    """Return Krisciunas and Schaefer's equation 9."""
    return -12.73 + 0.026 * phase_angle_deg + 4e-9 * phase_angle_deg**4


def test_moonlight_as_printed() -> None:
    """Zenith distance 20, Moon's 70, 50 apart, a quarter of the way from full to new, k 0.15: 19.855 (documentation of specsim)."""
    moonlight = moonlight_nanolamberts(70.0, 50.0, 20.0, moon_magnitude(0.25 * 180.0), 0.15)
    assert float(mag_arcsec2(moonlight)) == pytest.approx(19.855, abs=0.0005)


def test_units_of_light() -> None:
    """22 mag is 54.0 nanolamberts by Krisciunas and Schaefer's equation 1 and 2e-4 cd/m2 is 21.83 (Crumey 2014, section 3.1)."""
    assert float(nanolamberts(22.0)) == pytest.approx(54.0, rel=0.001)
    assert float(candelas_m2(21.83)) == pytest.approx(2e-4, rel=0.005)


@pytest.mark.parametrize("mag", [4.0, 13.0, 18.0, 22.0, 25.0])
def test_two_ways_to_candelas(mag: float) -> None:
    """Through nanolamberts, by Crumey's zero point and by 10.8e4 10^(-0.4 mag), Cracow's sky-glow group: all agree to 2 per cent."""
    assert float(candelas_m2_of_nanolamberts(nanolamberts(mag))) == pytest.approx(float(candelas_m2(mag)), rel=0.02)
    assert 10.8e4 * 10.0 ** (-0.4 * mag) == pytest.approx(float(candelas_m2(mag)), rel=0.02)


@given(st.floats(-10.0, 30.0))
def test_there_and_back(mag: float) -> None:
    """Nanolamberts turn back into the magnitude they came from."""
    assert float(mag_arcsec2(nanolamberts(mag))) == pytest.approx(mag, abs=1e-9)


@pytest.mark.parametrize("sun_deg", [-5.0, -6.0, -8.0, -9.0, -10.0, -12.0])
def test_twilight_as_measured(sun_deg: float) -> None:
    """The zenith's twilight is within 0.6 mag of Paranal's: Patat, Ugolnikov and Postylyakov 2006 (A&A 455, 385), table 1, V.

    The coefficients are as several programs quote them. A low site is some 0.3 mag brighter, says that paper.
    """
    deeper = -sun_deg - 5.0
    measured = 11.84 + 1.518 * deeper - 0.057 * deeper**2
    assert float(sky_brightness(SiteSky(21.6), replace(NO_LAMPS, sun_altitude_deg=sun_deg), 90.0, 0.0)) == pytest.approx(measured, abs=0.6)


def test_a_blue_sky_by_day() -> None:
    """A clear day's zenith is some 4 mag a square arcsecond, a few thousand cd/m2: common practice, no published source."""
    day = float(sky_brightness(DARK, replace(NO_LAMPS, sun_altitude_deg=45.0), 90.0, 0.0))
    assert day == pytest.approx(4.0, abs=0.5)
    assert 1000.0 < float(candelas_m2(day)) < 8000.0


def test_a_full_moon_by_night() -> None:
    """A high full Moon takes a dark sky's darkest part to about 18: common practice, as ``companion.sky.visibility`` has it."""
    moonlit = replace(NO_LAMPS, moon_altitude_deg=60.0, moon_azimuth_deg=180.0, moon_magnitude=-12.73)
    assert float(sky_brightness(DARK, moonlit, 50.0, 0.0)) == pytest.approx(18.2, abs=0.4)


def test_brighter_on_the_suns_side() -> None:
    """In twilight the sky is darker away from the Sun than above it."""
    dusk = replace(NO_LAMPS, sun_altitude_deg=-8.0, sun_azimuth_deg=270.0)
    west, east = sky_brightness(DARK, dusk, np.array([20.0, 20.0]), np.array([270.0, 90.0]))
    assert west < east - 1.0


def test_a_town_brightens_more_towards_its_horizon() -> None:
    """Lower down a dark sky brightens by up to 1 mag (airglow), a lit one by more; neither is darker than its zenith."""
    dark, lit = (sky_brightness(SiteSky(zenith), NO_LAMPS, np.array([90.0, 20.0]), 0.0) for zenith in (22.0, 18.5))
    assert 0.4 < dark[0] - dark[1] < 1.0
    assert lit[0] - lit[1] > dark[0] - dark[1]


@given(DARKNESS)
def test_the_zenith_is_as_told(zenith: float) -> None:
    """Straight up, with neither Sun nor Moon, the sky is what the site was said to be."""
    assert float(mag_arcsec2(night_nanolamberts(SiteSky(zenith), 0.0))) == pytest.approx(zenith, abs=1e-9)
    assert float(sky_brightness(SiteSky(zenith), NO_LAMPS, 90.0, 0.0)) == pytest.approx(zenith, abs=1e-3)


@given(DARKNESS.map(SiteSky), st.builds(Lamps, SUNS, AZIMUTHS, MOONS, AZIMUTHS, st.floats(-12.9, -4.0)), ALTITUDES, AZIMUTHS)
def test_a_lamp_only_brightens(site: SiteSky, shining: Lamps, altitude_deg: float, azimuth_deg: float) -> None:
    """Sun and Moon make no direction darker than the night, and every brightness is a number."""
    lit = float(sky_brightness(site, shining, altitude_deg, azimuth_deg))
    assert np.isfinite(lit)
    assert lit <= float(sky_brightness(site, NO_LAMPS, altitude_deg, azimuth_deg)) + 1e-3


@given(SUNS, MOONS, st.floats(5.0, 85.0), AZIMUTHS)
def test_nothing_jumps(sun_deg: float, moon_deg: float, altitude_deg: float, azimuth_deg: float) -> None:
    """A fiftieth of a degree in the Sun's, the Moon's or the direction's height changes the brightness by less than a tenth."""
    shining = Lamps(sun_deg, 10.0, moon_deg, 130.0, -12.7)
    here = float(sky_brightness(DARK, shining, altitude_deg, azimuth_deg))
    later = (
        sky_brightness(DARK, replace(shining, sun_altitude_deg=sun_deg - 0.02), altitude_deg, azimuth_deg),
        sky_brightness(DARK, replace(shining, moon_altitude_deg=moon_deg - 0.02), altitude_deg, azimuth_deg),
        sky_brightness(DARK, shining, altitude_deg + 0.02, azimuth_deg),
    )
    assert all(abs(float(there) - here) < 0.1 for there in later)


@given(st.floats(-30.0, -0.1))
def test_twilight_only_darkens_as_the_sun_sinks(sun_deg: float) -> None:
    """At the zenith the sunlight falls with every degree the Sun sinks below the horizon."""
    higher, lower = (float(sunlight_nanolamberts(deg, 90.0 - deg, 0.0, 0.25)) for deg in (sun_deg, sun_deg - 1.0))
    assert lower < higher


def test_the_lamps_of_a_moment() -> None:
    """Sun and Moon stand where ``companion.sky`` has them, and the angle to the Moon is the sky's own."""
    moment = Moment(Site(48.2, 16.4), datetime(2026, 11, 22, 20, tzinfo=UTC))
    shining = lamps(moment)
    sun, moon = sight(SUN, moment, refraction=False), sight(MOON, moment, refraction=False)
    assert (shining.sun_altitude_deg, shining.moon_altitude_deg, shining.moon_magnitude) == (
        sun.altitude_deg,
        moon.altitude_deg,
        moon.magnitude,
    )
    apart_deg = angle_deg(moon.altitude_deg, moon.azimuth_deg, 40.0, 200.0)
    moonlight = moonlight_nanolamberts(90.0 - moon.altitude_deg, apart_deg, 50.0, shining.moon_magnitude, 0.25)
    alone = night_nanolamberts(DARK, 50.0) + moonlight
    assert float(sky_brightness(DARK, shining, 40.0, 200.0)) == pytest.approx(float(mag_arcsec2(alone)), abs=1e-3)


def test_darkness_from_what_the_observer_sees() -> None:
    """Keen eyes' 7.0 is no darker than nature, and 1.5 no brighter than a city; both limits of Schaefer's relation, values from memory."""
    assert darkness_from_faintest_star(7.0) == pytest.approx(22.0)
    assert darkness_from_faintest_star(8.5) == pytest.approx(22.0)
    assert darkness_from_faintest_star(1.5) == pytest.approx(16.0)


@pytest.mark.parametrize(("sky", "limit_mag"), [(21.8, 6.75), (21.1, 6.25), (20.0, 5.75), (19.2, 5.25), (18.66, 4.75)])
def test_darkness_from_printed_limits(sky: float, limit_mag: float) -> None:
    """Bortle's limits by eye tell the skies he gives them for within half a magnitude (printed as in ``test_published_limits.py``)."""
    assert darkness_from_faintest_star(limit_mag) == pytest.approx(sky, abs=0.5)


def test_darkness_as_the_telescope_s_limits_have_it() -> None:
    """At the edge of a town the two relations agree: Crumey's 2014 typical observer sees 5.51 under a sky of 20.0."""
    assert darkness_from_faintest_star(5.51) == pytest.approx(20.0, abs=0.1)


@settings(max_examples=50)
@given(st.floats(2.0, 7.5), st.floats(0.0, 1.0))
def test_fainter_stars_mean_a_darker_sky(magnitude: float, fainter: float) -> None:
    """Who sees fainter stars is never told of a brighter sky."""
    assert darkness_from_faintest_star(magnitude + fainter) >= darkness_from_faintest_star(magnitude)


def test_darkness_from_the_milky_way() -> None:
    """Berry's scale (1976): 21.7 where it reaches the horizon, 21.1 brilliant overhead, 20.4 without detail, 19.5 barely there."""
    told = [darkness_from_milky_way(shows) for shows in ("to the horizon", "overhead", "washed out", "barely", "unseen")]
    assert told[:4] == [21.7, 21.1, 20.4, 19.5]
    assert told[4] < 19.5
