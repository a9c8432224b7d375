"""What bright thing stands in a direction."""

from __future__ import annotations

import math
from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.errors import BadRequest
from companion.sky import Moment, Site, find, named_stars, sight, sights, standing_at

VIENNA = Site(48.2082, 16.3738, 200.0)
EVENING = Moment(VIENNA, datetime(2026, 11, 5, 18, 10, tzinfo=UTC))
UP = [seen for seen in sights(named_stars(2.5), EVENING) if seen.altitude_deg > 5.0]


@pytest.mark.parametrize("seen", UP, ids=[seen.body.name for seen in UP])
def test_a_bright_star_is_found_where_it_stands(seen) -> None:  # type: ignore[no-untyped-def]
    """Asked for the very place of each bright star that is up, that star comes first."""
    first = standing_at(seen.azimuth_deg, seen.altitude_deg, EVENING)[0]
    assert first.sight.body.name == seen.body.name
    assert first.distance_deg < 1e-6


@pytest.mark.parametrize(("name", "right_deg", "up_deg"), [("Vega", 4.0, 3.0), ("Saturn", -4.0, 2.0), ("Altair", 3.0, -4.0)])
def test_a_direction_judged_by_hand_finds_the_brightest_near(name: str, right_deg: float, up_deg: float) -> None:
    """A few degrees off, as hands measure, still the striking thing there comes first."""
    seen = sight(find(name), EVENING)
    assert standing_at(seen.azimuth_deg + right_deg, seen.altitude_deg + up_deg, EVENING)[0].sight.body.name == name


def test_the_sun_and_the_moon_are_among_them() -> None:
    """By day the Sun is named where it stands, and the Moon where it is, so that the Sun can be cautioned against."""
    noon = Moment(VIENNA, datetime(2026, 6, 21, 11, tzinfo=UTC))
    sun = sight(find("Sun"), noon)
    assert standing_at(sun.azimuth_deg + 3.0, sun.altitude_deg, noon)[0].sight.body.kind == "sun"
    full = Moment(VIENNA, datetime(2026, 11, 24, 20, tzinfo=UTC))
    moon = sight(find("Moon"), full)
    assert standing_at(moon.azimuth_deg + 3.0, moon.altitude_deg, full)[0].sight.body.kind == "moon"


@settings(max_examples=40, deadline=None)
@given(st.floats(-720.0, 720.0), st.floats(-90.0, 90.0))
def test_what_always_holds(azimuth_deg: float, altitude_deg: float) -> None:
    """Any direction: likeliest first, shares of at most 1 in all, within 15 degrees and nothing well below the horizon."""
    found = standing_at(azimuth_deg, altitude_deg, EVENING, count=50)
    scores = [candidate.score for candidate in found]
    assert scores == sorted(scores, reverse=True)
    assert not found or sum(scores) == pytest.approx(1.0)
    assert all(candidate.distance_deg <= 15.0 and candidate.sight.altitude_deg > -1.0 for candidate in found)


def test_nothing_below_the_horizon() -> None:
    """Straight down there is nothing."""
    assert standing_at(0.0, -90.0, EVENING) == []


@pytest.mark.parametrize(("azimuth_deg", "altitude_deg"), [(math.nan, 10.0), (10.0, math.nan), (10.0, 91.0), (math.inf, 0.0)])
def test_no_direction_is_refused(azimuth_deg: float, altitude_deg: float) -> None:
    """What is no direction is refused in one line."""
    with pytest.raises(BadRequest, match="that is no direction"):
        standing_at(azimuth_deg, altitude_deg, EVENING)
