"""What bright thing stands in a direction."""

from __future__ import annotations

import math
from dataclasses import dataclass

from companion.errors import BadRequest
from companion.sky.catalogue import MOON, PLANETS, SUN, bright_stars
from companion.sky.positions import angle_deg, sight, sights
from companion.sky.types import Moment, Sight
from companion.sky.visibility import dimming_mag, faintest_star_mag

WITHIN_DEG = 15.0
FAINTEST_MAG = 4.5

# A direction is either read off something (right to half a degree) or judged by hand (to a few); both are taken as equally likely.
_READ_DEG, _JUDGED_DEG = 0.5, 4.0
_BRIGHTEST_THAT_COUNTS_MAG = -1.5
_NOT_YET_SEEN = 0.05


@dataclass(frozen=True)
class Candidate:
    """Something that may be what stands there."""

    sight: Sight
    distance_deg: float
    """From the direction asked about."""
    score: float
    """Share of the likelihood, 0..1; all candidates found sum to 1."""


def standing_at(azimuth_deg: float, altitude_deg: float, moment: Moment, count: int = 5) -> list[Candidate]:
    """Return the stars, planets, Moon or Sun that may stand there, likeliest first; empty when none is within 15 degrees."""
    if not (math.isfinite(azimuth_deg) and math.isfinite(altitude_deg) and -90.0 <= altitude_deg <= 90.0):
        raise BadRequest("that is no direction; give an azimuth in degrees from north through east and an altitude of -90 to 90")
    faintest = faintest_star_mag(sight(SUN, moment, refraction=False).altitude_deg)
    near: list[tuple[Sight, float, float]] = []
    for seen in sights((SUN, MOON, *PLANETS, *bright_stars(FAINTEST_MAG)), moment):
        distance = angle_deg(altitude_deg, azimuth_deg, seen.altitude_deg, seen.azimuth_deg)
        if seen.altitude_deg > -1.0 and distance <= WITHIN_DEG and seen.magnitude is not None and seen.magnitude <= FAINTEST_MAG:
            near.append((seen, distance, _likelihood(seen.magnitude, seen.altitude_deg, distance, faintest)))
    total = sum(likelihood for _, _, likelihood in near)
    candidates = [Candidate(seen, distance, likelihood / total) for seen, distance, likelihood in near]
    return sorted(candidates, key=lambda candidate: (-candidate.score, candidate.distance_deg))[:count]


def _likelihood(magnitude: float, altitude_deg: float, distance_deg: float, faintest: float) -> float:
    """Return how likely it is that someone means a thing so bright and so far off, up to a common factor. The weights are a judgement."""
    apart = sum(math.exp(-0.5 * (distance_deg / error) ** 2) / error**2 for error in (_READ_DEG, _JUDGED_DEG))
    striking = math.pow(10.0, -0.3 * max(magnitude, _BRIGHTEST_THAT_COUNTS_MAG))
    return apart * striking * (1.0 if magnitude + dimming_mag(altitude_deg) <= faintest else _NOT_YET_SEEN)
