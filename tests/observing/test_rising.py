"""When things rise and set, against astropy's altitude at that minute."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from companion import observing, sky
from companion.sky import Moment, Site
from tests.sky.astropy_reference import altaz, times

SITE = Site(46.31, -67.52, 180)
EVENING = datetime(2026, 10, 15, 23, 0, tzinfo=UTC)
REFRACTION_DEG = 34 / 60
"""At the horizon, as almanacs take it (Explanatory Supplement to the Astronomical Almanac): a point of light rises that far below it."""
SUN_DEG = 50 / 60
"""And the Sun's centre with its upper limb there."""


@pytest.mark.parametrize(
    ("name", "below_deg"), [("Sirius", REFRACTION_DEG), ("Jupiter", REFRACTION_DEG), ("Aldebaran", REFRACTION_DEG), ("Sun", SUN_DEG)]
)
def test_rising_and_setting(name: str, below_deg: float) -> None:
    """At the time told it stands where things rise, to a minute's turn of the sky, and goes the right way; likewise for setting."""
    body, moment = sky.find(name), Moment(SITE, EVENING)
    for time, sign in ((observing.rises_at(body, moment), 1), (observing.sets_at(body, moment), -1)):
        assert time is not None
        altitude_deg, _ = altaz(body, SITE, times(time, [-60.0, 0.0, 60.0]))
        assert altitude_deg[1] == pytest.approx(-below_deg, abs=0.05)
        assert sign * (altitude_deg[2] - altitude_deg[0]) > 0


def test_what_never_rises_or_sets() -> None:
    """Polaris never rises anew here, and Canopus never comes up (declinations of 89 and -53 degrees at 46 north)."""
    moment = Moment(SITE, EVENING)
    assert observing.rises_at(sky.find("Polaris"), moment) is None
    assert observing.rises_at(sky.find("Canopus"), moment) is None
