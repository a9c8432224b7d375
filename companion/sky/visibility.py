"""How much the air, the twilight and the Moon take from what can be seen. Simple, smooth and, where marked, a judgement."""

from __future__ import annotations

import math

import numpy as np

from companion.sky.types import Sight

EXTINCTION_MAG = 0.25
"""Loss at the zenith, magnitudes per air mass; common practice for a site near sea level, no published source."""

SUN_BERTH_DEG = 20.0
"""Nothing closer than this to a Sun that is up, or about to be, is ever offered for pointing at."""

SUN_UNSAFE_ABOVE_DEG = -6.0
"""Altitude of the Sun from which the berth holds: within half an hour or so of its rising or setting."""

# Altitude of the Sun against the faintest star seen without a telescope at the zenith. Magnitude 0 shows at -5 degrees, 1 at -6.5 and 2 at
# -8.5: common practice, no published source. The rest is judgement: all of them at -18, and by day not even Venus, unless one knows where.
_SUN_DEG = (-18.0, -15.0, -12.0, -8.5, -6.5, -5.0, -3.0, 0.0, 10.0)
_FAINTEST_MAG = (6.0, 5.5, 4.3, 2.0, 1.0, 0.0, -1.5, -3.0, -5.0)

_FULL_MOON_LOSS_MAG = 3.0  # a high full Moon takes a dark sky from about 21.5 to 18.5 magnitudes a square arcsecond; common practice


def air_mass(altitude_deg: float) -> float:
    """Return the thickness of the air looked through, 1 at the zenith (Pickering 2002); altitudes below 0 count as 0."""
    height_deg = max(0.0, altitude_deg)
    return 1.0 / math.sin(math.radians(height_deg + 244.0 / (165.0 + 47.0 * height_deg**1.1)))


def dimming_mag(altitude_deg: float) -> float:
    """Return the magnitudes lost in the air at an altitude, beyond those lost at the zenith."""
    return EXTINCTION_MAG * (air_mass(altitude_deg) - 1.0)


def faintest_star_mag(sun_altitude_deg: float) -> float:
    """Return the faintest magnitude seen at the zenith without a telescope, by the Sun's altitude."""
    return float(np.interp(sun_altitude_deg, _SUN_DEG, _FAINTEST_MAG))


def shows(magnitude: float | None, altitude_deg: float, sun_altitude_deg: float) -> bool:
    """Say whether a thing of that magnitude, that high, is seen without a telescope with the Sun there; moonlight is left out."""
    return magnitude is not None and altitude_deg > 0.0 and magnitude + dimming_mag(altitude_deg) <= faintest_star_mag(sun_altitude_deg)


def sun_for_star_deg(magnitude: float) -> float | None:
    """Return the highest altitude of the Sun at which a star of that magnitude shows at the zenith; None if it never does."""
    if magnitude > _FAINTEST_MAG[0]:
        return None
    if magnitude <= _FAINTEST_MAG[-1]:
        return 90.0
    return float(np.interp(magnitude, _FAINTEST_MAG[::-1], _SUN_DEG[::-1]))


def moonlight_mag(moon_altitude_deg: float, illuminated_fraction: float, separation_deg: float) -> float:
    """Return the magnitudes of sky darkness that the Moon takes at that distance from it; 0 when it is down. A judgement."""
    if moon_altitude_deg <= 0.0:
        return 0.0
    nearness = 1.0 + max(0.0, 1.0 - separation_deg / 60.0)
    return _FULL_MOON_LOSS_MAG * illuminated_fraction**2 * math.sqrt(math.sin(math.radians(moon_altitude_deg))) * nearness


def nothing_hidden(_: Sight) -> bool:
    """Say that the horizon is free all round."""
    return False
