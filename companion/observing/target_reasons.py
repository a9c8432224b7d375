"""What speaks for and against a target at a moment."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Literal

from companion.observing.sky_brightness import Lamps, SiteSky, lamps, sky_brightness
from companion.sky.night import SUNSET_DEG
from companion.sky.positions import sight
from companion.sky.types import Moment, Sight

LOWEST_DEG = 10.0
"""Nothing lower is offered."""
LOW_DEG, HIGH_DEG, OVERHEAD_DEG = 20.0, 45.0, 80.0

TargetReason = Literal[
    "high", "low", "overhead", "at-its-best", "better-later", "bright", "faint", "moonlight", "twilight", "sets-soon", "large"
]
"""``high``: above 45 degrees; ``low``: below 20; ``overhead``: above 80, where the mount follows badly. ``at-its-best``: within half an
hour of its highest in what is left of the night; ``better-later``: it will stand clearly higher. ``bright``: easy in this telescope;
``faint``: near its limit. ``moonlight``, ``twilight`` (daylight too): the sky is too light for its best. ``sets-soon``: within an hour.
``large``: wider than a degree, low power."""

_BRIGHT_MAG, _FAINT_MAG = 3.0, 1.0  # over the eye's limit
_WASHED_OUT_MAG = 0.7  # by how much a sky is brighter than without the Moon, or than at night
_LARGE_ARCMIN = 60.0
_CLEARLY_DEG = 5.0
_HARDY = ("planet", "moon", "double star", "carbon star", "variable star")  # what a light sky takes little from
_UNLIT_DEG = -90.0


def reasons(
    seen: Sight, margin_mag: float, moment: Moment, sky: SiteSky, *, best: datetime, setting: datetime | None
) -> tuple[TargetReason, ...]:
    """Return the reasons for and against a sight with that margin, best time and setting."""
    found: list[TargetReason] = []
    if seen.altitude_deg > HIGH_DEG or seen.altitude_deg < LOW_DEG:
        found.append("overhead" if seen.altitude_deg > OVERHEAD_DEG else "high" if seen.altitude_deg > HIGH_DEG else "low")
    if best - moment.time <= timedelta(minutes=30):
        found.append("at-its-best")
    elif sight(seen.body, Moment(moment.site, best)).altitude_deg > seen.altitude_deg + _CLEARLY_DEG:
        found.append("better-later")
    if margin_mag > _BRIGHT_MAG or margin_mag < _FAINT_MAG:
        found.append("bright" if margin_mag > _BRIGHT_MAG else "faint")
    found += _too_light(seen, moment, sky)
    if (seen.body.size_arcmin or 0.0) > _LARGE_ARCMIN:
        found.append("large")
    if setting and setting - moment.time < timedelta(hours=1):
        found.append("sets-soon")
    return tuple(found)


def _too_light(seen: Sight, moment: Moment, sky: SiteSky) -> list[TargetReason]:
    """Return whether Moon or twilight takes from a sight; from the hardy ones only daylight does."""
    standing = lamps(moment)
    if seen.body.kind in _HARDY:
        return ["twilight"] if standing.sun_altitude_deg > SUNSET_DEG else []
    dark = replace(standing, sun_altitude_deg=_UNLIT_DEG, moon_altitude_deg=_UNLIT_DEG)
    lit: dict[TargetReason, Lamps] = {
        "moonlight": replace(dark, moon_altitude_deg=standing.moon_altitude_deg),
        "twilight": replace(dark, sun_altitude_deg=standing.sun_altitude_deg),
    }
    unlit_mag, *lit_mags = (float(sky_brightness(sky, one, seen.altitude_deg, seen.azimuth_deg)) for one in (dark, *lit.values()))
    return [reason for reason, mag in zip(lit, lit_mags, strict=True) if unlit_mag - mag > _WASHED_OUT_MAG]
