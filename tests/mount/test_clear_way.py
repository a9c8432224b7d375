"""The geometry of a slew that may be sent, against a dense sampling of all it may pass, with angles by astropy."""

from __future__ import annotations

import numpy as np
import pytest
from astropy.coordinates.angles import angular_separation
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from companion.mount import Horizontal
from companion.mount.clear_way import (
    SUN_KEEP_OUT_DEG,
    SUN_MOVES_DEG,
    Blocked,
    Limits,
    Sector,
    Way,
    clear_way,
    distance_to_box_deg,
    is_near_sun,
)

KEEP_OUT_DEG = SUN_KEEP_OUT_DEG + SUN_MOVES_DEG
ANYWHERE = Limits()
_UP = st.floats(0, 90)
_AZIMUTH = st.floats(0, 360, exclude_max=True)
_DIRECTION = st.builds(Horizontal, _UP, _AZIMUTH)
_SUN = st.builds(Horizontal, st.floats(-20, 90), _AZIMUTH)


def _apart_deg(point: Horizontal, azimuths_deg: object, altitudes_deg: object) -> np.ndarray:
    """Return the angles from a direction to others, degrees, by astropy (Vincenty's formula)."""
    given_rad = (np.radians(x) for x in (point.azimuth_deg, point.altitude_deg, azimuths_deg, altitudes_deg))
    return np.degrees(angular_separation(*given_rad))


def _passed(start: Horizontal, end: Horizontal) -> tuple[np.ndarray, np.ndarray]:
    """Return a grid over all a slew may pass, by either turn: every azimuth, at every height between."""
    heights = np.linspace(*sorted((start.altitude_deg, end.altitude_deg)), 40)
    return np.meshgrid(np.arange(0.0, 360.0, 1.0), heights)


@settings(max_examples=200, deadline=None)
@given(_DIRECTION, _DIRECTION, _SUN, st.floats(0, 40))
def test_no_clear_way_comes_near_a_risen_sun(start: Horizontal, end: Horizontal, sun: Horizontal, uncertainty_deg: float) -> None:
    """A way is clear just when nothing it may pass is nearer than 15 degrees, the Sun's own motion and what the mount may be wrong."""
    nearest_deg = float(_apart_deg(sun, *_passed(start, end)).min())
    room_deg = KEEP_OUT_DEG + uncertainty_deg
    # The grid is a degree wide: what lies that near to the bound is decided by either.
    assume(abs(nearest_deg - room_deg) > 1.0)
    found = clear_way(start, end, sun, ANYWHERE, uncertainty_deg)
    assert isinstance(found, Way) == (sun.altitude_deg <= -1.0 or nearest_deg > room_deg)


@settings(max_examples=200, deadline=None)
@given(_DIRECTION, _AZIMUTH, st.floats(0, 360), _UP, _UP)
def test_the_distance_to_a_box(point: Horizontal, from_deg: float, width_deg: float, one_deg: float, other_deg: float) -> None:
    """The nearest direction of a box, against a grid over it."""
    lowest_deg, highest_deg = sorted((one_deg, other_deg))
    azimuths, heights = np.meshgrid(from_deg + np.linspace(0, width_deg, 400), np.linspace(lowest_deg, highest_deg, 100))
    expected_deg = float(_apart_deg(point, azimuths, heights).min())
    assert distance_to_box_deg(point, from_deg, width_deg, lowest_deg, highest_deg) == pytest.approx(expected_deg, abs=1.0)
    assert distance_to_box_deg(point, from_deg, width_deg, lowest_deg, highest_deg) <= expected_deg + 1e-6


def test_both_turns_must_be_clear() -> None:
    """The short turn is far from the Sun, the long one passes it: which one the mount takes isn't known."""
    start, end = Horizontal(30.0, 0.0), Horizontal(30.0, 20.0)
    sun = Horizontal(30.0, 180.0)
    assert clear_way(start, end, sun, ANYWHERE, 0.0) == Blocked("sun", "anticlockwise", 0.0)
    assert clear_way(end, start, sun, ANYWHERE, 0.0) == Blocked("sun", "clockwise", 0.0)
    assert isinstance(clear_way(start, end, Horizontal(10.0, 180.0), ANYWHERE, 0.0), Way)


@pytest.mark.parametrize(("sun_altitude_deg", "clear"), [(-1.01, True), (-1.0, True), (-0.99, False), (3.0, False)])
def test_a_sun_counts_from_one_degree_below_the_horizon(sun_altitude_deg: float, clear: bool) -> None:
    """At dusk a low slew passes over the place of sunset only when the Sun is down."""
    found = clear_way(Horizontal(10.0, 200.0), Horizontal(12.0, 300.0), Horizontal(sun_altitude_deg, 260.0), ANYWHERE, 0.0)
    assert isinstance(found, Way) == clear


def test_the_end_near_the_sun_is_blocked() -> None:
    """Straight up to it."""
    found = clear_way(Horizontal(60.0, 180.0), Horizontal(45.0, 180.0), Horizontal(40.0, 180.0), ANYWHERE, 0.0)
    assert isinstance(found, Blocked)
    assert found.why == "sun"


def test_an_unaligned_mount_slews_nowhere_by_day() -> None:
    """It may be wrong by half a turn; by night that doesn't matter."""
    start, end = Horizontal(80.0, 0.0), Horizontal(85.0, 90.0)
    assert isinstance(clear_way(start, end, Horizontal(5.0, 180.0), ANYWHERE, 180.0), Blocked)
    assert isinstance(clear_way(start, end, Horizontal(-5.0, 180.0), ANYWHERE, 180.0), Way)
    assert isinstance(clear_way(start, end, None, ANYWHERE, 180.0), Way)


@pytest.mark.parametrize(
    ("start_deg", "end_deg", "why"),
    [(20.0, -0.1, "horizon"), (-2.1, 20.0, "horizon"), (-1.5, 20.0, None), (20.0, 0.0, None), (0.0, 90.0, None)],
)
def test_never_below_the_horizon(start_deg: float, end_deg: float, why: str | None) -> None:
    """An end below it never; a start a little below it is a tube laid level."""
    found = clear_way(Horizontal(start_deg, 10.0), Horizontal(end_deg, 50.0), None, ANYWHERE, 0.0)
    assert (found.why if isinstance(found, Blocked) else None) == why


@pytest.mark.parametrize(
    ("limits", "turn"),
    [
        (Limits(highest_deg=60.0), None),
        (Limits(lowest_deg=35.0), None),
        (Limits(forbidden=(Sector(40.0, 60.0, 30.0, 50.0),)), "clockwise"),
        (Limits(forbidden=(Sector(350.0, 10.0, 0.0, 90.0),)), "anticlockwise"),
        (Limits(forbidden=(Sector(0.0, 360.0, 70.0, 90.0),)), "clockwise"),
    ],
)
def test_never_where_the_tube_cant_go(limits: Limits, turn: str | None) -> None:
    """Too low, too high, or through a sector that either turn would pass."""
    found = clear_way(Horizontal(40.0, 30.0), Horizontal(34.0 if limits.lowest_deg else 75.0, 100.0), None, limits, 0.0)
    assert isinstance(found, Blocked)
    assert (found.why, found.turn) == ("limits", turn)


def test_a_sector_beside_the_way_blocks_nothing() -> None:
    """Higher than the way, all round."""
    assert isinstance(clear_way(Horizontal(20.0, 0.0), Horizontal(30.0, 90.0), None, Limits(forbidden=(Sector(0, 360, 31, 90),)), 0.0), Way)


@given(_DIRECTION, st.sampled_from([float("nan"), float("inf"), -float("inf")]), st.integers(0, 4))
def test_what_is_no_number_is_blocked(direction: Horizontal, wrong: float, which: int) -> None:
    """Whichever figure isn't known, nothing is sent."""
    bad = Horizontal(wrong, 1.0) if which % 2 else Horizontal(1.0, wrong)
    start, end, sun = (bad if which // 2 == index else direction for index in range(3))
    found = clear_way(start, end, sun, ANYWHERE, 0.0)
    assert isinstance(found, Blocked)
    assert found.why == "unknown"
    assert clear_way(direction, direction, None, ANYWHERE, wrong) == Blocked("unknown", None)


@given(_DIRECTION, _SUN, st.floats(0, 30), st.floats(0, 5))
def test_near_the_sun(pointing: Horizontal, sun: Horizontal, uncertainty_deg: float, reach_deg: float) -> None:
    """Nearer than 15 degrees, what the mount may be wrong and how far it may be nudged; a Sun that is down is no matter."""
    apart_deg = float(_apart_deg(sun, pointing.azimuth_deg, pointing.altitude_deg))
    room_deg = SUN_KEEP_OUT_DEG + uncertainty_deg + reach_deg
    assume(abs(apart_deg - room_deg) > 1e-6)
    assert is_near_sun(pointing, sun, uncertainty_deg, reach_deg) == (sun.altitude_deg > -1.0 and apart_deg < room_deg)
    assert not is_near_sun(pointing, None, uncertainty_deg)
    assert is_near_sun(Horizontal(float("nan"), 0.0), Horizontal(10.0, 0.0), 0.0)
