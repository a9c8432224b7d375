"""How the planets look at a moment: their phase, the width of their disc, the tilt of Saturn's rings. Seen from the Earth's centre."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from companion.observing.surface_brightness import Floats
from companion.sky import Body, Moment, ephemeris
from companion.sky.positions import kernel_name

EQUATORIAL_RADIUS_KM = {
    "Mercury": 2440.53, "Venus": 6051.8, "Mars": 3396.19, "Jupiter": 71492.0, "Saturn": 60268.0, "Uranus": 25559.0, "Neptune": 24764.0,
    "Moon": 1737.4,
}  # fmt: skip
"""IAU working group on cartographic coordinates, Archinal et al. 2018 (Celest. Mech. Dyn. Astr. 130, 22); values from memory."""

# Saturn's north pole at J2000 and its drift a century, degrees: the same report, values from memory.
_SATURN_POLE_RA_DEG, _SATURN_POLE_DEC_DEG = (40.589, -0.036), (83.537, -0.004)
_J2000, _CENTURY_DAYS = 2451545.0, 36525.0


@dataclass(frozen=True)
class PlanetView:
    """A planet's disc as it appears."""

    planet: Body
    illuminated_fraction: float
    """Lit part of the disc, 0..1."""
    phase_angle_deg: float
    """The angle Sun, planet, Earth: 0 full, 180 new."""
    diameter_arcsec: float
    """Of its equator."""


@dataclass(frozen=True)
class RingView:
    """Saturn's rings as they appear."""

    tilt_deg: float
    """The Earth's height over their plane, -27..27: above 0 the northern face shows; near 0 they are a line."""
    sun_tilt_deg: float
    """The Sun's height over it; where the signs differ, the face that shows is dark."""


def planet_view(planet: Body, moment: Moment) -> PlanetView:
    """Return how a disc looks. ``planet`` is one of the sky's ``PLANETS``, or its ``MOON``."""
    kernel = ephemeris.kernel()
    from_earth = kernel["earth"].at(ephemeris.instant(moment.time)).observe(kernel[kernel_name(planet)])
    phase_angle_deg = float(from_earth.phase_angle(kernel[ephemeris.SUN_NAME]).degrees)
    return PlanetView(
        planet=planet,
        illuminated_fraction=(1.0 + math.cos(math.radians(phase_angle_deg))) / 2.0,
        phase_angle_deg=phase_angle_deg,
        diameter_arcsec=2.0 * 3600.0 * math.degrees(math.asin(EQUATORIAL_RADIUS_KM[planet.name] / from_earth.distance().km)),
    )


def saturn_rings(moment: Moment) -> RingView:
    """Return how Saturn's rings lie: what the chapter on them in Meeus 1998 calls B and B'."""
    kernel = ephemeris.kernel()
    time = ephemeris.instant(moment.time)
    to_saturn = kernel["earth"].at(time).observe(kernel["saturn barycenter"])
    seen = time.ts.tdb_jd(time.tdb - float(to_saturn.light_time))
    from_sun = (kernel["saturn barycenter"] - kernel["sun"]).at(seen).position.au
    pole = _saturn_pole((float(time.tdb) - _J2000) / _CENTURY_DAYS)
    return RingView(_height_deg(to_saturn.position.au, pole), _height_deg(from_sun, pole))


def _saturn_pole(centuries: float) -> Floats:
    """Return the direction of Saturn's north pole, ICRS, shape (3,)."""
    ra, dec = (math.radians(start + rate * centuries) for start, rate in (_SATURN_POLE_RA_DEG, _SATURN_POLE_DEC_DEG))
    return np.array([math.cos(dec) * math.cos(ra), math.cos(dec) * math.sin(ra), math.sin(dec)])


def _height_deg(towards: Floats, pole: Floats) -> float:
    """Return how high the one who looks along ``towards`` stands over the plane of that pole."""
    return math.degrees(math.asin(-float(towards @ pole) / float(np.linalg.norm(towards))))
