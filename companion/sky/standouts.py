"""What stands out in the sky now: the bright things that a bare eye sees, and those that somebody may mean by a few words."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from companion.sky.bands import CompassPoint
from companion.sky.catalogue import MOON, NAKED_EYE_PLANETS, SUN, named_stars
from companion.sky.colours import colour
from companion.sky.night import sun_state
from companion.sky.positions import separation_deg, sight, sights
from companion.sky.types import Moment, Sight
from companion.sky.visibility import SUN_BERTH_DEG, dimming_mag, shows

FAINTEST_MAG = 2.0
"""Fainter than this, as dimmed by the air, nobody calls a thing bright: judgement."""
_POINT_WITHIN_DEG = 40.0
"""How far from a compass point, told offhand, a thing may stand: nearly the next point but one's edge. Judgement."""
_PAIR_WITHIN_DEG = 25.0
"""Two things that are called a pair stand no farther apart: judgement."""
_FAR_OFF_MAG = 1.5
"""At that edge a thing must be so much brighter to be meant all the same. Judgement."""
_OVERHEAD_DEG = 75.0
"""From here on nobody tells a compass point: judgement."""
_MARK_DEG = (5.0, 60.0)
"""How high something stands that shows a point of the compass: higher up nobody can drop a line to the ground. Judgement."""
_MAY_SHINE_ABOVE_DEG = -1.0
"""A little below where the Sun sets at sea level (-0.83): from a hill, or in thick cold air, it is still there. Judgement."""


class HeightTold(enum.StrEnum):
    """How high somebody says a thing stands."""

    LOW = "low"
    MIDDLE = "middle"
    HIGH = "high"
    OVERHEAD = "overhead"


class ColourTold(enum.StrEnum):
    """Which colour somebody sees."""

    ORANGE = "orange"
    RED = "red"
    YELLOW = "yellow"
    BLUE = "blue"
    WHITE = "white"


# Altitudes, degrees, between which a thing may be called so: people put heights too high near the horizon. Judgement.
_HEIGHTS_DEG = {
    HeightTold.LOW: (0.0, 30.0),
    HeightTold.MIDDLE: (20.0, 60.0),
    HeightTold.HIGH: (40.0, 90.0),
    HeightTold.OVERHEAD: (60.0, 90.0),
}
# Which of our colours may be called so. Near the horizon white things look yellow: that is left out here.
_COLOURS = {
    ColourTold.ORANGE: ("orange", "orange-red", "yellow"),
    ColourTold.RED: ("orange-red", "orange"),
    ColourTold.YELLOW: ("yellow", "orange"),
    ColourTold.BLUE: ("blue-white",),
    ColourTold.WHITE: (None, "blue-white", "yellow"),
}


@dataclass(frozen=True)
class Told:
    """What somebody says of a bright thing; None where it isn't told."""

    point: CompassPoint | None = None
    height: HeightTold | None = None
    colour: ColourTold | None = None
    is_star: bool = False
    """Whether it was called a star: a planet looks like one, the Moon doesn't."""


def standouts(moment: Moment, faintest_mag: float = FAINTEST_MAG) -> list[Sight]:
    """Return the Moon, planets and named stars that the bare eye sees now and finds bright, the brightest first. Never the Sun."""
    sun_deg = sun_state(moment).altitude_deg
    seen = [sight for sight in sights((MOON, *NAKED_EYE_PLANETS, *named_stars(faintest_mag)), moment) if sight.altitude_deg > 0.0]
    bright = [sight for sight in seen if shows(sight.magnitude, sight.altitude_deg, sun_deg) and seen_mag(sight) <= faintest_mag]
    return sorted(bright, key=seen_mag)


def seen_mag(sight: Sight) -> float:
    """Return the magnitude as the air dims it; of what has none, infinity."""
    return float("inf") if sight.magnitude is None else sight.magnitude + dimming_mag(sight.altitude_deg)


def meant(told: Told, moment: Moment) -> list[Sight]:
    """Return what may be meant by such words, the likeliest first; empty when nothing bright fits them."""
    fitting = [sight for sight in standouts(moment) if _fits(sight, told)]
    return sorted(fitting, key=lambda sight: seen_mag(sight) + _off(sight, told) * _FAR_OFF_MAG)


def pair_meant(told: Told, moment: Moment) -> tuple[Sight, Sight] | None:
    """Return the two bright things close together that may be meant; None when no two fit."""
    fitting = meant(told, moment)
    pairs = [(one, other) for place, one in enumerate(fitting) for other in fitting[place + 1 :]]
    near = [pair for pair in pairs if separation_deg(*pair) <= _PAIR_WITHIN_DEG]
    return min(near, key=lambda pair: seen_mag(pair[0]) + seen_mag(pair[1]), default=None)


def _fits(sight: Sight, told: Told) -> bool:
    low_deg, high_deg = _HEIGHTS_DEG[told.height] if told.height else (0.0, 90.0)
    if told.is_star and sight.body.kind == "moon":
        return False
    near = low_deg <= sight.altitude_deg <= high_deg and _off(sight, told) <= 1.0
    return near and (told.colour is None or (sight.body.kind != "moon" and colour(sight.body) in _COLOURS[told.colour]))


def _off(sight: Sight, told: Told) -> float:
    """Return how far from the compass point told it stands, 1 at the edge of what is taken; so far, too, where no point would be told."""
    if told.point is None or told.height is HeightTold.OVERHEAD:
        return 0.0
    if sight.altitude_deg > _OVERHEAD_DEG:
        return 1.0
    return abs((sight.azimuth_deg - told.point.value * 45.0 + 180.0) % 360.0 - 180.0) / _POINT_WITHIN_DEG


def mark_towards(azimuth_deg: float, moment: Moment) -> Sight | None:
    """Return the bright thing below which somebody comes nearest to facing an azimuth; None where none stands out so high."""
    marks = [mark for mark in standouts(moment) if _MARK_DEG[0] <= mark.altitude_deg <= _MARK_DEG[1]]
    return min(marks, key=lambda mark: abs((azimuth_deg - mark.azimuth_deg + 180.0) % 360.0 - 180.0), default=None)


def is_near_the_sun(seen: Sight, moment: Moment) -> bool:
    """Tell whether something but the Sun stands near a Sun that shines, or may from where the observer stands."""
    if seen.body.kind == "sun" or sun_state(moment).altitude_deg <= _MAY_SHINE_ABOVE_DEG:
        return False
    return separation_deg(seen, sight(SUN, moment)) < SUN_BERTH_DEG
