"""Was it another star that was sighted: which bright star or planet explains the readings significantly better."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

import numpy as np

from companion.sky.airless_directions import mistakable, standing_together
from companion.sky.attitude import Floats, direction, separation_deg
from companion.sky.types import Site

SIGHTING_SIGMA_DEG = 0.5
"""What centring in a finder is good for; 0.2 in an eyepiece. Common practice, no published source."""
INDEX_SIGMA_DEG = 1.5
"""How far a tube that was set level by eye lies from level, with what the flange adds. Common practice, no published source."""
TILT_SIGMA_DEG = 3.0
"""How far a tripod set up by eye leans at worst in ordinary use. Common practice, no published source."""
_INDEX_LIMIT, _TILT_LIMIT = 6.0, 2.5  # a mount may be meant to stand askew: beyond this it is not held more unlikely
SIGNIFICANT = 3.5
"""How much better (in log likelihood) another star must do: odds of 30 to 1."""
_FAR_DEG = 20.0  # one log unit for each such step away from the star named: neighbours are mistaken for each other
_CLOSE_DEG = 0.5  # nearer than this no sighting tells one star from the other
_MOST_EXAMINED = 12  # sightings that fit worst; more wrong stars than that are no pointing fit


@dataclass(frozen=True)
class Suspect:
    """A sighting that was probably of something else."""

    sighting: int
    """Which one, counting from 0."""
    star: str
    """What it was said to be."""
    instead: str
    """What explains the readings better: an IAU name, else ``HIP n``."""
    improvement_deg: float
    """By how much the root mean square of this sighting's separation errors falls."""


def attitude_cost(half_square_rad: Floats | float, index_deg: Floats, vertical: Floats) -> Floats:
    """Return how unlikely an attitude is, as minus a log likelihood.

    ``half_square_rad`` is half the sum of squared residuals in radians squared, ``vertical`` the cosine of the base's tilt.
    """
    tilt = np.degrees(np.arccos(np.clip(vertical, -1.0, 1.0)))
    residual = half_square_rad / np.radians(SIGHTING_SIGMA_DEG) ** 2
    index = np.minimum(0.5 * (index_deg / INDEX_SIGMA_DEG) ** 2, _INDEX_LIMIT)
    return np.asarray(residual + index + np.minimum(0.5 * (tilt / TILT_SIGMA_DEG) ** 2, _TILT_LIMIT))


def find_suspects(
    site: Site, who: list[tuple[str, datetime]], sky: Floats, azimuth_deg: Floats, altitude_deg: Floats
) -> tuple[Suspect, ...]:
    """Return the significant suspects, best first.

    ``who`` holds the name and time of each sighting; ``sky``, shape (n, 3), the true directions; the readings, shape (n,), are clockwise.
    """
    indices = np.arange(-15.0, 15.25, 0.5)
    read = direction(azimuth_deg, altitude_deg - indices[:, np.newaxis])  # (index, n, 3)
    together = np.swapaxes(read, 1, 2) @ sky  # (index, 3, 3)
    base = float(_best_cost(together[np.newaxis], len(sky), indices)[0])
    if base <= SIGNIFICANT:
        return ()  # no other star can do that much better
    errors = _separation_errors(sky, direction(azimuth_deg, altitude_deg))
    found: list[tuple[float, Suspect]] = []
    for i in np.argsort(-np.sqrt(np.mean(errors**2, axis=1)), kind="stable")[:_MOST_EXAMINED]:
        name, time = who[i]
        others = [body for body in mistakable() if body.name != name]
        candidates = standing_together(site, others, time)
        away = separation_deg(candidates, sky[i])
        usable = np.flatnonzero((candidates[:, 2] > 0.0) & (away > _CLOSE_DEG))
        swapped = together + read[:, i, :, np.newaxis] * (candidates[usable] - sky[i])[:, np.newaxis, np.newaxis, :]
        gains = base - _best_cost(swapped, len(sky), indices) - away[usable] / _FAR_DEG
        for j in np.flatnonzero(gains > SIGNIFICANT):
            instead = sky.copy()
            instead[i] = candidates[usable[j]]
            better = _separation_errors(instead, direction(azimuth_deg, altitude_deg))[i]
            count = len(sky) - 1
            improvement = float(np.sqrt(np.sum(errors[i] ** 2) / count) - np.sqrt(np.sum(better**2) / count))
            if improvement > 0.0:
                found.append((float(gains[j]), Suspect(int(i), name, others[usable[j]].name, improvement)))
    found.sort(key=lambda item: -item[0])
    return tuple(suspect for gain, suspect in found if gain > found[0][0] - SIGNIFICANT)


def _best_cost(together: Floats, count: int, indices: Floats) -> Floats:
    """Return the least cost over the indices, shape (m,), of correlations (m, index, 3, 3) of ``count`` sightings."""
    u, s, vt = np.linalg.svd(together)
    hand = np.sign(np.linalg.det(u) * np.linalg.det(vt))
    vertical = np.einsum("mik,mik->mi", u[..., 2, :] * np.stack([np.ones_like(hand), np.ones_like(hand), hand], axis=-1), vt[..., :, 2])
    half_square = np.maximum(count - s[..., 0] - s[..., 1] - hand * s[..., 2], 0.0)
    return np.asarray(np.min(attitude_cost(half_square, indices, vertical), axis=1))


def _separation_errors(sky: Floats, read: Floats) -> Floats:
    """Return measured minus true separations, shape (n, n), in degrees."""
    return np.asarray(separation_deg(read[:, np.newaxis], read) - separation_deg(sky[:, np.newaxis], sky))
