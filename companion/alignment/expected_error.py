"""How well a mount will point after an alignment on given stars, from their geometry alone."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from companion.errors import BadRequest
from companion.sky.attitude import Floats, azimuth_altitude, direction, rotation_vector, wrapped
from companion.sky.types import Sight

# Where targets are looked for: 20 to 75 degrees high, all round, each ring with as many points as it has sky.
_RINGS_DEG, _POINTS_ON_HORIZON = (20.0, 31.0, 42.0, 53.0, 64.0, 75.0), 24
# Equally likely draws of a two-dimensional normal error of unit size, so that the median can be read off: eight radii, eight ways.
_RADII = np.sqrt(-2.0 * np.log(1.0 - (np.arange(8) + 0.5) / 8.0))
_WAYS = (np.arange(8) + 0.5) * np.pi / 4.0
_DRAWS = np.stack([np.outer(_RADII, np.cos(_WAYS)).ravel(), np.outer(_RADII, np.sin(_WAYS)).ravel()])


def expected_error_deg(stars: Sequence[Sight], sigma_deg: float, lean_deg: float = 0.0) -> float:
    """Return the median go-to error over the usable sky, degrees, after a best rotation on these stars, each centred to ``sigma_deg``.

    ``sigma_deg`` is the error of one star in each of two directions at right angles. The rotation is that of Wahba's problem, whose
    covariance is the inverse of sum(I - v v^T) / sigma^2 (M. D. Shuster and S. D. Oh, J. Guidance and Control 4 (1981) 70). Infinite for
    fewer than two stars, or for two that stand in the same or in opposite places.

    ``lean_deg``: how far the base is known to lean. A rotation would take that in; a mount that only shifts its circles at each star
    doesn't, and nobody knows which a mount is. So it is counted as if it shifted them, at the last star, and leant any way.
    """
    if not 0.0 < sigma_deg < 90.0:
        raise BadRequest(f"an error of centring of {sigma_deg} degrees is not possible; give more than 0")
    vectors = _directions(stars)
    information = len(stars) * np.eye(3) - vectors.T @ vectors
    if len(stars) < 2 or np.linalg.eigvalsh(information)[0] < 1e-9:
        return float("inf")
    covariance = np.linalg.inv(information)
    # A small turn w moves a target u by w x u: the two components across u, each row of `across` a pair of axes.
    moved = np.einsum("nki,ij,nlj->nkl", _ACROSS, covariance, _ACROSS)
    errors = sigma_deg * np.linalg.cholesky(moved) @ _DRAWS
    if lean_deg:
        errors = errors[:, np.newaxis] + _by_leaning(vectors[-1], lean_deg)[..., np.newaxis]
    return float(np.median(np.linalg.norm(errors, axis=-2)))


def _by_leaning(last: Floats, lean_deg: float) -> Floats:
    """Return by how much circles shifted at the direction ``last`` miss each target on a leaning base, degrees, shape (n, ways, 2).

    As `_ACROSS`: along the horizon, to the right, and upwards.
    """
    towards = np.arange(_LEANS) * 2.0 * np.pi / _LEANS
    axes = np.radians(lean_deg) * np.stack([np.sin(towards), np.cos(towards), np.zeros(_LEANS)], axis=-1)
    bases = np.stack([rotation_vector(axis) for axis in axes])
    azimuth, altitude = azimuth_altitude(_TARGETS)
    seen_azimuth, seen_altitude = azimuth_altitude(np.einsum("wij,nj->nwi", bases, _TARGETS))
    last_azimuth, last_altitude = azimuth_altitude(last)
    shift_azimuth, shift_altitude = azimuth_altitude(bases @ last)
    right = seen_azimuth - azimuth[:, np.newaxis] - (shift_azimuth - last_azimuth)
    up = seen_altitude - altitude[:, np.newaxis] - (shift_altitude - last_altitude)
    return np.stack([wrapped(right) * np.cos(np.radians(altitude))[:, np.newaxis], up], axis=-1)


def _directions(stars: Sequence[Sight]) -> Floats:
    """Return the stars' unit vectors, shape (n, 3)."""
    azimuths, altitudes = ([getattr(star, field) for star in stars] for field in ("azimuth_deg", "altitude_deg"))
    return direction(np.array(azimuths), np.array(altitudes))


def _across() -> Floats:
    """Return for each target the two unit vectors across its direction, shape (n, 2, 3)."""
    pairs = []
    for altitude_deg in _RINGS_DEG:
        points = round(_POINTS_ON_HORIZON * np.cos(np.radians(altitude_deg)))
        for azimuth_deg in np.arange(points) * 360.0 / points:
            pairs.append([direction(azimuth_deg + 90.0, 0.0), direction(azimuth_deg, altitude_deg + 90.0)])
    return np.array(pairs)


_ACROSS = _across()
_TARGETS = np.cross(_ACROSS[:, 0], _ACROSS[:, 1])
_LEANS = 8
