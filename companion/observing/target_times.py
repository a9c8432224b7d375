"""When a body stands best in what is left of the night, and when it sets. When it comes up: ``rising``."""

from __future__ import annotations

from datetime import datetime, timedelta

import numpy as np

from companion.sky import ephemeris
from companion.sky.crossings import crossings, sampled
from companion.sky.night import SUNSET_DEG, Night, altitude_curve, moon_state, night_around
from companion.sky.positions import target
from companion.sky.types import Body, Moment

SETTING_DEG = -34.0 / 60.0
"""Airless altitude at which a point of light sets: refraction at the horizon."""

_STANDS_TWILIGHT = ("planet", "moon", "double star")
_STEP_S = 1800.0


def best_time(body: Body, moment: Moment) -> datetime:
    """Return when a body stands highest in what is left of this night's dark hours, UTC; the moment itself where none is left."""
    return best_time_in(body, moment, night_around(moment))


def sets_at(body: Body, moment: Moment) -> datetime | None:
    """Return when a body next sets, UTC; None when not within 24 hours. The Moon and the Sun set with their upper limb."""
    if body.kind == "moon":
        setting = moon_state(moment).set
        return setting if setting and setting - moment.time <= timedelta(days=1) else None
    level = SUNSET_DEG if body.kind == "sun" else SETTING_DEG
    curve = altitude_curve(moment.site, target(body), moment.time)
    falls = crossings(curve, sampled(curve, 0.0, ephemeris.SECONDS_PER_DAY, _STEP_S), (level,), upward=False)[level]
    return ephemeris.after(moment.time, falls[0]) if falls else None


def best_time_in(body: Body, moment: Moment, night: Night) -> datetime:
    """Return when a body stands highest in what is left of the night's dark hours; the moment itself where none is left."""
    start, end = _dark_hours(body, night)
    start = max(start, moment.time)
    length_s = (end - start).total_seconds()
    if length_s <= 0.0:
        return ephemeris.after(moment.time, 0.0)
    times, altitudes = sampled(altitude_curve(moment.site, target(body), start), 0.0, length_s, _STEP_S)
    return ephemeris.after(start, float(times[int(np.argmax(altitudes))]))


def _dark_hours(body: Body, night: Night) -> tuple[datetime, datetime]:
    """Return from when to when it is dark enough for a body; an empty span where the night never gets so dark.

    Planets, the Moon and double stars stand civil twilight; the rest takes the darkest kind of night there is.
    """
    dusks = [night.sunset, night.civil_dusk, night.nautical_dusk, night.astronomical_dusk]
    dawns = [night.sunrise, night.civil_dawn, night.nautical_dawn, night.astronomical_dawn]
    levels = (SUNSET_DEG, -6.0, -12.0, -18.0)
    wanted = (1, 0) if body.kind in _STANDS_TWILIGHT else (3, 2, 1, 0)
    half_day = timedelta(hours=12)
    for kind in wanted:
        if night.lowest_sun_deg <= levels[kind]:
            # Where the Sun is lower still all day, the polar night is dark from end to end.
            return dusks[kind] or night.culmination - half_day, dawns[kind] or night.culmination + half_day
    return night.culmination, night.culmination
