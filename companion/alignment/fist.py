"""How much sky a person's fist covers at arm's length, measured on two known stars."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import combinations

from companion.alignment.star_choice import HIGHEST_DEG, LOWEST_DEG, rivals_among, star_like
from companion.equipment import FISTS_DEG
from companion.sky.catalogue import named_stars
from companion.sky.night import sun_state
from companion.sky.positions import separation_deg, sights
from companion.sky.types import Moment, Sight
from companion.sky.visibility import nothing_hidden, shows

APART_DEG = (15.0, 35.0)
"""Between the two stars: a fist and a half at least, so that the count says something, and few enough to count without losing the line."""

_FAINTEST_MAG = 2.2


def fist_pair(moment: Moment, hidden: Callable[[Sight], bool] = nothing_hidden) -> tuple[Sight, Sight, float] | None:
    """Return two bright named stars to count fists between, the brighter first, and their distance in degrees; None if none show now."""
    sun_deg = sun_state(moment).altitude_deg
    bright = [
        seen
        for seen in sights(named_stars(_FAINTEST_MAG), moment)
        if LOWEST_DEG <= seen.altitude_deg <= HIGHEST_DEG and not hidden(seen) and shows(seen.magnitude, seen.altitude_deg, sun_deg)
    ]
    pairs = [(one, other, separation_deg(one, other)) for one, other in combinations(bright, 2)]
    pairs = [pair for pair in pairs if APART_DEG[0] <= pair[2] <= APART_DEG[1]]
    standing = star_like(moment) if pairs else []
    lookalikes = {seen: len(rivals_among(seen, standing)) for pair in pairs for seen in pair[:2]}
    # The easiest to find: bright, with nothing like them near. A rival counts as half a magnitude; a judgement.
    return min(pairs, key=lambda pair: sum((seen.magnitude or 0.0) + 0.5 * lookalikes[seen] for seen in pair[:2]), default=None)


def fist_from(separation_deg: float, fists: float) -> float | None:
    """Return how many degrees a fist covers when so many span a known distance; None outside 6 to 13 degrees: a miscount."""
    if not (math.isfinite(fists) and fists > 0.0):
        return None
    fist_deg = separation_deg / fists
    return fist_deg if fist_deg in FISTS_DEG else None
