"""True north by day: which way a vertical stick's shadow points."""

from __future__ import annotations

from companion.sky.night import sun_state
from companion.sky.types import Moment

LOWEST_SUN_DEG = 5.0
"""Lower, the shadow is more than eleven times as long as the stick, and its end is lost in the grass."""

HIGHEST_SUN_DEG = 75.0
"""Higher, a stick that leans sideways by 1 degree turns its shadow by 3.7 degrees or more (tan 1 x tan 75), and near noon the shadow may
turn by a degree a minute."""


def shadow_direction(moment: Moment) -> float | None:
    """Return the azimuth, degrees from true north through east, towards which a vertical stick's shadow points from its foot.

    None where the Sun is lower than 5 degrees or higher than 75.
    """
    sun = sun_state(moment)
    if not LOWEST_SUN_DEG <= sun.altitude_deg <= HIGHEST_SUN_DEG:
        return None
    return (sun.azimuth_deg + 180.0) % 360.0
