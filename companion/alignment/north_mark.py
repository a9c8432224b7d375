"""True north by the azimuth of something nobody can mistake: the Moon, or the brightest point of light in the sky."""

from __future__ import annotations

from collections.abc import Callable

from companion.sky.catalogue import MOON, NAKED_EYE_PLANETS, SUN
from companion.sky.night import sun_state
from companion.sky.positions import separation_deg, sight, sights
from companion.sky.twilight_visibility import visible_now
from companion.sky.types import Moment, Sight
from companion.sky.visibility import SUN_BERTH_DEG, SUN_UNSAFE_ABOVE_DEG, dimming_mag, nothing_hidden

LOWEST_DEG, HIGHEST_DEG = 3.0, 60.0
"""Lower it is mostly behind something. Who drops from 60 degrees to the ground and leans by 1 degree is 1.7 degrees off (tan 60)."""

FAINTEST_MAG = -1.5
"""As dimmed by the air: brighter than every star, Sirius (-1.46) included."""

BY_DAY_FROM_SUN_DEG = 60.0
"""So far from a Sun that is up eyes may look for the Moon; nearer, less than a quarter of it is lit ((1 - cos 60) / 2), too pale by day.
A judgement."""


def north_mark(moment: Moment, hidden: Callable[[Sight], bool] = nothing_hidden) -> Sight | None:
    """Return the Moon, else the brightest planet, where it shows, stands low enough to drop to the ground, and is free; None for neither.

    While the Sun is up only a Moon far from it counts: nobody should search the sky around the Sun.
    """
    by_day = sun_state(moment).altitude_deg > SUN_UNSAFE_ABOVE_DEG
    sun = sight(SUN, moment, refraction=False)
    berth_deg = BY_DAY_FROM_SUN_DEG if sun.altitude_deg > 0.0 else SUN_BERTH_DEG if by_day else 0.0
    moon, *planets = sights((MOON, *NAKED_EYE_PLANETS), moment)
    brightest = min(planets, key=lambda planet: (planet.altitude_deg <= 0.0, planet.magnitude or 0.0))
    marks = [moon] if sun.altitude_deg > 0.0 else [moon, brightest]
    return next((mark for mark in marks if _serves(mark, moment) and separation_deg(mark, sun) >= berth_deg and not hidden(mark)), None)


def _serves(mark: Sight, moment: Moment) -> bool:
    """Say whether a sight shows, stands well, and is bright enough that nothing rivals it."""
    if mark.magnitude is None or not LOWEST_DEG <= mark.altitude_deg <= HIGHEST_DEG:
        return False
    return mark.magnitude + dimming_mag(mark.altitude_deg) <= FAINTEST_MAG and visible_now(mark, moment)
