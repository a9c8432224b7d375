"""Which band a figure falls into: compass points, heights, brightness, hand measures, turns. Decided once; a language only words them.

The thresholds are common practice among observers, no published source, but for the hand measure: a fist at arm's length spans about
ten degrees.
"""

from __future__ import annotations

import enum
import math
from dataclasses import dataclass


class CompassPoint(enum.Enum):
    """The eight points, clockwise from north."""

    NORTH = 0
    NORTH_EAST = 1
    EAST = 2
    SOUTH_EAST = 3
    SOUTH = 4
    SOUTH_WEST = 5
    WEST = 6
    NORTH_WEST = 7


def compass_point(azimuth_deg: float) -> CompassPoint:
    """Return the nearest of the eight compass points."""
    return CompassPoint(round(azimuth_deg / 45.0) % 8)


class Height(enum.Enum):
    """How high something stands."""

    BELOW_HORIZON = enum.auto()
    VERY_LOW = enum.auto()
    LOW = enum.auto()
    A_THIRD_UP = enum.auto()
    HALF_WAY_UP = enum.auto()
    HIGH = enum.auto()
    OVERHEAD = enum.auto()


# The altitude, in degrees, below which each fits. Half way up is where people put 45 degrees.
_HEIGHTS = (
    (0.0, Height.BELOW_HORIZON),
    (12.0, Height.VERY_LOW),
    (25.0, Height.LOW),
    (38.0, Height.A_THIRD_UP),
    (52.0, Height.HALF_WAY_UP),
    (75.0, Height.HIGH),
)


def height(altitude_deg: float) -> Height:
    """Return how high something stands."""
    return next((band for below_deg, band in _HEIGHTS if altitude_deg < below_deg), Height.OVERHEAD)


class Brightness(enum.Enum):
    """How bright something looks."""

    BRILLIANT = enum.auto()
    VERY_BRIGHT = enum.auto()
    BRIGHT = enum.auto()
    FAIRLY_BRIGHT = enum.auto()
    NOT_VERY_BRIGHT = enum.auto()
    FAINT = enum.auto()
    UNSEEN = enum.auto()
    """Too faint for the eye alone."""


# The magnitude, as dimmed by the air, below which each fits. A suburban sky shows about 4, a dark one 6.
_BRIGHTNESS = (
    (-2.5, Brightness.BRILLIANT),
    (1.0, Brightness.VERY_BRIGHT),
    (1.6, Brightness.BRIGHT),
    (2.6, Brightness.FAIRLY_BRIGHT),
    (3.6, Brightness.NOT_VERY_BRIGHT),
    (6.0, Brightness.FAINT),
)


def brightness(magnitude: float) -> Brightness:
    """Return how bright something of this magnitude looks; hand in the magnitude as dimmed by the air."""
    return next((band for below, band in _BRIGHTNESS if magnitude < below), Brightness.UNSEEN)


def half_fists(angle_deg: float, fist_deg: float) -> int:
    """Return an angle in half fists at arm's length; 0 where it is less than one, so that fingers are the measure."""
    return round(angle_deg / fist_deg * 2)


class BodyTurn(enum.Enum):
    """A turn on one's feet, in parts of a full one: nobody counts more than five fists."""

    LESS_THAN_A_QUARTER = enum.auto()
    A_QUARTER = enum.auto()
    MORE_THAN_A_QUARTER = enum.auto()
    HALF = enum.auto()


# From which angle on, in degrees: judgement.
_TURNS = ((160.0, BodyTurn.HALF), (115.0, BodyTurn.MORE_THAN_A_QUARTER), (70.0, BodyTurn.A_QUARTER), (55.0, BodyTurn.LESS_THAN_A_QUARTER))


def body_turn(angle_deg: float) -> BodyTurn | None:
    """Return a turn in parts of a full one; None where it is small enough for fists."""
    return next((turn for from_deg, turn in _TURNS if angle_deg >= from_deg), None)


@dataclass(frozen=True)
class Side:
    """On which side of one place another one lies, as seen facing it; -1, 0 or 1 each way."""

    right: int
    """1 to the right, -1 to the left, 0 straight above or below."""
    up: int
    """1 above, -1 below, 0 level with it."""


def side_of(right_deg: float, up_deg: float, altitude_deg: float) -> Side:
    """Return the side of something so far off in azimuth and altitude, seen at this altitude; a way twice the other counts alone."""
    across_deg = ((right_deg + 180) % 360 - 180) * math.cos(math.radians(altitude_deg))
    right, up = (1 if across_deg > 0 else -1), (1 if up_deg > 0 else -1)
    if abs(across_deg) > 2 * abs(up_deg):
        return Side(right, 0)
    if abs(up_deg) > 2 * abs(across_deg):
        return Side(0, up)
    return Side(right, up)
