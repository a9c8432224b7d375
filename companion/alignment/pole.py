"""True north or south by the stars: the pole star, or in the south the Cross."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from companion.sky.attitude import wrapped
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

SOUTHERN_MARKS = ("Gacrux", "Acrux", "Rigil Kentaurus", "Hadar", "Achernar")

PoleWay = Literal["pole-star", "cross", "between"]
"""``pole-star``: Polaris itself; ``cross``: the long axis of the Cross extended 4.5 times; ``between``: half way from Hadar to Achernar.
From the place so found straight down to the horizon is true north or south."""


@dataclass(frozen=True)
class PoleMark:
    """Where the pole of the sky is that stands above this site, and what shows it."""

    pole: Literal["north", "south"]
    """The northern one on the equator."""
    azimuth_deg: float
    """Of the pole: 0 north, 180 south."""
    altitude_deg: float
    """Of the pole above the horizon: the site's latitude, without its sign."""
    way: PoleWay | None
    """How to find it now; None when no way is open: too low, too light, or hidden."""
    pole_star: Sight | None
    """Polaris as it stands now, usable or not; None in the south."""
    star_right_deg: float | None
    """How far to the right (east) of true north Polaris stands now, along the horizon, negative to the left; None in the south."""
    marks: tuple[Sight, ...]
    """In the south Gacrux, Acrux, Rigil Kentaurus, Hadar and Achernar, in this order, up or not; empty in the north."""
    showing: tuple[str, ...]
    """Names of the stars, Polaris or marks, that are high enough, not hidden and visible now."""


def pole_star(moment: Moment, hidden: Callable[[Sight], bool] = nothing_hidden) -> PoleMark:
    """Return how to find the pole now; ``hidden`` says whether trees and roofs hide a sight."""
    latitude_deg = moment.site.latitude_deg
    names = ("Polaris",) if latitude_deg >= 0.0 else SOUTHERN_MARKS
    stars = tuple(sights([find(name) for name in names], moment))
    showing = tuple(star.body.name for star in stars if star.altitude_deg >= LOWEST_DEG and not hidden(star) and visible_now(star, moment))
    way = _way(showing)
    if latitude_deg >= 0.0:
        right_deg = float(wrapped(stars[0].azimuth_deg))
        return PoleMark("north", 0.0, latitude_deg, way, stars[0], right_deg, (), showing)
    return PoleMark("south", 180.0, -latitude_deg, way, None, None, stars, showing)


def _way(showing: tuple[str, ...]) -> PoleWay | None:
    """Return the best way that the stars which show leave open."""
    if "Polaris" in showing:
        return "pole-star"
    if {"Gacrux", "Acrux"} <= set(showing):
        return "cross"
    return "between" if {"Hadar", "Achernar"} <= set(showing) else None
