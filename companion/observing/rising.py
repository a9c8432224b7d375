"""When a body next comes up. When it goes down again: ``sets_at``."""

from __future__ import annotations

from datetime import datetime, timedelta

from companion.observing.target_times import SETTING_DEG
from companion.sky import ephemeris
from companion.sky.crossings import crossings, sampled
from companion.sky.night import SUNSET_DEG, altitude_curve, moon_state
from companion.sky.positions import target
from companion.sky.types import Body, Moment

_STEP_S = 1800.0


def rises_at(body: Body, moment: Moment) -> datetime | None:
    """Return when a body next rises, UTC; None when not within 24 hours. The Moon and the Sun rise with their upper limb."""
    if body.kind == "moon":
        rising = moon_state(moment).rise
        return rising if rising and rising - moment.time <= timedelta(days=1) else None
    level = SUNSET_DEG if body.kind == "sun" else SETTING_DEG
    curve = altitude_curve(moment.site, target(body), moment.time)
    rises = crossings(curve, sampled(curve, 0.0, ephemeris.SECONDS_PER_DAY, _STEP_S), (level,), upward=True)[level]
    return ephemeris.after(moment.time, rises[0]) if rises else None
