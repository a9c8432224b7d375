"""When a body stands best in what is left of the night, and when it sets. When it comes up: ``rising``."""

from __future__ import annotations

from datetime import datetime, timedelta

import numpy as np

from companion.sky import ephemeris
from companion.sky.crossings import crossings, sampled
from companion.sky.night import SUNSET_DEG, Night, altitude_curve, moon_state, night_around
from companion.sky.positions import target
from companion.sky.types import Body, Moment, Site

SETTING_DEG = -34.0 / 60.0
"""Airless altitude at which a point of light sets: refraction at the horizon."""

_STANDS_TWILIGHT = ("planet", "moon", "double star")
_STEP_S = 1800.0
_SKY_DEG_PER_S = 360.98564736629 / 86_400.0
"""The sky's turn: IAU 1982, by Meeus 1998, equation 12.4."""


def sets_at(body: Body, moment: Moment) -> datetime | None:
    """Return when a body next sets, UTC; None when not within 24 hours. The Moon and the Sun set with their upper limb."""
    if body.kind == "moon":
        setting = moon_state(moment).set
        return setting if setting and setting - moment.time <= timedelta(days=1) else None
    level = SUNSET_DEG if body.kind == "sun" else SETTING_DEG
    curve = altitude_curve(moment.site, target(body), moment.time)
    falls = crossings(curve, sampled(curve, 0.0, ephemeris.SECONDS_PER_DAY, _STEP_S), (level,), upward=False)[level]
    return ephemeris.after(moment.time, falls[0]) if falls else None


def best_time(body: Body, moment: Moment) -> datetime:
    """Return when a body stands highest in what is left of this night's dark hours, UTC; the moment itself where none is left."""
    start, end = _dark_hours(body, night_around(moment))
    start = max(start, moment.time)
    length_s = (end - start).total_seconds()
    if length_s <= 0.0:
        return ephemeris.after(moment.time, 0.0)
    curve = altitude_curve(moment.site, target(body), start)
    if body.kind == "moon":
        times, altitudes = sampled(curve, 0.0, length_s, _STEP_S)
    else:
        # What keeps its place is highest where it crosses the meridian, or as the dark hours begin or end.
        crossing_s = _culmination_s(body, moment.site, start)
        times = np.array([0.0, length_s, crossing_s if crossing_s <= length_s else 0.0])
        altitudes = curve(times)
    return ephemeris.after(start, float(times[int(np.argmax(altitudes))]))


def _culmination_s(body: Body, site: Site, start: datetime) -> float:
    """Return seconds from the start to a body's next upper culmination."""
    seconds = -_hour_angle_deg(body, site, start, 0.0) % 360.0 / _SKY_DEG_PER_S
    off_deg = (_hour_angle_deg(body, site, start, seconds) + 180.0) % 360.0 - 180.0
    return seconds - off_deg / _SKY_DEG_PER_S


def _hour_angle_deg(body: Body, site: Site, start: datetime, seconds: float) -> float:
    """Return how far past the meridian a body is."""
    hour_angle, _, _ = ephemeris.apparent(site, target(body), ephemeris.instants(start, np.array([seconds]))).hadec()
    return float(hour_angle.hours[0]) * 15.0


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
