"""How bright the sky is in a direction at a moment, V magnitudes per square arcsecond: the site, the twilight or day, the Moon.

Sums are made in nanolamberts. Zenith distances to 90 degrees; refraction is left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from companion.observing.surface_brightness import Floats, mag_arcsec2, nanolamberts
from companion.sky import MOON, SUN, Moment, sights

NATURAL_MAG_ARCSEC2 = 22.0
"""The darkest zenith without any artificial light: airglow, zodiacal light and faint stars. Falchi et al. 2016 (Science Advances 2,
e1600377), value from memory; what a site has beyond it is artificial."""

BRIGHTEST_SITE_MAG_ARCSEC2 = 16.0
"""No place without floodlights is brighter than this at night. Judgement."""

MilkyWay = Literal["unseen", "barely", "washed out", "overhead", "to the horizon"]
"""How the Milky Way shows on a clear night without the Moon."""

# Berry 1976 (Journal of the RASC 70, 97), as quoted by the light-pollution group of Cracow's university of technology; the first is the
# value below its faintest step, a judgement.
_MILKY_WAY_MAG_ARCSEC2: dict[MilkyWay, float] = {
    "unseen": 18.5,
    "barely": 19.5,
    "washed out": 20.4,
    "overhead": 21.1,
    "to the horizon": 21.7,
}

# Schaefer 1990 (PASP 102, 212) in these units as O. Carlin gives it; both coefficients from memory.
_DARKEST_LIMIT_MAG, _GLARE_MAG = 7.93, 4.316

# Schaefer's twilight and daylight, in his units: magnitudes of the Sun and the full Moon, his zero points, and his light unit in
# nanolamberts. Vistas in Astronomy 36 (1993) 311 and the program in Sky & Telescope of May 1998, page 57; values from memory, but for
# the air mass in the twilight's last factor checked against a published program that follows it.
_SUN_MAG, _FULL_MOON_MAG = -26.74, -11.05
_TWILIGHT_ZERO_MAG, _DAY_ZERO_MAG = 32.5, 43.27
_NANOLAMBERT = 1.11e-15
_MANY_TIMES_SCATTERED = 440_000.0
_NEAREST_SUN_DEG = 1.0  # nearer, the formulas rise without end


@dataclass(frozen=True)
class SiteSky:
    """The night sky of a site, without Moon and twilight."""

    zenith_mag_arcsec2: float
    """Its brightness at the zenith."""
    extinction_mag: float = 0.25
    """What an air mass takes; common practice for a site near sea level, no published source."""


@dataclass(frozen=True)
class Lamps:
    """The Sun and the Moon as they stand."""

    sun_altitude_deg: float
    sun_azimuth_deg: float
    moon_altitude_deg: float
    moon_azimuth_deg: float
    moon_magnitude: float
    """As outside the air."""


def lamps(moment: Moment) -> Lamps:
    """Return where the Sun and the Moon stand, and how bright the Moon is."""
    sun, moon = sights((SUN, MOON), moment, refraction=False)
    return Lamps(sun.altitude_deg, sun.azimuth_deg, moon.altitude_deg, moon.azimuth_deg, moon.magnitude or 0.0)


def sky_brightness(site: SiteSky, lamps: Lamps, altitude_deg: Floats | float, azimuth_deg: Floats | float) -> Floats:
    """Return the sky's brightness in N directions, shape (N,); altitudes below 0 count as 0."""
    zenith_deg = 90.0 - np.clip(altitude_deg, 0.0, 90.0)
    sun_deg = _apart_deg(zenith_deg, azimuth_deg, 90.0 - lamps.sun_altitude_deg, lamps.sun_azimuth_deg)
    moon_deg = _apart_deg(zenith_deg, azimuth_deg, 90.0 - lamps.moon_altitude_deg, lamps.moon_azimuth_deg)
    return mag_arcsec2(
        night_nanolamberts(site, zenith_deg)
        + sunlight_nanolamberts(lamps.sun_altitude_deg, sun_deg, zenith_deg, site.extinction_mag)
        + moonlight_nanolamberts(90.0 - lamps.moon_altitude_deg, moon_deg, zenith_deg, lamps.moon_magnitude, site.extinction_mag)
    )


def night_nanolamberts(site: SiteSky, zenith_distance_deg: Floats | float) -> Floats:
    """Return the brightness without Sun and Moon: more towards the horizon.

    The natural part as Krisciunas and Schaefer 1991 have it (PASP 103, 1033, equation 2): more airglow along the way, and extinction.
    The artificial part, a judgement, as air that scatters it all along the way (the last factor of their equation 15).
    """
    total = nanolamberts(site.zenith_mag_arcsec2)
    natural = np.minimum(total, nanolamberts(NATURAL_MAG_ARCSEC2))
    path = scattering_path(zenith_distance_deg)
    airglow = natural * path * 10.0 ** (-0.4 * site.extinction_mag * (path - 1.0))
    lit_air = (total - natural) * _scattered(site.extinction_mag * path) / _scattered(np.asarray(site.extinction_mag))
    return np.asarray(airglow + lit_air)


def moonlight_nanolamberts(
    moon_zenith_distance_deg: float,
    moon_separation_deg: Floats | float,
    zenith_distance_deg: Floats | float,
    moon_magnitude: float,
    extinction_mag: float,
) -> Floats:
    """Return the moonlight the air scatters: Krisciunas and Schaefer 1991, equations 3, 8, 15, 19 and 21.

    Once the Moon's centre is down it fades by a magnitude a degree, as twilight does: a judgement.
    """
    intensity = 10.0 ** (-0.4 * (moon_magnitude + 16.57))
    below_deg = max(0.0, moon_zenith_distance_deg - 90.0)
    lit = 10.0 ** (-0.4 * (extinction_mag * scattering_path(min(90.0, moon_zenith_distance_deg)) + below_deg))
    return np.asarray(_scatter(moon_separation_deg) * intensity * lit * _scattered(extinction_mag * scattering_path(zenith_distance_deg)))


def sunlight_nanolamberts(
    sun_altitude_deg: float, sun_separation_deg: Floats | float, zenith_distance_deg: Floats | float, extinction_mag: float
) -> Floats:
    """Return the sunlight in the sky, by day and in twilight, where the lesser of Schaefer's two formulas (1993, 1998) holds.

    Twilight loses a magnitude a degree and is brighter on the Sun's side; daylight is moonlight with another lamp, and what is scattered
    many times.
    """
    apart_deg = np.maximum(sun_separation_deg, _NEAREST_SUN_DEG)
    scattered = _scattered(extinction_mag * scattering_path(zenith_distance_deg))
    sideways_mag = np.asarray(zenith_distance_deg) / (360.0 * extinction_mag)
    twilight_mag = _SUN_MAG - _FULL_MOON_MAG + _TWILIGHT_ZERO_MAG - sun_altitude_deg - sideways_mag
    twilight = 10.0 ** (-0.4 * twilight_mag) * 100.0 / apart_deg
    direct = 10.0 ** (-0.4 * extinction_mag * scattering_path(90.0 - max(0.0, sun_altitude_deg)))
    day = 10.0 ** (-0.4 * (_SUN_MAG - _FULL_MOON_MAG + _DAY_ZERO_MAG)) * (
        _scatter(apart_deg) * direct + _MANY_TIMES_SCATTERED * (1.0 - direct)
    )
    return np.asarray(np.minimum(twilight, day) * scattered / _NANOLAMBERT)


def scattering_path(zenith_distance_deg: Floats | float) -> Floats:
    """Return the air looked through as it counts for scattered light, 1 at the zenith and 5 at the horizon: equation 3 of the same."""
    return np.asarray((1.0 - 0.96 * np.sin(np.radians(zenith_distance_deg)) ** 2) ** -0.5)


def darkness_from_faintest_star(magnitude: float) -> float:
    """Return the zenith's brightness from the faintest star seen high up by both eyes, at its catalogue magnitude.

    Schaefer's 1990 relation for a star looked at past its side, turned round: 7.93 - 5 lg(10^(4.316 - B/5) + 1) for a sky B. Crumey's
    threshold, which the telescope's limits rest on, agrees with it at 20 but is so flat in a town's sky that a star more or less would
    mean two magnitudes there. Never darker than the natural sky, for who sees more than that has keen eyes, nor brighter than a city's.
    """
    glare = 10.0 ** ((_DARKEST_LIMIT_MAG - magnitude) / 5.0) - 1.0
    if glare <= 0.0:
        return NATURAL_MAG_ARCSEC2
    return float(np.clip(5.0 * (_GLARE_MAG - np.log10(glare)), BRIGHTEST_SITE_MAG_ARCSEC2, NATURAL_MAG_ARCSEC2))


def darkness_from_milky_way(shows: MilkyWay) -> float:
    """Return the zenith's brightness from how the Milky Way shows: Berry's scale of 1976."""
    return _MILKY_WAY_MAG_ARCSEC2[shows]


def _scatter(separation_deg: Floats | float) -> Floats:
    """Return how much is scattered by an angle: equation 21; within 10 degrees dust by equation 19 where that is more."""
    apart = np.maximum(separation_deg, 0.25)  # the Moon's own radius
    by_air = 10.0**5.36 * (1.06 + np.cos(np.radians(apart)) ** 2)
    far = 10.0 ** (6.15 - apart / 40.0)
    by_dust = np.where(apart < 10.0, np.maximum(6.2e7 / apart**2, far), far)
    return np.asarray(by_air + by_dust)


def _scattered(magnitudes: Floats) -> Floats:
    """Return the share of the light that an extinction of so many magnitudes takes out of its way."""
    return np.asarray(1.0 - 10.0 ** (-0.4 * magnitudes))


def _apart_deg(zenith_deg: Floats | float, azimuth_deg: Floats | float, other_zenith_deg: float, other_azimuth_deg: float) -> Floats:
    """Return the angle between N directions and another, degrees."""
    one, other = np.radians(zenith_deg), np.radians(other_zenith_deg)
    turn = np.radians(np.asarray(azimuth_deg) - other_azimuth_deg)
    cosine = np.cos(one) * np.cos(other) + np.sin(one) * np.sin(other) * np.cos(turn)
    return np.asarray(np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0))))
