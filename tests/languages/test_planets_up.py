"""Which planets are up, as it is told when somebody asks, beside astropy 7's own positions."""

from __future__ import annotations

from datetime import UTC, datetime

import astropy.units as u
import pytest
from astropy.coordinates import AltAz, EarthLocation, get_body
from astropy.time import Time

from companion.languages import load_language
from companion.sky import Moment, Site
from companion.talk.question_phrases import PlanetsUp

NAMES = ("Mercury", "Venus", "Mars", "Jupiter", "Saturn")
_NEAR_THE_HORIZON_DEG = 1.0
"""Within this of it nobody can tell: refraction lifts by half a degree, and astropy is asked without."""


@pytest.mark.parametrize(
    ("time", "latitude_deg"),
    [
        (datetime(2026, 10, 15, 23, 30, tzinfo=UTC), 46.31),
        (datetime(2026, 3, 3, 4, 0, tzinfo=UTC), -33.0),
        (datetime(2026, 1, 10, 6, 0, tzinfo=UTC), 60.0),
        (datetime(2025, 8, 12, 9, 0, tzinfo=UTC), 10.0),
    ],
)
def test_the_planets_that_are_up_are_named(time: datetime, latitude_deg: float) -> None:
    """Those, and no others."""
    told = load_language().words(PlanetsUp(), Moment(Site(latitude_deg, -67.52), time))
    frame = AltAz(obstime=Time(time), location=EarthLocation(lat=latitude_deg * u.deg, lon=-67.52 * u.deg))
    heights_deg = {name: get_body(name.lower(), Time(time), frame.location).transform_to(frame).alt.deg for name in NAMES}
    sure = {name: deg for name, deg in heights_deg.items() if abs(deg) > _NEAR_THE_HORIZON_DEG}
    assert {name for name in sure if f"{name}: " in told} == {name for name, deg in sure.items() if deg > 0}
    assert (": " in told) == any(deg > 0 for deg in heights_deg.values())
