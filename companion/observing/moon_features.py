"""What lies at the Moon's terminator, where shadows are long: named features, and the Sun's height over each at a moment.

Optical libration and the Sun's place after Meeus 1998 (Astronomical Algorithms, chapter 53), with the Moon and the Sun from the ephemeris.
The physical libration and nutation, at most 0.05 degrees together, are left out: the terminator moves as much in six minutes. East is
positive, towards the Sea of Crises, as the IAU has it since 1961.
"""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

import numpy as np
from skyfield.framelib import ecliptic_frame

from companion.observing.surface_brightness import Floats
from companion.sky import Moment, angle_deg, ephemeris

MEAN_INCLINATION_DEG = 1.54242
"""Of the Moon's equator to the ecliptic: IAU, by Meeus 1998, chapter 53."""

LOWEST_SUN_DEG, HIGHEST_SUN_DEG = 0.0, 12.0
"""Between these heights of the Sun a feature has shadows worth the look. Judgement."""

BEST_SUN_DEG = 5.0
"""Shadows are long then, and yet the floor is lit. Judgement."""

FARTHEST_OUT_DEG = 80.0
"""Farther from the middle of the disc a feature is too foreshortened. Judgement."""


_J2000 = 2451545.0


@dataclass(frozen=True)
class MoonFeature:
    """A named feature of the near side."""

    name: str
    """Its IAU name."""
    latitude_deg: float
    longitude_deg: float
    """East positive, -180..180."""
    diameter_km: float
    """Or its length."""


@dataclass(frozen=True)
class MoonLight:
    """Where on the Moon the Earth and the Sun stand overhead."""

    earth_latitude_deg: float
    earth_longitude_deg: float
    """Where the Earth's centre stands overhead: the libration."""
    sun_latitude_deg: float
    sun_longitude_deg: float
    """-180..180."""

    @property
    def colongitude_deg(self) -> float:
        """The Sun's selenographic colongitude, 0 <= colongitude < 360: the Sun rises at its negative as longitude."""
        return (90.0 - self.sun_longitude_deg) % 360.0


@dataclass(frozen=True)
class LitFeature:
    """A feature near the terminator."""

    feature: MoonFeature
    sun_altitude_deg: float
    """How high the Sun stands over it."""
    morning: bool
    """Whether the Sun is rising there; else it is setting."""


@lru_cache(maxsize=1)
def moon_features() -> tuple[MoonFeature, ...]:
    """Return the named features, from east to west."""
    table = (files("companion.observing.data") / "moon_features.csv").read_text(encoding="utf-8")
    features = [
        MoonFeature(row["name"], float(row["latitude_deg"]), float(row["longitude_deg"]), float(row["diameter_km"]))
        for row in csv.DictReader(table.splitlines())
    ]
    return tuple(sorted(features, key=lambda feature: -feature.longitude_deg))


def at_the_terminator(moment: Moment) -> tuple[LitFeature, ...]:
    """Return the features whose shadows are long at a moment, those that are lit best first; none at new Moon or in full daylight there."""
    light = moon_light(moment)
    found = []
    for feature in moon_features():
        altitude_deg = sun_altitude_deg(feature, light)
        edgewise_deg = angle_deg(feature.latitude_deg, feature.longitude_deg, light.earth_latitude_deg, light.earth_longitude_deg)
        if LOWEST_SUN_DEG <= altitude_deg <= HIGHEST_SUN_DEG and edgewise_deg <= FARTHEST_OUT_DEG:
            # East of the meridian the Sun stands over, the afternoon has come.
            afternoon = math.sin(math.radians(feature.longitude_deg - light.sun_longitude_deg)) > 0.0
            found.append(LitFeature(feature, altitude_deg, not afternoon))
    return tuple(sorted(found, key=lambda lit: abs(lit.sun_altitude_deg - BEST_SUN_DEG)))


def sun_altitude_deg(feature: MoonFeature, light: MoonLight) -> float:
    """Return how high the Sun stands over a feature, degrees; below 0 it is night there. Meeus 1998, chapter 53."""
    return 90.0 - angle_deg(feature.latitude_deg, feature.longitude_deg, light.sun_latitude_deg, light.sun_longitude_deg)


def moon_light(moment: Moment) -> MoonLight:
    """Return where the Earth and the Sun stand overhead on the Moon."""
    time = ephemeris.instant(moment.time)
    kernel = ephemeris.kernel()
    from_earth = kernel["earth"].at(time)
    moon, sun = (
        from_earth.observe(kernel[body]).apparent().frame_xyz(ecliptic_frame).au for body in (ephemeris.MOON_NAME, ephemeris.SUN_NAME)
    )
    centuries = (float(time.tt) - _J2000) / 36525.0
    earth_latitude_deg, earth_longitude_deg = _overhead_deg(moon, centuries)
    sun_latitude_deg, sun_longitude_deg = _overhead_deg(moon - sun, centuries)
    return MoonLight(earth_latitude_deg, earth_longitude_deg, sun_latitude_deg, sun_longitude_deg)


def _overhead_deg(to_moon: Floats, centuries: float) -> tuple[float, float]:
    """Return latitude and longitude on the Moon of the point over which an observer stands, who sees it in that direction.

    The direction is of the ecliptic and equinox of date, shape (3,); the time in centuries since J2000. Equations 53.1.
    """
    node_deg = 125.0445479 - 1934.1362891 * centuries + 0.0020754 * centuries**2
    argument_of_latitude_deg = 93.2720950 + 483202.0175233 * centuries - 0.0036539 * centuries**2
    tilt = math.radians(MEAN_INCLINATION_DEG)
    east, north, up = (float(each) for each in to_moon / np.linalg.norm(to_moon))
    node = math.radians(node_deg)
    # The same direction counted from the node: along it, across it, and up; then tilted with the Moon's equator.
    along, across = east * math.cos(node) + north * math.sin(node), north * math.cos(node) - east * math.sin(node)
    turned_deg = math.degrees(math.atan2(across * math.cos(tilt) - up * math.sin(tilt), along))
    latitude_deg = math.degrees(math.asin(-across * math.sin(tilt) - up * math.cos(tilt)))
    return latitude_deg, (turned_deg - argument_of_latitude_deg + 180.0) % 360.0 - 180.0
