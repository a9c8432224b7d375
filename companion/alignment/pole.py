"""True north or south by the stars: the pole star, found from figures that everybody knows, or in the south the Cross."""

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

PoleWay = Literal["plough", "cassiopeia", "cross", "between"]
"""How the pole is found now; from the place so found straight down to the horizon is true north or south.

``plough``: Polaris, from Merak through Dubhe; ``cassiopeia``: Polaris, from the middle star of the W; ``cross``: the long axis of the
Cross extended 4.5 times; ``between``: half way from Hadar to Achernar.
"""

NORTHERN: frozenset[PoleWay] = frozenset({"plough", "cassiopeia"})
"""The ways that lead to the pole star."""

MIDDLE_OF_THE_W = "Gamma Cassiopeiae"
_MARKS: dict[PoleWay, tuple[str, ...]] = {
    "plough": ("Polaris", "Merak", "Dubhe"),
    "cassiopeia": ("Polaris", "Caph", "Schedar", MIDDLE_OF_THE_W, "Ruchbah"),
    "cross": ("Gacrux", "Acrux"),
    "between": ("Hadar", "Achernar"),
}
"""The stars each way needs, the first ways the easier ones."""


def pole_way(moment: Moment, hidden: Callable[[Sight], bool] = nothing_hidden) -> PoleWay | None:
    """Return how to find the pole now; ``hidden`` says whether trees and roofs hide a sight, or an eye can't see it.

    None when no way is open: the stars are too low, hidden, or the sky is too light; the pole star alone, with nothing that leads to it,
    is none. The pole stands as high as the latitude: the northern one due north, on the equator too, else the southern one due south.
    """
    in_the_north = moment.site.latitude_deg >= 0.0
    return next((way for way in _MARKS if (way in NORTHERN) == in_the_north and _shows(_MARKS[way], moment, hidden)), None)


def _shows(names: tuple[str, ...], moment: Moment, hidden: Callable[[Sight], bool]) -> bool:
    """Say whether all these stars are high enough, free and out."""
    stars = sights([find(name) for name in names], moment)
    return all(star.altitude_deg >= LOWEST_DEG and not hidden(star) and visible_now(star, moment) for star in stars)
