"""Airless directions of many bodies at many times, as vectors: what the pointing fit and the diagnosis compare a mount with.

A mount's own sums know no air: refraction is left out throughout. That is 0.05 degrees at 20 degrees high and 0.09 at 10.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

import numpy as np

from companion.sky import ephemeris
from companion.sky.attitude import Floats, direction, hour_angle_to_horizon
from companion.sky.catalogue import NAKED_EYE_PLANETS, bright_stars
from companion.sky.positions import star, target
from companion.sky.types import Body, Moment, Place, Site


def standing(site: Site, bodies: Sequence[Body], times: Sequence[datetime]) -> Floats:
    """Return airless unit vectors (north, east, up), shape (n, 3), of each body at its own time; both of length n."""
    vectors = np.empty((len(bodies), 3))
    by_time, by_body = _groups(times), _groups(bodies)
    # Skyfield takes many stars at one time, or one body at many times: the fewer calls, the faster.
    if len(by_time) <= len(by_body):
        for time, members in by_time.items():
            vectors[members] = standing_together(site, [bodies[i] for i in members], time)
    else:
        for body, members in by_body.items():
            moments = [Moment(site, times[i]).time for i in members]
            first = ephemeris.instant(moments[0])
            when = ephemeris.timescale().from_datetimes(moments) if len(moments) > 1 else first
            vectors[members] = _vectors(ephemeris.apparent(site, target(body), when))
    return vectors


def standing_together(site: Site, bodies: Sequence[Body], time: datetime) -> Floats:
    """Return airless unit vectors, shape (n, 3), of n bodies at one time."""
    vectors = np.empty((len(bodies), 3))
    when = ephemeris.instant(Moment(site, time).time)
    places = {i: body.place for i, body in enumerate(bodies) if body.place is not None}
    if places:
        vectors[list(places)] = _vectors(ephemeris.apparent(site, star(list(places.values())), when))
    for i, body in enumerate(bodies):
        if body.place is None:
            vectors[i] = _vectors(ephemeris.apparent(site, target(body), when))
    return vectors


def standing_of_date(site: Site, right_ascension_deg: float, declination_deg: float, time: datetime) -> Floats:
    """Return the airless unit vector, shape (3,), of an apparent place given for the equator and equinox of date."""
    hour_angle = local_sidereal_deg(site, time) - right_ascension_deg
    return direction(*hour_angle_to_horizon(hour_angle, declination_deg, site.latitude_deg))


def local_sidereal_deg(site: Site, time: datetime) -> float:
    """Return the apparent sidereal time at a site, degrees."""
    return float(ephemeris.instant(time).gast) * 15.0 + site.longitude_deg


def fixed_body(right_ascension_deg: float, declination_deg: float) -> Body:
    """Return a body at a J2000 (ICRS) place that has no name of its own."""
    return Body(f"RA {right_ascension_deg:.4f} Dec {declination_deg:+.4f}", "star", place=Place(right_ascension_deg, declination_deg))


def mistakable(faintest: float = 3.0) -> tuple[Body, ...]:
    """Return what someone may centre by mistake: every star to that V magnitude and the planets seen without a telescope."""
    return (*bright_stars(faintest), *NAKED_EYE_PLANETS)


def _groups(keys: Sequence[Any]) -> dict[Any, list[int]]:
    """Return the indices at which each key occurs."""
    groups: dict[Any, list[int]] = {}
    for index, key in enumerate(keys):
        groups.setdefault(key, []).append(index)
    return groups


def _vectors(apparent: Any) -> Floats:
    """Return the unit vectors, shape (n, 3), of apparent positions, n at one time or one at n times."""
    altitude, azimuth, _ = apparent.altaz()
    return direction(np.atleast_1d(azimuth.degrees), np.atleast_1d(altitude.degrees))
