"""Where things stand: apparent topocentric places over a site at a moment.

Skyfield gives the place with proper motion, parallax, light time, aberration and deflection; refraction is Bennett's formula at
10 °C and the standard pressure of the site's elevation. Below the horizon there is none: a body that even refraction does not lift
above it is given where it geometrically is.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

import numpy as np
from skyfield.api import Star, load_constellation_map
from skyfield.earthlib import refract
from skyfield.magnitudelib import planetary_magnitude

from companion.sky import ephemeris
from companion.sky.ephemeris import Floats
from companion.sky.types import Body, Moment, Place, Sight, Site

J1991_25 = 2448349.0625
"""Julian date (TDB) of the Hipparcos catalogue."""

TEMPERATURE_C = 10.0
"""The air's temperature, for refraction."""

SUN_MAGNITUDE = -26.7

_BARYCENTRES = {"Jupiter", "Saturn", "Uranus", "Neptune"}  # DE421 holds these planets as barycentres only


def sight(body: Body, moment: Moment, refraction: bool = True) -> Sight:
    """Return where a body stands over the moment's site, above or below the horizon."""
    return sights((body,), moment, refraction)[0]


def sights(bodies: Sequence[Body], moment: Moment, refraction: bool = True) -> list[Sight]:
    """Return where each body stands, in the order given; the fixed ones are worked out together, fast."""
    found = dict(_fixed_sights(tuple(body for body in bodies if body.place is not None), moment, refraction))
    return [found[body] if body.place is not None else _moving_sight(body, moment, refraction) for body in bodies]


@lru_cache(maxsize=32)
def _fixed_sights(bodies: tuple[Body, ...], moment: Moment, refraction: bool) -> tuple[tuple[Body, Sight], ...]:
    """Return where bodies stand that keep their places: a turn of the talk asks for the same ones several times."""
    if not bodies:
        return ()
    target_stars = star([body.place for body in bodies if body.place is not None])
    apparent = ephemeris.apparent(moment.site, target_stars, ephemeris.instant(moment.time))
    return tuple(
        (body, Sight(body, moment.time, altitude, azimuth, body.magnitude, constellation))
        for body, altitude, azimuth, constellation in _stands(apparent, moment.site, refraction, bodies)
    )


@lru_cache(maxsize=256)
def _moving_sight(body: Body, moment: Moment, refraction: bool) -> Sight:
    """Return where the Sun, the Moon or a planet stands."""
    astrometric = ephemeris.astrometric(moment.site, target(body), ephemeris.instant(moment.time))
    ((_, altitude, azimuth, constellation),) = _stands(ephemeris.made_apparent(astrometric), moment.site, refraction, [body])
    return Sight(body, moment.time, altitude, azimuth, _magnitude(body, astrometric), constellation)


def separation_deg(one: Sight, other: Sight) -> float:
    """Return the angle between two sights, degrees."""
    return angle_deg(one.altitude_deg, one.azimuth_deg, other.altitude_deg, other.azimuth_deg)


def angle_deg(altitude1_deg: float, azimuth1_deg: float, altitude2_deg: float, azimuth2_deg: float) -> float:
    """Return the angle between two directions, degrees; any latitude-like and longitude-like pair will do (Vincenty's form)."""
    lat1, lat2 = math.radians(altitude1_deg), math.radians(altitude2_deg)
    turn = math.radians(azimuth2_deg - azimuth1_deg)
    across = math.hypot(math.cos(lat2) * math.sin(turn), math.cos(lat1) * math.sin(lat2) - math.sin(lat1) * math.cos(lat2) * math.cos(turn))
    return math.degrees(math.atan2(across, math.sin(lat1) * math.sin(lat2) + math.cos(lat1) * math.cos(lat2) * math.cos(turn)))


def target(body: Body) -> Any:
    """Return what the ephemeris observes for one body, at one time or at many: a skyfield star, or a name in the kernel."""
    return kernel_name(body) if body.place is None else star([body.place])


def star(places: Sequence[Place]) -> Any:
    """Return skyfield's star for N places at one time, or for a single one at any number of times."""
    fields = np.array([(place.ra_deg, place.dec_deg, place.pm_ra_mas, place.pm_dec_mas, place.parallax_mas) for place in places]).T
    # Skyfield tells one star at many times from many at one time by the numbers being bare.
    ra_deg, dec_deg, pm_ra_mas, pm_dec_mas, parallax_mas = fields[:, 0] if len(places) == 1 else fields
    return Star(
        ra_hours=ra_deg / 15.0,
        dec_degrees=dec_deg,
        ra_mas_per_year=pm_ra_mas,
        dec_mas_per_year=pm_dec_mas,
        parallax_mas=parallax_mas,
        epoch=J1991_25,
    )


def kernel_name(body: Body) -> str:
    """Return what the ephemeris calls the Sun, the Moon or a planet."""
    return f"{body.name.lower()} barycenter" if body.name in _BARYCENTRES else body.name.lower()


def refracted_deg(altitude_deg: Floats, elevation_m: float) -> Floats:
    """Return where airless altitudes, shape (N,), appear through the air at that elevation; below the horizon they stay as they are."""
    # The scale height as skyfield has it for its standard pressure.
    pressure_mbar = 1010.0 * math.exp(-elevation_m / 9.1e3)
    seen = refract(altitude_deg, TEMPERATURE_C, pressure_mbar)
    return np.where(seen >= 0.0, seen, altitude_deg)


def _stands(apparent: Any, site: Site, refraction: bool, bodies: Sequence[Body]) -> list[tuple[Body, float, float, str]]:
    """Return body, altitude, azimuth and constellation for an apparent position of one body or of all."""
    altitude, azimuth, _ = apparent.altaz()
    altitudes = np.atleast_1d(altitude.degrees)
    if refraction:
        altitudes = refracted_deg(altitudes, site.elevation_m)
    azimuths = np.atleast_1d(azimuth.degrees) % 360.0
    constellations = np.atleast_1d(_constellation_map()(apparent))
    return [
        (body, float(altitude), float(azimuth), str(constellation))
        for body, altitude, azimuth, constellation in zip(bodies, altitudes, azimuths, constellations, strict=True)
    ]


@lru_cache(maxsize=1)
def _constellation_map() -> Any:
    """Return skyfield's map from a position to the IAU abbreviation."""
    return load_constellation_map()


def _magnitude(body: Body, astrometric: Any) -> float | None:
    """Return the visual magnitude of the Sun, the Moon or a planet; None where no formula holds."""
    if body.kind == "sun":
        return SUN_MAGNITUDE
    if body.kind == "moon":
        phase_angle_deg = float(astrometric.phase_angle(ephemeris.kernel()[ephemeris.SUN_NAME]).degrees)
        # Krisciunas and Schaefer 1991 (PASP 103, 1033), equation 9 with its constant.
        return round(-12.73 + 0.026 * phase_angle_deg + 4e-9 * phase_angle_deg**4, 2)
    # Mallama and Hilton 2018 as skyfield has it; it answers NaN outside the formulas' reach.
    magnitude = float(planetary_magnitude(astrometric))
    return None if math.isnan(magnitude) else round(magnitude, 2)
