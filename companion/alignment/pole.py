"""True north or south by the stars: the pole star, or in the south the Cross."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from companion.sky.catalogue import find
from companion.sky.positions import sights
from companion.sky.twilight_visibility import visible_now
from companion.sky.types import Moment, Sight
from companion.sky.visibility import nothing_hidden

LOWEST_DEG = 15.0
"""A star this low is dimmed by about a magnitude and mostly behind something. A judgement."""

CROSS_LENGTHS = 4.5
"""Extended so many times its own length from Acrux on, the long axis of the Cross (from Gacrux to Acrux) ends at the south pole of the
sky. Common practice, no published source."""

SOUTHERN_MARKS = ("Gacrux", "Acrux", "Hadar", "Achernar")

PoleWay = Literal["pole-star", "cross", "between"]
"""``pole-star``: Polaris itself; ``cross``: the long axis of the Cross extended 4.5 times; ``between``: half way from Hadar to Achernar.
From the place so found straight down to the horizon is true north or south."""


def pole_way(moment: Moment, hidden: Callable[[Sight], bool] = nothing_hidden) -> PoleWay | None:
    """Return how to find the pole now; ``hidden`` says whether trees and roofs hide a sight.

    None when no way is open: the stars are too low, hidden, or the sky is too light. The pole stands as high as the latitude: the
    northern one due north, on the equator too, else the southern one due south.
    """
    names = ("Polaris",) if moment.site.latitude_deg >= 0.0 else SOUTHERN_MARKS
    stars = sights([find(name) for name in names], moment)
    showing = {star.body.name for star in stars if star.altitude_deg >= LOWEST_DEG and not hidden(star) and visible_now(star, moment)}
    if "Polaris" in showing:
        return "pole-star"
    if {"Gacrux", "Acrux"} <= showing:
        return "cross"
    return "between" if {"Hadar", "Achernar"} <= showing else None
