"""How a step is told: in fists and fingers by the eye, in quarters of the finder's field by the mount."""

from __future__ import annotations

import math
from dataclasses import dataclass

from companion.sky import angle_deg

FINGERS_A_FIST = 5
"""A finger at arm's length spans about two degrees, a fist ten: common practice, no published source."""
PARTS_A_FIELD = 4
"""Nobody judges a field of view finer than to its quarter. Judgement."""


@dataclass(frozen=True)
class Direction:
    """Where something stands."""

    altitude_deg: float
    azimuth_deg: float

    def apart_deg(self, other: Direction) -> float:
        """Return the angle to another direction."""
        return angle_deg(self.altitude_deg, self.azimuth_deg, other.altitude_deg, other.azimuth_deg)


@dataclass(frozen=True)
class Offset:
    """A step in whole units: to the right and up positive."""

    right: int
    up: int


def tangent_offset(start: Direction, end: Direction) -> tuple[float, float]:
    """Return how far right and up one stands from another as the eye sees it, degrees along the straight line between them."""
    length_deg = start.apart_deg(end)
    low, high = math.radians(start.altitude_deg), math.radians(end.altitude_deg)
    turn = math.radians(end.azimuth_deg - start.azimuth_deg)
    right = math.cos(high) * math.sin(turn)
    up = math.cos(low) * math.sin(high) - math.sin(low) * math.cos(high) * math.cos(turn)
    size = math.hypot(right, up) or 1.0
    return length_deg * right / size, length_deg * up / size


def mount_offset(start: Direction, end: Direction) -> tuple[float, float]:
    """Return how far right and up an alt-azimuth mount goes, first up, then to the side; the side as the finder's view shows it."""
    turn_deg = (end.azimuth_deg - start.azimuth_deg + 180.0) % 360.0 - 180.0
    return turn_deg * math.cos(math.radians(end.altitude_deg)), end.altitude_deg - start.altitude_deg


def by_both_readings_deg(start: Direction, end: Direction) -> float:
    """Return by how much the eye's straight line and "first up, then level to the side" end apart, degrees."""
    one, other = tangent_offset(start, end), mount_offset(start, end)
    return math.hypot(one[0] - other[0], one[1] - other[1])


def in_fingers(start: Direction, end: Direction, fist_deg: float) -> Offset:
    """Return a step by eye in fingers of a person's own hand."""
    finger_deg = fist_deg / FINGERS_A_FIST
    right_deg, up_deg = tangent_offset(start, end)
    return Offset(round(right_deg / finger_deg), round(up_deg / finger_deg))


def length_in_fingers(start: Direction, end: Direction, fist_deg: float) -> int:
    """Return the length of a step by eye in fingers, along the line to a star that is named."""
    return max(1, round(start.apart_deg(end) / (fist_deg / FINGERS_A_FIST)))


def in_field_parts(start: Direction, end: Direction, field_deg: float) -> Offset:
    """Return a step of the mount in quarters of the finder's field."""
    part_deg = field_deg / PARTS_A_FIELD
    right_deg, up_deg = mount_offset(start, end)
    return Offset(round(right_deg / part_deg), round(up_deg / part_deg))
