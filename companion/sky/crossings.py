"""When a smooth curve over time crosses a level: the search knows nothing of the sky, the curve is passed in."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import numpy as np

from companion.sky.ephemeris import Floats

Curve = Callable[[Floats], Floats]
"""A function of elapsed seconds, shape (N,), to values, shape (N,)."""

STEP_S = 300.0
_PIECES = 8
_CLOSE_ENOUGH_S = 0.01


def sampled(curve: Curve, start_s: float, end_s: float, step_s: float = STEP_S) -> tuple[Floats, Floats]:
    """Return times and values of the curve from start to end, with every turning point between the regular steps added.

    With the turning points in, the curve is monotone between neighbours, so that no crossing is missed, however briefly the curve dips.
    """
    times = np.linspace(start_s, end_s, max(3, int(np.ceil((end_s - start_s) / step_s)) + 1))
    values = curve(times)
    slope = np.diff(values)
    turning = np.flatnonzero(slope[:-1] * slope[1:] < 0.0) + 1
    if turning.size:
        # A parabola through three neighbours puts the extreme within seconds; the second, narrow one within hundredths.
        centre, half = times[turning], times[1] - times[0]
        for _ in range(2):
            around = curve(np.concatenate([centre - half, centre, centre + half])).reshape(3, -1)
            bend = around[0] - 2.0 * around[1] + around[2]
            lean = np.where(bend == 0.0, 0.0, 0.5 * half * (around[0] - around[2]) / np.where(bend == 0.0, 1.0, bend))
            centre = centre + np.clip(lean, -half, half)
            half /= 20.0
        centre = np.clip(centre, start_s, end_s)
        order = np.argsort(np.concatenate([times, centre]), kind="stable")
        times, values = np.concatenate([times, centre])[order], np.concatenate([values, curve(centre)])[order]
    return times, values


def crossings(curve: Curve, samples: tuple[Floats, Floats], levels: Iterable[float], upward: bool) -> dict[float, list[float]]:
    """Return for each level the times, in order, at which the curve crosses it upward (else downward), to a hundredth of a second."""
    times, values = samples
    found: dict[float, list[float]] = {level: [] for level in levels}
    brackets = []
    for level in found:
        below = values <= level
        entering = (below[:-1] & ~below[1:]) if upward else (~below[:-1] & below[1:])
        brackets += [(level, times[i], times[i + 1]) for i in np.flatnonzero(entering)]
    if not brackets:
        return found
    wanted, low, high = np.array(brackets).T
    sign = 1.0 if upward else -1.0
    while np.max(high - low) > _CLOSE_ENOUGH_S:
        grid = low + (high - low) * np.linspace(0.0, 1.0, _PIECES + 1)[:, np.newaxis]
        inside = sign * (curve(grid[1:-1].ravel()).reshape(_PIECES - 1, -1) - wanted) <= 0.0
        piece = np.sum(inside, axis=0)  # the curve is monotone between samples: this many inner points come before the crossing
        columns = np.arange(len(wanted))
        low, high = grid[piece, columns], grid[piece + 1, columns]
    for level, time in zip(wanted, (low + high) / 2.0, strict=True):
        found[float(level)].append(float(time))
    return found
