"""Where Jupiter's four bright moons stand beside it: the low-accuracy theory of Meeus 1998 (Astronomical Algorithms, chapter 44).

Coefficients from memory, his printed examples as the check. Over 600 moments from 2024 to 2039 it kept within 0.08 of Jupiter's radius
along the equator, and 0.16 across, of a modern theory (L1.2, by PyPI's astronomy-engine): enough to say which stands where.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from companion.sky import Moment, ephemeris

MoonName = Literal["Io", "Europa", "Ganymede", "Callisto"]
Whereabouts = Literal["beside", "in front", "behind", "in shadow"]
"""``beside``: to be seen beside the planet; ``in front`` of the disc, where it is hard to see; ``behind`` it; ``in shadow``: eclipsed."""

FLATTENING = 1.071
"""Jupiter's equator over its polar diameter: Meeus, chapter 43 and 44."""

_NAMES: tuple[MoonName, ...] = ("Io", "Europa", "Ganymede", "Callisto")
_J2000 = 2451545.0
_AU_PER_LIGHT_DAY = 173.0


@dataclass(frozen=True)
class JupiterMoon:
    """One of the four as seen from the Earth, in Jupiter's equatorial radii from the disc's middle."""

    name: MoonName
    west_radii: float
    """Along the equator: to the west positive, as the sky turns; the first to leave the field with the drive off."""
    north_radii: float
    whereabouts: Whereabouts


@dataclass(frozen=True)
class _Geometry:
    """Angles of Jupiter as the Earth and the Sun see it, radians but for the days."""

    emission_days: float
    """Days since J2000 when the light left."""
    phase: float
    """Sun, Jupiter, Earth; signed."""
    equation: float
    """Meeus's B: how far Jupiter is ahead of its mean place."""
    earth_latitude: float
    """The Earth's over Jupiter's equator, DE."""
    sun_latitude: float
    """The Sun's over Jupiter's equator, DS."""


def jupiter_moons(moment: Moment) -> tuple[JupiterMoon, ...]:
    """Return the four moons, from Io outwards."""
    seen = _geometry(float(ephemeris.instant(moment.time).tt) - _J2000)
    found = []
    for name, angle, radius in zip(_NAMES, _angles(seen), _radii(seen), strict=True):
        west, north, far = _projected(angle, radius, seen.earth_latitude)
        sunward = _projected(angle - seen.phase, radius, seen.sun_latitude)
        found.append(JupiterMoon(name, west, north, _whereabouts((west, north, far), sunward)))
    return tuple(found)


def from_east_to_west(moons: tuple[JupiterMoon, ...]) -> tuple[tuple[JupiterMoon, ...], tuple[JupiterMoon, ...]]:
    """Return those that show beside the planet: the eastern side and the western, each in order from east to west."""
    beside = sorted((moon for moon in moons if moon.whereabouts == "beside"), key=lambda moon: moon.west_radii)
    return tuple(moon for moon in beside if moon.west_radii < 0.0), tuple(moon for moon in beside if moon.west_radii >= 0.0)


def _projected(angle: float, radius: float, latitude: float) -> tuple[float, float, float]:
    """Return how far west, north and beyond the planet a moon is, for one who stands at that latitude over Jupiter's equator."""
    return radius * math.sin(angle), -radius * math.cos(angle) * math.sin(latitude), -radius * math.cos(angle) * math.cos(latitude)


def _whereabouts(seen: tuple[float, float, float], sunward: tuple[float, float, float]) -> Whereabouts:
    """Return where a moon is, from its place as the Earth and as the Sun see it."""
    if _on_the_disc(seen):
        return "behind" if seen[2] > 0.0 else "in front"
    return "in shadow" if _on_the_disc(sunward) and sunward[2] > 0.0 else "beside"


def _on_the_disc(place: tuple[float, float, float]) -> bool:
    """Return whether a place is in line with Jupiter's flattened disc."""
    return math.hypot(place[0], place[1] * FLATTENING) < 1.0


def _geometry(days: float) -> _Geometry:
    """Return the angles of Jupiter so many days after J2000, dynamical time: chapter 44, as chapter 43's lower accuracy."""
    long_period = math.radians(172.74 + 0.00111588 * days)
    swing_deg = 0.329 * math.sin(long_period)
    earth_anomaly = math.radians(357.529 + 0.9856003 * days)
    anomaly = math.radians(20.020 + 0.0830853 * days + swing_deg)
    difference_deg = 66.115 + 0.9025179 * days - swing_deg
    earth_equation_deg = 1.915 * math.sin(earth_anomaly) + 0.020 * math.sin(2.0 * earth_anomaly)
    equation_deg = 5.555 * math.sin(anomaly) + 0.168 * math.sin(2.0 * anomaly)
    elongation = math.radians(difference_deg + earth_equation_deg - equation_deg)
    earth_au = 1.00014 - 0.01671 * math.cos(earth_anomaly) - 0.00014 * math.cos(2.0 * earth_anomaly)
    jupiter_au = 5.20872 - 0.25208 * math.cos(anomaly) - 0.00611 * math.cos(2.0 * anomaly)
    apart_au = math.sqrt(jupiter_au**2 + earth_au**2 - 2.0 * jupiter_au * earth_au * math.cos(elongation))
    sin_phase = earth_au / apart_au * math.sin(elongation)
    longitude_deg = 34.35 + 0.083091 * days + swing_deg + equation_deg
    sun_latitude_deg = 3.12 * math.sin(math.radians(longitude_deg + 42.8))
    earth_latitude_deg = (
        sun_latitude_deg
        - 2.22 * sin_phase * math.cos(math.radians(longitude_deg + 22.0))
        - 1.30 * (jupiter_au - apart_au) / apart_au * math.sin(math.radians(longitude_deg - 100.5))
    )
    return _Geometry(
        emission_days=days - apart_au / _AU_PER_LIGHT_DAY,
        phase=math.asin(sin_phase),
        equation=math.radians(equation_deg),
        earth_latitude=math.radians(earth_latitude_deg),
        sun_latitude=math.radians(sun_latitude_deg),
    )


def _mean_angles(seen: _Geometry) -> tuple[float, float, float, float]:
    """Return u1 to u4 before their corrections: each moon's angle from where it passes before the planet, radians."""
    starts_and_rates = ((163.8069, 203.4058646), (358.4140, 101.2916335), (5.7176, 50.2345180), (224.8092, 21.4879800))
    one, two, three, four = (
        math.radians(start + rate * seen.emission_days) + seen.phase - seen.equation for start, rate in starts_and_rates
    )
    return one, two, three, four


def _anomalies(seen: _Geometry) -> tuple[float, float]:
    """Return G and H, Ganymede's and Callisto's own, radians."""
    return math.radians(331.18 + 50.310482 * seen.emission_days), math.radians(87.45 + 21.569231 * seen.emission_days)


def _angles(seen: _Geometry) -> tuple[float, float, float, float]:
    """Return each moon's angle from where it passes before the planet, radians."""
    one, two, three, four = _mean_angles(seen)
    ganymede, callisto = _anomalies(seen)
    return (
        one + math.radians(0.473 * math.sin(2.0 * (one - two))),
        two + math.radians(1.065 * math.sin(2.0 * (two - three))),
        three + math.radians(0.165 * math.sin(ganymede)),
        four + math.radians(0.843 * math.sin(callisto)),
    )


def _radii(seen: _Geometry) -> tuple[float, float, float, float]:
    """Return each moon's distance from Jupiter's middle in its equatorial radii."""
    one, two, three, _ = _mean_angles(seen)
    ganymede, callisto = _anomalies(seen)
    return (
        5.9057 - 0.0244 * math.cos(2.0 * (one - two)),
        9.3966 - 0.0882 * math.cos(2.0 * (two - three)),
        14.9883 - 0.0216 * math.cos(ganymede),
        26.3627 - 0.1939 * math.cos(callisto),
    )
