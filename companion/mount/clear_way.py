"""Whether a slew's way and end are clear: never near a Sun that is up, below the horizon, or where the tube can't go. Pure.

Which way round the azimuth axis turns can't be known beforehand, nor which axis is there first: a way is every azimuth between start
and end, by both turns, at every height between theirs, and all of it must be clear. The altitude axis has one way only: the other leads
through the ground. So with the Sun up, only slews well above it or below it are clear, which is what is asked of us.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from companion.mount.values import Horizontal
from companion.sky import angle_deg

SUN_KEEP_OUT_DEG = 15.0
SUN_MATTERS_ABOVE_DEG = -1.0
"""The Sun's centre, airless: refraction and its half width lift its edge over the horizon at -0.83 degrees."""
SUN_MOVES_DEG = 1.0
"""What the Sun moves in the four minutes a slow slew takes: the sky turns by 15 degrees an hour."""
LEVEL_WITHIN_DEG = 2.0
"""A tube laid level by eye or bubble may say that it points a little below the horizon: a slew up from there is allowed. Judgement."""

Turn = Literal["clockwise", "anticlockwise"]


@dataclass(frozen=True)
class Sector:
    """Where the tube can't go: from one azimuth clockwise to another, between two heights; 0 to 360 is all round."""

    from_azimuth_deg: float
    to_azimuth_deg: float
    lowest_deg: float
    highest_deg: float


@dataclass(frozen=True)
class Limits:
    """What the tube may do."""

    lowest_deg: float = 0.0
    highest_deg: float = 90.0
    forbidden: tuple[Sector, ...] = ()


@dataclass(frozen=True)
class Way:
    """A slew that has been found clear."""

    start: Horizontal
    end: Horizontal

    @property
    def clockwise_deg(self) -> float:
        """How far the azimuth turns when it turns clockwise, 0 to 360; the other way round it is 360 less that."""
        return (self.end.azimuth_deg - self.start.azimuth_deg) % 360.0

    @property
    def heights_deg(self) -> tuple[float, float]:
        """The lowest and the highest it comes."""
        low, high = sorted((self.start.altitude_deg, self.end.altitude_deg))
        return low, high


@dataclass(frozen=True)
class Blocked:
    """Why a slew must not be sent."""

    why: Literal["sun", "horizon", "limits", "unknown"]
    turn: Turn | None
    """By which turn it would come there; None where that makes no difference."""
    closest_to_sun_deg: float | None = None


def clear_way(start: Horizontal, end: Horizontal, sun: Horizontal | None, limits: Limits, uncertainty_deg: float) -> Way | Blocked:
    """Say whether a slew from one direction to another is clear.

    ``sun`` is where it stands at the start, airless; None where it is known to be down. ``uncertainty_deg`` is how far the mount may be
    wrong about where it points: the Sun is given so much more room. A mount that has not been aligned may be wrong by anything.
    """
    angles = (*_angles(start), *_angles(end), *(_angles(sun) if sun else ()), uncertainty_deg)
    if not all(math.isfinite(angle) for angle in angles) or uncertainty_deg < 0:
        return Blocked("unknown", None)
    way = Way(start, end)
    if end.altitude_deg < 0 or start.altitude_deg < -LEVEL_WITHIN_DEG:
        return Blocked("horizon", None)
    lowest_deg, highest_deg = way.heights_deg
    if end.altitude_deg < limits.lowest_deg or highest_deg > limits.highest_deg:
        return Blocked("limits", None)
    for turn, from_deg, width_deg in _arcs(way):
        if any(_meets(from_deg, width_deg, lowest_deg, highest_deg, sector) for sector in limits.forbidden):
            return Blocked("limits", turn)
        if sun is not None and sun.altitude_deg > SUN_MATTERS_ABOVE_DEG:
            closest_deg = distance_to_box_deg(sun, from_deg, width_deg, lowest_deg, highest_deg)
            if closest_deg < SUN_KEEP_OUT_DEG + SUN_MOVES_DEG + uncertainty_deg:
                return Blocked("sun", turn, closest_deg)
    return way


def is_near_sun(pointing: Horizontal, sun: Horizontal | None, uncertainty_deg: float, reach_deg: float = 0.0) -> bool:
    """Say whether a direction, or any within ``reach_deg`` of it, is too near a Sun that is up: before a nudge, and in flight."""
    if sun is None or sun.altitude_deg <= SUN_MATTERS_ABOVE_DEG:
        return False
    apart_deg = angle_deg(pointing.altitude_deg, pointing.azimuth_deg, sun.altitude_deg, sun.azimuth_deg)
    # Said this way round, what is no number is near.
    return not apart_deg >= SUN_KEEP_OUT_DEG + uncertainty_deg + reach_deg


def distance_to_box_deg(point: Horizontal, from_azimuth_deg: float, width_deg: float, lowest_deg: float, highest_deg: float) -> float:
    """Return the angle from a direction to the nearest one in a box: azimuths clockwise over a width, between two heights."""
    inside = (point.azimuth_deg - from_azimuth_deg) % 360.0 <= width_deg
    # The nearest lies on the point's own meridian where the box has it, else on one of the box's two ends.
    ends_deg = [point.azimuth_deg] if inside else [from_azimuth_deg, from_azimuth_deg + width_deg]
    return min(_distance_to_meridian_deg(point, end_deg, lowest_deg, highest_deg) for end_deg in ends_deg)


def _distance_to_meridian_deg(point: Horizontal, azimuth_deg: float, lowest_deg: float, highest_deg: float) -> float:
    turn, height = math.radians(azimuth_deg - point.azimuth_deg), math.radians(point.altitude_deg)
    foot_deg = math.degrees(math.atan2(math.sin(height), math.cos(height) * math.cos(turn)))
    heights_deg = [lowest_deg, highest_deg, *([foot_deg] if lowest_deg < foot_deg < highest_deg else [])]
    return min(angle_deg(point.altitude_deg, point.azimuth_deg, one_deg, azimuth_deg) for one_deg in heights_deg)


def _arcs(way: Way) -> Iterator[tuple[Turn, float, float]]:
    """Yield both turns: where each arc begins, clockwise, and how wide it is."""
    yield "clockwise", way.start.azimuth_deg, way.clockwise_deg
    yield "anticlockwise", way.end.azimuth_deg, 360.0 - way.clockwise_deg


def _meets(from_deg: float, width_deg: float, lowest_deg: float, highest_deg: float, sector: Sector) -> bool:
    """Say whether a box and a sector have a direction in common."""
    apart_deg = sector.to_azimuth_deg - sector.from_azimuth_deg
    sector_width_deg = 360.0 if abs(apart_deg) == 360.0 else apart_deg % 360.0
    beside = (from_deg - sector.from_azimuth_deg) % 360.0 <= sector_width_deg or (sector.from_azimuth_deg - from_deg) % 360.0 <= width_deg
    return beside and lowest_deg <= sector.highest_deg and highest_deg >= sector.lowest_deg


def _angles(direction: Horizontal) -> tuple[float, float]:
    return direction.altitude_deg, direction.azimuth_deg
