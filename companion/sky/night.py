"""The night: sunset, the twilights and dawn around one lower culmination of the Sun; the Sun's and the Moon's state at a moment.

The Sun's events are those of its centre, without refraction and without the dip of the horizon; refraction and the Sun's radius at
sunset are in the customary -0.8333 degrees.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache
from typing import Any, Literal

import numpy as np

from companion.sky import ephemeris
from companion.sky.attitude import wrapped
from companion.sky.crossings import Curve, crossings, sampled
from companion.sky.ephemeris import MOON_NAME, SUN_NAME, Floats
from companion.sky.types import Moment, Site

SUNSET_DEG, CIVIL_DEG, NAUTICAL_DEG, ASTRONOMICAL_DEG = -0.8333, -6.0, -12.0, -18.0
"""Altitude of the Sun's centre at sunset and at the end of each twilight, degrees."""

MOON_SEARCH_DAYS = 30
"""How far ahead a moonrise is looked for: in a month the Moon rises and sets everywhere, even at the poles."""

_HALF_DAY_S = 43_200.0
_SUN_DEG_PER_S = 360.0 / 86_400.0  # its hour angle's mean rate, near enough to step towards the culmination
_REFRACTION_AT_HORIZON_DEG = 34.0 / 60.0

Darkness = Literal["day", "civil twilight", "nautical twilight", "astronomical twilight", "dark"]


@dataclass(frozen=True)
class Night:
    """One night at a site; every time is in UTC and is None where the Sun doesn't get there that night."""

    culmination: datetime
    """The lower culmination of the Sun: the middle of the night."""
    sunset: datetime | None
    civil_dusk: datetime | None
    nautical_dusk: datetime | None
    astronomical_dusk: datetime | None
    astronomical_dawn: datetime | None
    nautical_dawn: datetime | None
    civil_dawn: datetime | None
    sunrise: datetime | None
    lowest_sun_deg: float
    """Altitude of the Sun's centre at the culmination, degrees: how dark this night gets."""


@dataclass(frozen=True)
class SunState:
    """The Sun at a moment."""

    altitude_deg: float
    """Airless altitude of its centre, degrees."""
    azimuth_deg: float
    """Degrees from true north through east."""
    is_up: bool
    """Whether any of it shows: the centre is above -0.8333 degrees."""
    darkness: Darkness
    """Which part of day, twilight or night this is."""


@dataclass(frozen=True)
class MoonState:
    """The Moon at a moment."""

    phase_deg: float
    """Apparent geocentric ecliptic longitude of date beyond the Sun's, 0 <= phase < 360: 0 new, 90 first quarter, 180 full."""
    illuminated_fraction: float
    """Lit part of the disc as seen from the Earth's centre, 0..1."""
    rise: datetime | None
    """The next time its upper limb appears (34' of refraction), UTC; None when not within 30 days."""
    set: datetime | None
    """The next time its upper limb disappears, UTC; None when not within 30 days."""
    altitude_deg: float
    """Airless altitude of its centre, degrees."""
    azimuth_deg: float
    """Degrees from true north through east."""


@lru_cache(maxsize=64)
def night_around(moment: Moment) -> Night:
    """Return the night around the next lower culmination of the Sun when it is up, else around the nearest one (a tie: the next)."""
    culmination_s = _culmination(moment)
    middle = ephemeris.after(moment.time, culmination_s)
    curve = altitude_curve(moment.site, SUN_NAME, middle)
    levels = (SUNSET_DEG, CIVIL_DEG, NAUTICAL_DEG, ASTRONOMICAL_DEG)
    falling = crossings(curve, sampled(curve, -_HALF_DAY_S, 0.0), levels, upward=False)
    rising = crossings(curve, sampled(curve, 0.0, _HALF_DAY_S), levels, upward=True)
    dusk = [ephemeris.after(middle, falling[level][-1]) if falling[level] else None for level in levels]
    dawn = [ephemeris.after(middle, rising[level][0]) if rising[level] else None for level in levels]
    return Night(
        culmination=middle,
        sunset=dusk[0],
        civil_dusk=dusk[1],
        nautical_dusk=dusk[2],
        astronomical_dusk=dusk[3],
        astronomical_dawn=dawn[3],
        nautical_dawn=dawn[2],
        civil_dawn=dawn[1],
        sunrise=dawn[0],
        lowest_sun_deg=float(curve(np.zeros(1))[0]),
    )


@lru_cache(maxsize=64)
def sun_state(moment: Moment) -> SunState:
    """Return where the Sun is and how dark that leaves the sky."""
    altitude, azimuth, _ = ephemeris.apparent(moment.site, SUN_NAME, ephemeris.instant(moment.time)).altaz()
    altitude_deg = float(altitude.degrees)
    return SunState(altitude_deg, float(azimuth.degrees) % 360.0, altitude_deg > SUNSET_DEG, darkness(altitude_deg))


def darkness(sun_altitude_deg: float) -> Darkness:
    """Return which part of day, twilight or night an altitude of the Sun means."""
    if sun_altitude_deg > SUNSET_DEG:
        return "day"
    if sun_altitude_deg > CIVIL_DEG:
        return "civil twilight"
    if sun_altitude_deg > NAUTICAL_DEG:
        return "nautical twilight"
    return "astronomical twilight" if sun_altitude_deg > ASTRONOMICAL_DEG else "dark"


@lru_cache(maxsize=64)
def moon_state(moment: Moment) -> MoonState:
    """Return the Moon's phase and place, and when it next rises and sets."""
    time = ephemeris.instant(moment.time)
    altitude, azimuth, _ = ephemeris.apparent(moment.site, MOON_NAME, time).altaz()
    kernel = ephemeris.kernel()
    from_earth = kernel["earth"].at(time)
    longitudes_deg = [from_earth.observe(kernel[body]).apparent().ecliptic_latlon("date")[1].degrees for body in (MOON_NAME, SUN_NAME)]
    rise, set_ = _next_rise_and_set(moment)
    return MoonState(
        phase_deg=float((longitudes_deg[0] - longitudes_deg[1]) % 360.0),
        illuminated_fraction=float(from_earth.observe(kernel[MOON_NAME]).fraction_illuminated(kernel[SUN_NAME])),
        rise=rise,
        set=set_,
        altitude_deg=float(altitude.degrees),
        azimuth_deg=float(azimuth.degrees) % 360.0,
    )


def altitude_curve(site: Site, target: Any, start: datetime) -> Curve:
    """Return the airless altitude of a skyfield target (or ephemeris name) as a function of seconds after ``start``."""

    def curve(seconds: Floats) -> Floats:
        altitude, _, _ = ephemeris.apparent(site, target, ephemeris.instants(start, seconds)).altaz()
        return np.asarray(altitude.degrees, dtype=np.float64)

    return curve


def _culmination(moment: Moment) -> float:
    """Return seconds from the moment to the lower culmination that its night is built around."""
    hour_angle_deg = float(_hour_angle_deg(moment.site, moment.time, np.zeros(1))[0])
    following = _refined(moment, (180.0 - hour_angle_deg) % 360.0 / _SUN_DEG_PER_S)
    if following < 0.0:  # it was only just past: the step back belongs to the one before
        following = _refined(moment, following + 2.0 * _HALF_DAY_S)
    if sun_state(moment).is_up:
        return following
    previous = _refined(moment, following - 2.0 * _HALF_DAY_S)
    return previous if -previous < following else following


def _refined(moment: Moment, seconds: float) -> float:
    """Return the culmination nearest to a first guess, in seconds after the moment."""
    for _ in range(4):
        off_deg = wrapped(_hour_angle_deg(moment.site, moment.time, np.array([seconds])) - 180.0)
        seconds -= float(off_deg[0]) / _SUN_DEG_PER_S
    return seconds


def _hour_angle_deg(site: Site, start: datetime, seconds: Floats) -> Floats:
    """Return the Sun's apparent local hour angle, degrees, shape (N,)."""
    hour_angle, _, _ = ephemeris.apparent(site, SUN_NAME, ephemeris.instants(start, seconds)).hadec()
    return np.asarray(hour_angle.hours, dtype=np.float64) * 15.0


def _next_rise_and_set(moment: Moment) -> tuple[datetime | None, datetime | None]:
    """Return when the Moon next rises and sets, looking a day at a time."""
    rise: datetime | None = None
    set_: datetime | None = None
    for day in range(MOON_SEARCH_DAYS):
        start = moment.time + timedelta(days=day)
        curve = _moon_clearance(moment.site, start)
        samples = sampled(curve, 0.0, ephemeris.SECONDS_PER_DAY, step_s=900.0)
        if rise is None and (ups := crossings(curve, samples, (0.0,), upward=True)[0.0]):
            rise = ephemeris.after(start, ups[0])
        if set_ is None and (downs := crossings(curve, samples, (0.0,), upward=False)[0.0]):
            set_ = ephemeris.after(start, downs[0])
        if rise and set_:
            break
    return rise, set_


def _moon_clearance(site: Site, start: datetime) -> Curve:
    """Return how high the Moon's upper limb stands above the horizon, refraction at the horizon taken in, degrees."""

    def curve(seconds: Floats) -> Floats:
        altitude, _, distance = ephemeris.apparent(site, MOON_NAME, ephemeris.instants(start, seconds)).altaz()
        radius_deg = np.degrees(np.arcsin(1737.4 / distance.km))  # the mean radius of the Moon, IAU
        return np.asarray(altitude.degrees + radius_deg + _REFRACTION_AT_HORIZON_DEG, dtype=np.float64)

    return curve
