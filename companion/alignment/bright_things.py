"""For mounts that ask for no names: bright things of any kind, or just the Moon or a planet."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence

from companion.alignment.star_choice import EASY_DEG, RankedStar, ranked_among
from companion.alignment.star_verdict import judge_star
from companion.sky.catalogue import MOON, NAKED_EYE_PLANETS, named_stars
from companion.sky.positions import sights
from companion.sky.types import Body, Moment, Sight
from companion.sky.visibility import nothing_hidden

FAINTEST_MAG = 3.0


def bright_things(
    moment: Moment,
    count: int = 3,
    *,
    hidden: Callable[[Sight], bool] = nothing_hidden,
    avoiding: Collection[str] = (),
    partners: Sequence[Body] = (),
    with_moon: bool = False,
) -> list[RankedStar]:
    """Return stars and planets to centre now, in order, as ``reference_stars`` does; the Moon only if asked for."""
    bodies = (*((MOON,) if with_moon else ()), *NAKED_EYE_PLANETS, *named_stars(FAINTEST_MAG))
    return ranked_among(bodies, moment, count, avoiding=avoiding, partners=partners, hidden=hidden)


def alignment_bodies(moment: Moment, hidden: Callable[[Sight], bool] = nothing_hidden) -> list[Sight]:
    """Return the Moon and the planets that can be centred now: high enough, clear of the Sun, visible without a telescope.

    Those 20 to 70 degrees high come first, each time the brightest first.
    """
    up = [seen for seen in sights((MOON, *NAKED_EYE_PLANETS), moment) if seen.altitude_deg > 0.0]
    good = [seen for seen in up if judge_star(seen.body, moment, hidden).usable]
    return sorted(good, key=lambda seen: (not EASY_DEG[0] <= seen.altitude_deg <= EASY_DEG[1], seen.magnitude or 0.0))
