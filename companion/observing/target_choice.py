"""What is worth looking at now: planets, the Moon, double stars and bright deep-sky objects, ranked."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal, TypeAlias

import numpy as np

from companion.sky import ephemeris
from companion.sky.catalogue import MOON, PLANETS, SUN, double_stars, showpieces
from companion.sky.crossings import crossings, sampled
from companion.sky.night import SUNSET_DEG, MoonState, Night, altitude_curve, moon_state, night_around
from companion.sky.positions import separation_deg, sight, sights, target
from companion.sky.types import Body, Moment, Sight
from companion.sky.visibility import SUN_BERTH_DEG, SUN_UNSAFE_ABOVE_DEG, dimming_mag, faintest_star_mag, moonlight_mag, nothing_hidden

LOWEST_DEG = 10.0
"""Nothing lower is offered."""

SETTING_DEG = -34.0 / 60.0
"""Airless altitude at which a point of light sets: refraction at the horizon."""

TargetReason = Literal["high", "low", "at-its-best", "better-later", "bright", "faint", "moonlight", "twilight", "sets-soon", "large"]
"""``high``: above 45 degrees; ``low``: below 20. ``at-its-best``: within half an hour of its highest in what is left of the night;
``better-later``: it will stand clearly higher. ``bright``: easy in any telescope; ``faint``: near a small telescope's limit.
``moonlight``, ``twilight`` (daylight too): the sky is too light for its best. ``sets-soon``: within an hour. ``large``: wider than a
degree, low power."""

# What a small telescope (about 100 mm) shows of an object with its light spread out. Judgement, as are all weights below.
_TELESCOPE_MAG = 11.0
_DARK_SKY_MAG = 6.0
_DAYLIGHT_LOSS_MAG = 8.0
_DEEP_SKY_UNTIL_LOSS_MAG = 4.0  # the Sun about 7 degrees down
_SAME_VIEW_DEG = 0.5
_POINT_LIKE = ("planet", "moon", "double star")
_DIFFUSE = ("galaxy", "nebula", "globular cluster", "planetary nebula")
_APPEAL = {"Moon": 1.0, "Jupiter": 1.0, "Saturn": 1.0, "Mars": 0.8, "Venus": 0.8, "Mercury": 0.55, "Uranus": 0.45, "Neptune": 0.35}
_Scored: TypeAlias = tuple[float, Sight, tuple[float, float]]  # score, sight, magnitudes lost to twilight and to moonlight
_STEP_S = 1800.0
_HOUR_S = 3600.0


@dataclass(frozen=True)
class RankedTarget:
    """Something worth looking at now, and why."""

    sight: Sight
    best_time: datetime
    """When it stands highest in what is left of this night's dark hours, UTC; now where there is no darkness left."""
    sets_at: datetime | None
    """When it next sets, UTC; None when not within 24 hours."""
    score: float
    """0..1, falling along the list."""
    reasons: tuple[TargetReason, ...]
    """What speaks for and against it."""


def targets(moment: Moment, count: int = 10, hidden: Callable[[Sight], bool] = nothing_hidden) -> list[RankedTarget]:
    """Return what to look at now, best first: all of it above 10 degrees, clear of the Sun and bright enough for this sky.

    ``hidden`` says whether trees and roofs hide a sight.
    """
    sun = sight(SUN, moment, refraction=False)
    moon, moon_sight = moon_state(moment), sight(MOON, moment)
    unsafe = sun.altitude_deg > SUN_UNSAFE_ABOVE_DEG
    scored: list[_Scored] = []
    for seen in sights((*PLANETS, MOON, *double_stars(), *showpieces()), moment):
        if seen.altitude_deg < LOWEST_DEG or hidden(seen) or (unsafe and separation_deg(seen, sun) < SUN_BERTH_DEG):
            continue
        losses = _losses(seen, sun, moon, moon_sight)
        score = _score(seen, losses, moon)
        if score > 0.0:
            scored.append((round(score, 4), seen, losses))
    scored.sort(key=lambda row: (-row[0], row[1].body.name))
    chosen: list[_Scored] = []
    for row in scored:
        if len(chosen) < count and all(separation_deg(row[1], other[1]) > _SAME_VIEW_DEG for other in chosen):
            chosen.append(row)
    night = night_around(moment)
    return [_ranked(seen, score, losses, moment, night) for score, seen, losses in chosen]


def best_time(body: Body, moment: Moment) -> datetime:
    """Return when a body stands highest in what is left of this night's dark hours, UTC; the moment itself where none is left."""
    return _best_time(body, moment, night_around(moment))


def sets_at(body: Body, moment: Moment) -> datetime | None:
    """Return when a body next sets, UTC; None when not within 24 hours. The Moon and the Sun set with their upper limb."""
    if body.kind == "moon":
        setting = moon_state(moment).set
        return setting if setting and setting - moment.time <= timedelta(days=1) else None
    level = SUNSET_DEG if body.kind == "sun" else SETTING_DEG
    curve = altitude_curve(moment.site, target(body), moment.time)
    falls = crossings(curve, sampled(curve, 0.0, ephemeris.SECONDS_PER_DAY, _STEP_S), (level,), upward=False)[level]
    return ephemeris.after(moment.time, falls[0]) if falls else None


def _losses(seen: Sight, sun: Sight, moon: MoonState, moon_sight: Sight) -> tuple[float, float]:
    """Return the magnitudes that twilight and moonlight take from a sight."""
    twilight = max(0.0, _DARK_SKY_MAG - faintest_star_mag(sun.altitude_deg))
    if seen.body.kind == "moon":
        return twilight, 0.0
    moonlight = moonlight_mag(moon_sight.altitude_deg, moon.illuminated_fraction, separation_deg(seen, moon_sight))
    return twilight, moonlight


def _score(seen: Sight, losses: tuple[float, float], moon: MoonState) -> float:
    """Return how rewarding a sight is, 0..1; 0 when the sky is too bright for it or its brightness is unknown."""
    if seen.magnitude is None:
        return 0.0
    height = float(np.interp(seen.altitude_deg, (10.0, 20.0, 30.0, 45.0, 90.0), (0.3, 0.65, 0.9, 0.98, 1.0)))
    margin = _margin_mag(seen, losses)
    if margin <= 0.0:
        return 0.0
    ease = min(1.0, 0.4 + margin / 8.0)
    if seen.body.kind == "moon":
        # A thin crescent shows little, a full disc no shadows.
        return height * float(np.interp(moon.illuminated_fraction, (0.0, 0.03, 0.2, 0.85, 1.0), (0.0, 0.4, 1.0, 1.0, 0.7)))
    if seen.body.kind == "planet":
        return height * ease * _APPEAL[seen.body.name]
    if seen.body.kind == "double star":
        return 0.75 * height * ease
    fame = 0.7 + 0.1 * (seen.body.name != seen.body.designation) + 0.1 * (seen.body.designation or "").startswith("M ")
    return fame * height * ease


def _margin_mag(seen: Sight, losses: tuple[float, float]) -> float:
    """Return by how many magnitudes a sight is brighter than the faintest that a small telescope shows in this sky."""
    twilight_mag, _ = losses
    loss_mag = sum(losses)
    magnitude = (seen.magnitude or 0.0) + dimming_mag(seen.altitude_deg)
    if seen.body.kind in _POINT_LIKE:
        # Points suffer little from a bright sky in a telescope, yet by day only the brightest can be found at all.
        return _TELESCOPE_MAG - 0.8 * loss_mag - magnitude if loss_mag < _DAYLIGHT_LOSS_MAG else -3.0 - magnitude
    if twilight_mag > _DEEP_SKY_UNTIL_LOSS_MAG:
        return 0.0
    size = seen.body.size_arcmin or 1.0
    thin = max(0.0, magnitude + 5.0 * math.log10(max(size, 1.0)) - 12.5) if seen.body.kind in _DIFFUSE else 0.0
    return _TELESCOPE_MAG - loss_mag - magnitude - (2.0 if seen.body.kind == "nebula" else 0.5) * thin


def _ranked(seen: Sight, score: float, losses: tuple[float, float], moment: Moment, night: Night) -> RankedTarget:
    """Return a target with its times and reasons."""
    sky_loss, moon_loss = losses
    best = _best_time(seen.body, moment, night)
    setting = sets_at(seen.body, moment)
    wait_s = (best - moment.time).total_seconds()
    reasons: list[TargetReason] = []
    if seen.altitude_deg > 45.0 or seen.altitude_deg < 20.0:
        reasons.append("high" if seen.altitude_deg > 45.0 else "low")
    if wait_s <= _HOUR_S / 2.0:
        reasons.append("at-its-best")
    elif sight(seen.body, Moment(moment.site, best)).altitude_deg > seen.altitude_deg + 5.0:
        reasons.append("better-later")
    margin = _margin_mag(seen, losses)
    if sky_loss >= _DAYLIGHT_LOSS_MAG:
        reasons.append("twilight")
    elif margin > 3.0 or margin < 1.0:
        reasons.append("bright" if margin > 3.0 else "faint")
    if seen.body.kind not in _POINT_LIKE:
        reasons += ["moonlight"] if moon_loss > 0.5 else []
        reasons += ["twilight"] if sky_loss > 0.5 else []
        reasons += ["large"] if (seen.body.size_arcmin or 0.0) > 60.0 else []
    if setting and (setting - moment.time).total_seconds() < _HOUR_S:
        reasons.append("sets-soon")
    return RankedTarget(seen, best, setting, score, tuple(reasons))


def _best_time(body: Body, moment: Moment, night: Night) -> datetime:
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
    wanted = (1, 0) if body.kind in _POINT_LIKE else (3, 2, 1, 0)
    half_day = timedelta(hours=12)
    for kind in wanted:
        if night.lowest_sun_deg <= levels[kind]:
            # Where the Sun is lower still all day, the polar night is dark from end to end.
            return dusks[kind] or night.culmination - half_day, dawns[kind] or night.culmination + half_day
    return night.culmination, night.culmination
