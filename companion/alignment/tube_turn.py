"""How to turn the tube from where it points to a body."""

from __future__ import annotations

from dataclasses import dataclass

from companion.sky.types import Sight


@dataclass(frozen=True)
class TubeTurn:
    """A turn about the two axes of a level base."""

    right_deg: float
    """About the azimuth axis, the shorter way, -180 < right <= 180: positive to the right (clockwise from above), negative to the left."""
    up_deg: float
    """About the altitude axis: positive up, negative down."""


def tube_turn(from_azimuth_deg: float, from_altitude_deg: float, to: Sight) -> TubeTurn:
    """Return the shortest turn from a direction to a sight; exactly behind counts as right."""
    right_deg = 180.0 - (180.0 - (to.azimuth_deg - from_azimuth_deg)) % 360.0
    return TubeTurn(right_deg, to.altitude_deg - from_altitude_deg)
