"""Which stars to centre, in order, so that the mount learns the sky best: high enough, bright, alone and well apart."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import timedelta
from itertools import permutations
from typing import Literal

import numpy as np

from companion.sky.attitude import wrapped
from companion.sky.catalogue import PLANETS, SUN, bright_stars, named_stars
from companion.sky.positions import separation_deg, sight, sights
from companion.sky.types import Body, Moment, Sight
from companion.sky.visibility import SUN_BERTH_DEG, SUN_UNSAFE_ABOVE_DEG, nothing_hidden, shows

LOWEST_DEG, HIGHEST_DEG = 15.0, 75.0
"""Altitudes between which a star may be used: lower it swims in the air, higher the azimuth axis can't follow."""

EASY_DEG = (20.0, 70.0)
"""Altitudes that are easy to reach and to judge; outside these a star is taken only at need."""

SOON = timedelta(minutes=30)
"""An alignment that takes longer has gone wrong."""

StarReason = Literal[
    "good-height", "low", "high", "very-bright", "bright", "alone", "rivals-near", "well-apart", "near-pole", "sets-soon", "sky-too-bright"
]
"""``good-height``: 25-60 degrees up; ``low``, ``high``: outside that. ``very-bright``: magnitude 1 or brighter, else ``bright``.
``alone``: nothing similar within 10 degrees, else ``rivals-near``. ``well-apart``: 60-120 degrees from every star before it in the
list and from the partners given. ``near-pole``: within 10 degrees of it, so that it tells little about the clock. ``sets-soon``:
within half an hour it sinks below 15 degrees or goes behind something. ``sky-too-bright``: not to be seen yet."""

# Common practice, no published source, as are the weights; the 60-120 degrees are where simulated fits point best.
_FAINTEST_MAG, _FAINTEST_AT_NEED_MAG = 2.2, 3.0
_NEED = 3
_HEIGHT_DEG = (15.0, 25.0, 60.0, 75.0)
_HEIGHT_WORTH = (0.4, 1.0, 1.0, 0.5)
_AT_NEED_WORTH = 0.3
_SETTING_WORTH = 0.4
_APART_DEG = (0.0, 15.0, 60.0, 120.0, 160.0, 180.0)
_APART_WORTH = (0.02, 0.1, 1.0, 1.0, 0.4, 0.3)
_SAME_PLACE_DEG = 0.1
_SIMILAR_MAG = 0.5


@dataclass(frozen=True)
class RankedStar:
    """A star worth centring, and why."""

    sight: Sight
    score: float
    """0..1; never rises along the list."""
    reasons: tuple[StarReason, ...]
    """What speaks for and against it."""


def reference_stars(
    moment: Moment,
    count: int = 6,
    avoiding: Collection[str] = (),
    partners: Sequence[Body] = (),
    hidden: Callable[[Sight], bool] = nothing_hidden,
) -> list[RankedStar]:
    """Return the stars to centre now, best first; the first two make a good pair. Empty when no bright star is well placed.

    ``avoiding`` names stars not to offer, ``partners`` are stars already centred that the next should be well apart from,
    ``hidden`` says whether trees and roofs hide a sight.
    """
    return ranked_among(named_stars(_FAINTEST_AT_NEED_MAG), moment, count, avoiding=avoiding, partners=partners, hidden=hidden)


def ranked_among(
    bodies: Sequence[Body],
    moment: Moment,
    count: int,
    *,
    avoiding: Collection[str] = (),
    partners: Sequence[Body] = (),
    hidden: Callable[[Sight], bool] = nothing_hidden,
) -> list[RankedStar]:
    """Return those of the bodies to centre now, as ``reference_stars`` does of all named stars."""
    sun = sight(SUN, moment, refraction=False)
    usable = _usable(bodies, moment, sun, frozenset(name.casefold() for name in avoiding), hidden)
    standing = star_like(moment)
    setting = setting_soon(usable, moment, hidden)
    near = {star: rivals_among(star, standing) for star in usable}
    worth = {star: _worth(star, sun, near[star]) * (_SETTING_WORTH if star in setting else 1.0) for star in usable}
    before = sights(partners, moment)
    ranked: list[RankedStar] = []
    for star in _in_order(worth, before, count):
        score = worth[star] * _spread(star, before)
        ranked.append(RankedStar(star, round(score, 4), _reasons(star, sun, near[star], before, star in setting)))
        before.append(star)
    return ranked


def reasons_for(body: Body, moment: Moment) -> tuple[StarReason, ...]:
    """Return what speaks for centring a star or planet now, alone, and what against."""
    sun, star = sight(SUN, moment, refraction=False), sight(body, moment)
    return _reasons(star, sun, rivals_among(star, star_like(moment)), (), star in setting_soon([star], moment))


def setting_soon(stars: Sequence[Sight], moment: Moment, hidden: Callable[[Sight], bool] = nothing_hidden) -> frozenset[Sight]:
    """Return those of the sights that within half an hour sink below 15 degrees or go behind something."""
    after = sights([star.body for star in stars], Moment(moment.site, moment.time + SOON))
    return frozenset(star for star, later in zip(stars, after, strict=True) if later.altitude_deg < LOWEST_DEG or hidden(later))


def rivals(body: Body, moment: Moment, within_deg: float = 10.0) -> list[tuple[Sight, float]]:
    """Return the stars and planets, brighter or similar, that could be taken for a body, with their distances in degrees, nearest first."""
    return rivals_among(sight(body, moment), star_like(moment), within_deg)


def _usable(bodies: Sequence[Body], moment: Moment, sun: Sight, avoiding: frozenset[str], hidden: Callable[[Sight], bool]) -> list[Sight]:
    """Return the bodies at a usable height, clear of the Sun, brightest first; the fainter ones only where there are too few."""
    unsafe = sun.altitude_deg > SUN_UNSAFE_ABOVE_DEG
    found = [
        star
        for star in sorted(sights(bodies, moment), key=_magnitude)
        if LOWEST_DEG <= star.altitude_deg <= HIGHEST_DEG
        and star.body.name.casefold() not in avoiding
        and not (unsafe and separation_deg(star, sun) < SUN_BERTH_DEG)
        and not hidden(star)
    ]
    # Of two that look like one (Alpha Centauri) the brighter stands for both.
    found = [star for i, star in enumerate(found) if all(separation_deg(star, other) > _SAME_PLACE_DEG for other in found[:i])]
    bright = [star for star in found if _magnitude(star) <= _FAINTEST_MAG]
    return bright if len(bright) >= _NEED else found


def star_like(moment: Moment) -> list[Sight]:
    """Return everything star-like and fairly bright above the horizon."""
    return [seen for seen in sights((*bright_stars(3.5), *PLANETS), moment) if seen.altitude_deg > 0.0 and seen.magnitude is not None]


def rivals_among(star: Sight, standing: Sequence[Sight], within_deg: float = 10.0) -> list[tuple[Sight, float]]:
    """Return those of the standing that a star could be taken for, nearest first."""
    near = [(other, separation_deg(star, other)) for other in standing if _magnitude(other) <= _magnitude(star) + _SIMILAR_MAG]
    return sorted(((other, apart) for other, apart in near if _SAME_PLACE_DEG < apart <= within_deg), key=lambda pair: pair[1])


def _worth(star: Sight, sun: Sight, near: Sequence[tuple[Sight, float]]) -> float:
    """Return how good a star is by itself, 0..1."""
    height = float(np.interp(star.altitude_deg, _HEIGHT_DEG, _HEIGHT_WORTH))
    if not EASY_DEG[0] <= star.altitude_deg <= EASY_DEG[1]:
        height *= _AT_NEED_WORTH
    brightness = float(np.interp(_magnitude(star), (-2.5, 0.5, 2.2, 3.0), (1.0, 0.95, 0.67, 0.38)))
    alone = max(0.5, 1.0 - 0.15 * len(near))
    pole = 0.6 if _near_pole(star) else 1.0
    visible = 1.0 if shows(star.magnitude, star.altitude_deg, sun.altitude_deg) else 0.2
    return height * brightness * alone * pole * visible


def _in_order(worth: dict[Sight, float], partners: Sequence[Sight], count: int) -> list[Sight]:
    """Return the stars to use, in order: the best pair, the better of the two first, then each time the best that is left."""
    left = sorted(worth, key=lambda star: (-worth[star], star.body.name))
    chosen: list[Sight] = []
    if not partners and len(left) > 1:
        pairs = ((one, other) for one, other in permutations(left, 2) if worth[one] >= worth[other])
        chosen = [max(pairs, key=lambda pair: worth[pair[0]] + worth[pair[1]] * _apart(*pair))[0]]
    while len(chosen) < min(count, len(left)):
        before = [*partners, *chosen]
        chosen.append(max((star for star in left if star not in chosen), key=lambda star: worth[star] * _spread(star, before)))
    return chosen[:count]


def _spread(star: Sight, before: Sequence[Sight]) -> float:
    """Return how well a star is apart from those before it, 0..1, by the worst of them."""
    return min((_apart(star, other) for other in before), default=1.0)


def _apart(one: Sight, other: Sight) -> float:
    """Return how good a pair's distance is, 0..1; two at the same bearing teach little, however far apart."""
    bearing = abs(float(wrapped(one.azimuth_deg - other.azimuth_deg)))
    sideways = float(np.interp(min(bearing, 180.0 - bearing), (0.0, 20.0), (0.6, 1.0)))
    return float(np.interp(separation_deg(one, other), _APART_DEG, _APART_WORTH)) * sideways


def _reasons(
    star: Sight, sun: Sight, near: Sequence[tuple[Sight, float]], before: Sequence[Sight], sets_soon: bool
) -> tuple[StarReason, ...]:
    """Return what speaks for and against a star."""
    reasons: list[StarReason] = []
    reasons.append("low" if star.altitude_deg < _HEIGHT_DEG[1] else "high" if star.altitude_deg > _HEIGHT_DEG[2] else "good-height")
    reasons.append("very-bright" if _magnitude(star) <= 1.0 else "bright")
    reasons.append("rivals-near" if near else "alone")
    if before and all(60.0 <= separation_deg(star, other) <= 120.0 for other in before):
        reasons.append("well-apart")
    if _near_pole(star):
        reasons.append("near-pole")
    if sets_soon:
        reasons.append("sets-soon")
    if not shows(star.magnitude, star.altitude_deg, sun.altitude_deg):
        reasons.append("sky-too-bright")
    return tuple(reasons)


def _near_pole(star: Sight) -> bool:
    """Say whether a star is within 10 degrees of a celestial pole."""
    return star.body.place is not None and abs(star.body.place.dec_deg) > 80.0


def _magnitude(seen: Sight) -> float:
    """Return a sight's magnitude; what has none is too faint to matter."""
    return 99.0 if seen.magnitude is None else seen.magnitude
