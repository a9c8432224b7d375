"""What was told of the misses in degrees, as numbers: how it differs from what a guess predicts, and how exact it is."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from companion.diagnosis.mount_model import Slews
from companion.diagnosis.request import DiagnoseRequest, Miss
from companion.sky.attitude import Floats, wrapped

_READING = (2.0, 0.2)  # by eye along the tube: 2 degrees + 20 % of the miss


@dataclass(frozen=True)
class Told:
    """What was told in degrees, as a row of m components: rights and turns first, then ups."""

    across: tuple[int, ...]
    """The slews whose right or turn was told."""
    upright: tuple[int, ...]
    """The slews whose up was told."""
    is_turn: NDArray[np.bool_]
    """Shape (len(across),): told as an azimuth, not as degrees on the sky."""
    deg: Floats
    """Shape (m,)."""
    sigma_deg: Floats
    """Shape (m,): standard deviations, by the size of what was told."""
    by_eye: NDArray[np.bool_]
    """Shape (m,): nobody said how exact it is."""

    def sigma_of(self, fitted_deg: Floats) -> Floats:
        """Return standard deviations, shape (N, m), when the misses truly were ``fitted_deg``, shape (N, m)."""
        size = np.zeros((len(fitted_deg), max(self.across, default=0) + 1))
        for column, k in enumerate((*self.across, *self.upright)):
            if column >= len(self.across) or not self.is_turn[column]:
                size[:, k] = np.hypot(size[:, k], fitted_deg[:, column])
        return np.where(self.by_eye, _READING[0] + _READING[1] * size[:, [*self.across, *self.upright]], self.sigma_deg)

    def left(self, slews: Slews) -> Floats:
        """Return told minus predicted, shape (N, m); azimuths go round."""
        across, upright = list(self.across), list(self.upright)
        scale = self._scale(slews)
        predicted = slews.right_deg[:, across] / slews.level[:, across] * scale
        sideways = wrapped((self.deg[: len(across)] - predicted) / scale) * scale
        return np.concatenate([sideways, self.deg[len(across) :] - slews.up_deg[:, upright]], axis=1)

    def left_near(self, slews: Slews, left: Floats) -> Floats:
        """Return told minus predicted as ``left`` does, taken round the way that lies nearest to it."""
        near, count = self.left(slews), len(self.across)
        turn = 360.0 * self._scale(slews)
        near[:, :count] -= turn * np.round((near[:, :count] - left[:, :count]) / turn)
        return near

    def _scale(self, slews: Slews) -> Floats:
        """Return how many degrees are told for a degree of azimuth, shape (N, len(across))."""
        return np.where(self.is_turn, 1.0, slews.level[:, list(self.across)])


def told_in(request: DiagnoseRequest) -> Told:
    """Return what was told in degrees."""
    misses = request.misses
    across = [k for k, miss in enumerate(misses) if miss.is_told]
    upright = [k for k in across if misses[k].up_deg is not None]
    columns = [*((False, k) for k in across), *((True, k) for k in upright)]
    turns = [misses[k].turn_deg for k in across]
    sideways = [misses[k].right_deg if turn is None else turn for k, turn in zip(across, turns, strict=True)]
    widths = [_reading_sigma(misses[k]) if misses[k].turn_deg is None else misses[k].turn_sigma_deg for k in across]
    return Told(
        tuple(across),
        tuple(upright),
        np.array([turn is not None for turn in turns], dtype=np.bool_),
        np.array([*sideways, *(misses[k].up_deg for k in upright)], dtype=np.float64),
        np.array([*widths, *(_reading_sigma(misses[k]) for k in upright)], dtype=np.float64),
        np.array([misses[k].sigma_deg is None and (misses[k].turn_deg is None or up) for up, k in columns], dtype=np.bool_),
    )


def _reading_sigma(miss: Miss) -> float:
    """Return the standard deviation of a miss on the sky along each axis, degrees."""
    if miss.sigma_deg is not None:
        return max(miss.sigma_deg, 0.1)
    return _READING[0] + _READING[1] * float(np.hypot(miss.right_deg or 0.0, miss.up_deg or 0.0))
