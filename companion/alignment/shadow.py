"""True north by the Sun, never looked at: which way a shadow points, and where it went down."""

from __future__ import annotations

from companion.sky.catalogue import SUN
from companion.sky.night import night_around, sun_state
from companion.sky.positions import sight
from companion.sky.types import Moment

LOWEST_SUN_DEG = 1.0
"""Lower, the Sun is mostly behind something. The midnight Sun of midsummer stands higher from 68 degrees of latitude on."""

HIGHEST_SUN_DEG = 75.0
"""Higher, a stick that leans sideways by 1 degree turns its shadow by 3.7 degrees or more (tan 1 x tan 75), and near noon the shadow may
turn by a degree a minute."""

GLOW_SUN_DEG = -12.0
"""With the Sun lower, nobody remembers for certain where it went down. A judgement."""


def shadow_direction(moment: Moment) -> float | None:
    """Return the azimuth, degrees from true north through east, towards which an upright thing's shadow points from its foot.

    None where the Sun is lower than 1 degree or higher than 75.
    """
    sun = sun_state(moment)
    if not LOWEST_SUN_DEG <= sun.altitude_deg <= HIGHEST_SUN_DEG:
        return None
    return (sun.azimuth_deg + 180.0) % 360.0


def sunset_direction(moment: Moment) -> float | None:
    """Return the azimuth, degrees from true north through east, at which the Sun went down this evening on a level horizon.

    None before it has, where it doesn't, and once it is 12 degrees down.
    """
    sunset = night_around(moment).sunset
    if sunset is None or sunset > moment.time or sun_state(moment).altitude_deg < GLOW_SUN_DEG:
        return None
    if moment.time > night_around(moment).culmination:
        return None
    return sight(SUN, Moment(moment.site, sunset), refraction=False).azimuth_deg
