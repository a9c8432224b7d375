"""What somebody may mean by a few words about a bright thing, against astropy's places."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from companion import sky
from companion.sky import ColourTold, HeightTold, Moment, Site, Told
from companion.sky.bands import CompassPoint
from tests.sky.astropy_reference import altaz, times

SITE = Site(46.31, -67.52, 180)
NIGHTFALL = Moment(SITE, datetime(2026, 10, 15, 23, 10, tzinfo=UTC))


@pytest.mark.parametrize("point", CompassPoint)
def test_what_is_meant_stands_there(point: CompassPoint) -> None:
    """Everything offered for "low in the …" is low and within forty degrees of that point, by astropy; nothing bright is left out."""
    offered = {sight.body.name for sight in sky.meant(Told(point, HeightTold.LOW), NIGHTFALL)}
    for sight in sky.standouts(NIGHTFALL):
        altitude_deg, azimuth_deg = altaz(sight.body, SITE, times(NIGHTFALL.time, 0.0))
        off_deg = abs((azimuth_deg - point.value * 45.0 + 180.0) % 360.0 - 180.0)
        if abs(off_deg - 40.0) > 0.5 and abs(altitude_deg - 30.0) > 0.5:
            assert (sight.body.name in offered) == (off_deg < 40.0 and altitude_deg < 30.0), sight.body.name


def test_colour_tells_apart() -> None:
    """The orange one in the west at nightfall in October is Arcturus, never a white star (B-V 1.24, Bright Star Catalogue)."""
    assert [sight.body.name for sight in sky.meant(Told(CompassPoint.WEST, None, ColourTold.ORANGE), NIGHTFALL)] == ["Arcturus"]


def test_a_pair_stands_together() -> None:
    """In January the two bright ones high up are no farther apart than two and a half fists, and both bright."""
    pair = sky.pair_meant(Told(), Moment(SITE, datetime(2027, 1, 15, 1, 0, tzinfo=UTC)))
    assert pair is not None
    assert sky.separation_deg(*pair) <= 25.0


def test_never_the_sun() -> None:
    """By day the Sun is never offered."""
    assert all(sight.body.kind != "sun" for sight in sky.standouts(Moment(SITE, datetime(2026, 10, 15, 16, 0, tzinfo=UTC))))
