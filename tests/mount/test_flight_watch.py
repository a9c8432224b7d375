"""A slew watched in flight, over ways that are as they should be and ways that aren't."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.mount import Horizontal
from companion.mount.clear_way import Way
from companion.mount.flight_watch import SILENT_S, Seen, judge_flight

_DIRECTION = st.builds(Horizontal, st.floats(0, 80), st.floats(0, 360, exclude_max=True))
EVERY_S = 0.5
WAY = Way(Horizontal(30.0, 350.0), Horizontal(50.0, 40.0))


def _flown(way: Way, clockwise: bool, azimuth_rate_deg_s: float, altitude_rate_deg_s: float) -> list[Seen]:
    """Return what is seen, twice a second, of a slew whose axes turn at their own rates and stop when they are there."""
    turn_deg = way.clockwise_deg if clockwise else way.clockwise_deg - 360.0
    rise_deg = way.end.altitude_deg - way.start.altitude_deg
    lasts_s = max(abs(turn_deg) / azimuth_rate_deg_s, abs(rise_deg) / altitude_rate_deg_s)
    seen = []
    for step in range(math.ceil(lasts_s / EVERY_S) + 1):
        at_s = step * EVERY_S
        azimuth_deg = way.start.azimuth_deg + math.copysign(min(azimuth_rate_deg_s * at_s, abs(turn_deg)), turn_deg)
        altitude_deg = way.start.altitude_deg + math.copysign(min(altitude_rate_deg_s * at_s, abs(rise_deg)), rise_deg)
        seen.append(Seen(at_s, Horizontal(altitude_deg, azimuth_deg % 360.0)))
    return seen


def _judge(seen: Sequence[Seen], way: Way = WAY, sun: Horizontal | None = None) -> str:
    return judge_flight(way, seen, started_s=0.0, now_s=seen[-1].at_s, sun=sun, uncertainty_deg=0.0)


@settings(max_examples=150, deadline=None)
@given(_DIRECTION, _DIRECTION, st.booleans(), st.floats(0.5, 15), st.floats(0.5, 15))
def test_either_turn_at_any_rates_is_on_course(start: Horizontal, end: Horizontal, clockwise: bool, one: float, other: float) -> None:
    """At every reading from the start to the end, whichever axis is there first."""
    way = Way(start, end)
    seen = _flown(way, clockwise, one, other)
    for count in range(1, len(seen) + 1, max(1, len(seen) // 20)):
        assert _judge(seen[:count], way) == "on_course"
    assert _judge(seen, way) == "on_course"


def _turning(*azimuths_deg: float, altitude_deg: float = 40.0) -> list[Seen]:
    return [Seen(index * EVERY_S, Horizontal(altitude_deg, azimuth_deg % 360)) for index, azimuth_deg in enumerate(azimuths_deg)]


@pytest.mark.parametrize(
    "seen",
    [
        _turning(350, 355, 0, altitude_deg=24.0),
        _turning(350, 355, 0, altitude_deg=56.0),
        _turning(*range(350, 420, 5)),
        _turning(*range(350, 25, -5)),
        _turning(350, 355, 0, 5, 0, 355, 350, 345, 340, 335),
        [*_turning(350, 355), Seen(1.0, Horizontal(float("nan"), 0.0))],
        [*_turning(350, 355), Seen(1.0, Horizontal(40.0, float("nan")))],
    ],
    ids=[
        "sinks",
        "climbs past",
        "turns past clockwise",
        "turns past anticlockwise",
        "turns back past its start",
        "no height",
        "no azimuth",
    ],
)
def test_off_the_expected_box_is_off_course(seen: list[Seen]) -> None:
    """Beyond the heights or the turn by more than three degrees, or first one way and then the other."""
    assert _judge(seen) == "off_course"


def test_a_little_overshoot_is_on_course() -> None:
    """Two degrees past the end and back: gears with play do that."""
    assert _judge(_turning(350, 0, 10, 20, 30, 40, 42, 40)) == "on_course"


def test_near_the_sun_comes_first() -> None:
    """On course or off it, what matters is the Sun; one that is down doesn't."""
    seen = _turning(350, 0, 10)
    assert _judge(seen, sun=Horizontal(30.0, 10.0)) == "near_sun"
    assert _judge(seen, sun=Horizontal(-2.0, 10.0)) == "on_course"
    assert _judge(seen, sun=Horizontal(20.0, 180.0)) == "on_course"
    doubtful = judge_flight(WAY, seen, started_s=0.0, now_s=1.0, sun=Horizontal(20.0, 10.0), uncertainty_deg=10.0)
    assert doubtful == "near_sun"


def test_silence_means_stop() -> None:
    """Three readings missed, from the start on or in flight."""
    for seen, now_s, expected in (
        ([], SILENT_S, "on_course"),
        ([], SILENT_S + 0.1, "silent"),
        (_turning(350, 355), EVERY_S + SILENT_S, "on_course"),
        (_turning(350, 355), EVERY_S + SILENT_S + 0.1, "silent"),
    ):
        assert judge_flight(WAY, seen, started_s=0.0, now_s=now_s, sun=None, uncertainty_deg=0.0) == expected


def test_near_the_zenith_azimuth_says_little() -> None:
    """At 89.5 degrees high a turn by sixty degrees is half a degree on the sky."""
    way = Way(Horizontal(80.0, 10.0), Horizontal(89.5, 20.0))
    assert _judge(_turning(10, 40, 80, altitude_deg=89.5), way) == "on_course"
