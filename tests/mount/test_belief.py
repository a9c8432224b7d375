"""How far a mount may be from where it says it points: its own clock, place and kind of axes count."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from companion.mount import Horizontal, Identity, Settings
from companion.mount.belief import sky_turned_by_deg, uncertainty_deg
from companion.mount.clear_way import Blocked, Limits, Way, clear_way
from companion.sky import Site

HERE = Site(46.31, -67.52, 100.0)
NOW = datetime(2026, 6, 21, 12, tzinfo=UTC)
ALTAZ = Identity("alpaca", None, frozenset({"read", "slew"}), "of_date", is_altazimuth=True)


def _believes(clock_s: float = 0.0, latitude_deg: float = 46.31, longitude_deg: float = -67.52) -> Settings:
    return Settings(NOW, NOW + timedelta(seconds=clock_s), latitude_deg, longitude_deg)


@pytest.mark.parametrize(
    ("settings", "turned_deg"),
    [
        (_believes(), 0.0),
        (_believes(3600.0), 15.04),  # the sky turns by 15.04 degrees an hour: USNO Circular 179
        (_believes(-3600.0), 15.04),
        (_believes(86_400.0), 0.99),  # a day late the stars stand a degree on
        (_believes(longitude_deg=67.52), 79.33),  # the spherical law of cosines, by hand: cos d = .7231^2 + .6907^2 cos 135.04
        (Settings(NOW), 0.0),
    ],
)
def test_a_wrong_clock_and_place_turn_its_sky(settings: Settings, turned_deg: float) -> None:
    """By the Earth's turn and by the way on the globe; what isn't told can't count."""
    assert sky_turned_by_deg(settings, HERE, 0.0) == pytest.approx(turned_deg, abs=0.02)


def test_our_own_correction_counts() -> None:
    """Where the observer has put our own clock right by an hour, a mount that agrees with the old one is an hour off."""
    assert sky_turned_by_deg(_believes(), HERE, 3600.0) == pytest.approx(15.04, abs=0.02)


def test_with_the_sun_up_a_wrong_clock_takes_the_room_that_a_slew_needs() -> None:
    """A way 34 degrees from the Sun is clear for a mount with the right time, not for one an hour off, nor for unknown axes."""
    start, end, sun = Horizontal(40.0, 180.0), Horizontal(50.0, 200.0), Horizontal(6.0, 300.0)

    def way(settings: Settings, identity: Identity = ALTAZ) -> Way | Blocked:
        return clear_way(start, end, sun, Limits(), uncertainty_deg(5.0, identity, settings, HERE, 0.0))

    assert isinstance(way(_believes()), Way)
    assert way(_believes(3600.0)) == Blocked("sun", "anticlockwise", pytest.approx(34.0, abs=0.1))
    polar = Identity("alpaca", None, ALTAZ.can, "of_date", is_altazimuth=False)
    untold = Identity("indi", None, ALTAZ.can, "of_date", is_altazimuth=None)
    assert [getattr(way(_believes(), identity), "why", None) for identity in (polar, untold)] == ["sun", "sun"]
