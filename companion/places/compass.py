"""What a compass shows where true north lies, by the declination and the kind of compass."""

from __future__ import annotations

from typing import Literal

from companion.equipment import CompassKind
from companion.places.declination import declination
from companion.sky import Moment

_NEAR_ENOUGH_DEG = 5
"""A compass is hardly better, and the first star takes care of it: common practice, no published source."""


def compass_heading(moment: Moment, compass: CompassKind | Literal["unknown"] = "card") -> int | None:
    """Return what a compass shows when it faces true north, whole degrees 0..359; None where nobody knows how far off it is.

    A card, a bezel or a phone reads the magnetic bearing faced: minus the declination. The tip of a free needle lies over the
    declination itself on a dial whose zero faces true north. One that shows true north reads zero.
    """
    declination_deg = declination(moment).declination_deg
    if declination_deg is None:
        return None
    reading_deg = {"needle": declination_deg, "true": 0.0}.get(compass, -declination_deg)
    return round(reading_deg) % 360


def compass_off_deg(moment: Moment, compass: CompassKind | Literal["unknown"], reads_deg: int) -> int | None:
    """Return how far right of true north something points by what a compass reads, 0 where that is near enough; None where nobody knows."""
    heading_deg = compass_heading(moment, compass)
    if heading_deg is None:
        return None
    off_deg = (reads_deg - heading_deg + 180) % 360 - 180
    if abs(off_deg) <= _NEAR_ENOUGH_DEG:
        return 0
    return -off_deg if compass == "needle" else off_deg
