"""Whether a star shows yet in the twilight, and when it will."""

from __future__ import annotations

from datetime import datetime

from companion.sky import ephemeris
from companion.sky.crossings import crossings, sampled
from companion.sky.night import altitude_curve, night_around, sun_state
from companion.sky.types import Moment, Sight
from companion.sky.visibility import dimming_mag, shows, sun_for_star_deg


def visible_now(seen: Sight, moment: Moment) -> bool:
    """Say whether a sight is above the horizon and the sky dark enough for it, seen without a telescope; moonlight is left out."""
    return shows(seen.magnitude, seen.altitude_deg, sun_state(moment).altitude_deg)


_BRIGHTEST_MAG, _WELL_UP_DEG = 0.0, 45.0
"""Nearly as bright as a star gets, at a good height."""


def stars_come_out(moment: Moment) -> bool:
    """Say whether the night around a moment gets dark enough for any star, seen without a telescope."""
    sun_deg = sun_for_star_deg(_BRIGHTEST_MAG + dimming_mag(_WELL_UP_DEG))
    return sun_deg is not None and night_around(moment).lowest_sun_deg <= sun_deg


def first_seen(magnitude: float, altitude_deg: float, moment: Moment) -> datetime | None:
    """Return when tonight a star of that magnitude, that high, first shows: UTC, the moment itself if it does already.

    By day the coming night counts. None where the night never gets dark enough for it, or is past its middle and already too light.
    """
    sun_deg = sun_for_star_deg(magnitude + dimming_mag(altitude_deg))
    if sun_deg is None:
        return None
    if sun_state(moment).altitude_deg <= sun_deg:
        return ephemeris.after(moment.time, 0.0)
    until_s = (night_around(moment).culmination - moment.time).total_seconds()
    if until_s <= 0.0:
        return None
    curve = altitude_curve(moment.site, ephemeris.SUN_NAME, moment.time)
    falls = crossings(curve, sampled(curve, 0.0, until_s), (sun_deg,), upward=False)[sun_deg]
    return ephemeris.after(moment.time, falls[-1]) if falls else None
