"""A mount that slews by its own sums: where it stops when told a place, a time and a pose, and where the star lies from there.

Everything is computed for N set-ups at once and the n slews of an evening. The mount takes its tube to lie level and to face azimuth
zero when it is switched on, computes where each star should be from the clock and place it was told, and turns its axes by the
difference. What was true instead (the pose, the tilt of the base, a slipped clutch) is in the ``Setups``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from functools import cached_property
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from companion.sky.attitude import (
    Floats,
    azimuth_altitude,
    direction,
    hour_angle_to_horizon,
    rotation_between,
    rotation_vector,
    shortest_arc,
    wrapped,
)

Scheme = Literal["none", "zeros", "arc", "rotation"]
"""How a centred star is taken in: not at all; by shifting both zeros; by the shortest rotation (one star) or the best one (more);
by shifting both zeros after one star and the best rotation after more."""

SMALL = ("start_azimuth", "start_altitude", "tilt_north", "tilt_east", "clock", "latitude", "slip_azimuth", "slip_altitude")
"""Small errors besides the one mistake, in degrees (the clock as an angle), as in ``small_deg``; the last two only add to a slip."""


@dataclass(frozen=True)
class Setups:
    """N ways the mount may have been set up. Shapes begin with N."""

    start_deg: Floats
    """Shape (N, 2): azimuth and altitude of the tube at the start, as seen from the base; the mount takes them for zero."""
    clock_deg: Floats
    """Shape (N,): sidereal time the mount was told minus the true one (a longitude told too far east counts here)."""
    latitude_deg: Floats
    """Shape (N,): latitude the mount was told."""
    hour_angle_deg: Floats
    """Shape (N, n): hour angle of each body at the true place and sidereal time; where it moves, as on the date told."""
    declination_deg: Floats
    """Shape (N, n): its declination, by the date the mount was told."""
    centred: Floats
    """Shape (N, n, 3): true direction of what the observer centred after each slew."""
    seen: Floats
    """Shape (N, n, 3): true direction of what the observer took for the star when giving the miss."""
    lean_deg: Floats
    """Shape (N, 2): how far the base leans north and east, besides the small errors."""
    slip_deg: Floats
    """Shape (N, n, 2): how far azimuth and altitude axis have slipped by the end of each slew; 0 where they have not."""

    @cached_property
    def seen_deg(self) -> Floats:
        """Shape (N, n, 2): azimuth and altitude of what was seen."""
        return np.stack(azimuth_altitude(self.seen), axis=-1)

    @cached_property
    def told(self) -> _Aims:
        """Where the mount takes its stars to be."""
        return self.told_when(clock_off_deg=0.0, latitude_off_deg=0.0)

    @cached_property
    def base(self) -> _Base:
        """How the base stands."""
        return self.base_when(np.zeros(2))

    def told_when(self, *, clock_off_deg: float, latitude_off_deg: float) -> _Aims:
        """Return where the mount takes its stars to be when clock and latitude are off by a little more."""
        azimuth, altitude = hour_angle_to_horizon(
            self.hour_angle_deg + self.clock_deg[:, np.newaxis] + clock_off_deg,
            self.declination_deg,
            self.latitude_deg[:, np.newaxis] + latitude_off_deg,
        )
        return _Aims(np.stack([azimuth, altitude], axis=-1), direction(azimuth, altitude))

    def base_when(self, leans_deg: Floats) -> _Base:
        """Return how the base stands when it leans a little more, north and east, shape (2,)."""
        tilts = _tilts(self.lean_deg, leans_deg)
        return _Base(tilts, np.stack(azimuth_altitude(_turned(np.swapaxes(tilts, 1, 2)[:, np.newaxis], self.centred)), axis=-1))

    def only(self, rows: NDArray[np.bool_]) -> Setups:
        """Return some of the set-ups, by a mask of shape (N,); all of them where it is true throughout."""
        if np.all(rows):
            return self
        return Setups(**{part.name: getattr(self, part.name)[rows] for part in fields(self)})


class _Aims(NamedTuple):
    """Where N mounts take their n stars to be."""

    angles_deg: Floats
    """Shape (N, n, 2): azimuth and altitude."""
    directions: Floats
    """Shape (N, n, 3)."""


class _Base(NamedTuple):
    """How N bases stand."""

    tilts: Floats
    """Shape (N, 3, 3): rotations from base to sky."""
    circles_deg: Floats
    """Shape (N, n, 2): azimuth and altitude, seen from the base, of what was centred after each slew."""


@dataclass(frozen=True)
class Slews:
    """Where the mount went and what was seen, for N set-ups and n slews."""

    right_deg: Floats
    """Shape (N, n): (azimuth of the star seen - azimuth of the stop) x cos(altitude of the stop)."""
    up_deg: Floats
    """Shape (N, n): altitude of the star seen - altitude of the stop."""
    level: Floats
    """Shape (N, n): cosine of the altitude of the stop, never quite 0; ``right_deg`` repeats after 360 degrees times it."""
    told_altitude_deg: Floats
    """Shape (N, n): where the mount believed the star to be; it refuses to slew below its horizon."""


def slew(setups: Setups, synced: tuple[bool, ...], schemes: Sequence[Scheme], small_deg: Floats | None = None) -> tuple[Slews, ...]:
    """Return where the mount stops on each slew, for each scheme: what they share is computed once.

    ``synced[k]``: before slew k the mount took in slew k-1's centred star, in the way of the scheme. ``small_deg``, shape (8,), adds
    the errors of ``SMALL`` to every set-up.
    """
    small = np.zeros(len(SMALL)) if small_deg is None else small_deg
    start = setups.start_deg + small[:2]
    told = setups.told if not np.any(small[4:6]) else setups.told_when(clock_off_deg=small[4], latitude_off_deg=small[5])
    base = setups.base if not np.any(small[2:4]) else setups.base_when(small[2:4])
    slipped = np.any(setups.slip_deg != 0.0, axis=-1, keepdims=True)
    slip = np.broadcast_to(setups.slip_deg + slipped * small[6:], told.angles_deg.shape)
    zeros = start
    taken_in: list[tuple[Floats, Floats]] = []
    targets: dict[Scheme, list[Floats]] = {scheme: [] for scheme in schemes}
    for k, was_synced in enumerate(synced):
        if was_synced and k > 0:
            axes = base.circles_deg[:, k - 1] - slip[:, k - 1]
            taken_in.append(
                (told.directions[:, k - 1], np.broadcast_to(direction(*_columns(axes - start)), told.directions[:, k - 1].shape))
            )
            zeros = axes - told.angles_deg[:, k - 1]
        solved: Floats | None = None
        for scheme, inside in targets.items():
            if scheme == "none" or not taken_in:
                inside.append(told.angles_deg[:, k] + start)
            elif scheme == "zeros" or (scheme == "rotation" and len(taken_in) == 1):
                inside.append(told.angles_deg[:, k] + zeros)
            else:
                if solved is None:
                    solved = np.stack(azimuth_altitude(_turned(_solved(taken_in), told.directions[:, k])), axis=-1)
                inside.append(solved + start)
    return tuple(_stopped(setups, base, np.stack(inside, axis=1) + slip, told) for inside in targets.values())


def _stopped(setups: Setups, base: _Base, axes_deg: Floats, told: _Aims) -> Slews:
    """Return what is seen where the axes, shape (N, n, 2), stop."""
    stop_azimuth, stop_altitude = azimuth_altitude(_turned(base.tilts[:, np.newaxis], direction(*_columns(axes_deg))))
    level = np.maximum(np.cos(np.radians(stop_altitude)), 1e-6)
    right, up = wrapped(setups.seen_deg[..., 0] - stop_azimuth) * level, setups.seen_deg[..., 1] - stop_altitude
    return Slews(right, up, level, told.angles_deg[..., 1])


def _tilts(lean_deg: Floats, everyday_deg: Floats) -> Floats:
    """Return the rotations from base to sky, shape (N, 3, 3), of bases that lean by ``lean_deg``, shape (N, 2), and a little.

    The circles lean with the base: directions are read, zeros shifted and rotations solved as seen from it.
    """
    leans = np.any(lean_deg != 0.0, axis=1)
    tilts = np.empty((len(lean_deg), 3, 3))
    tilts[~leans] = _tilt(everyday_deg)
    tilts[leans] = _tilt(lean_deg[leans] + everyday_deg)
    return tilts


def _tilt(lean_deg: Floats) -> Floats:
    """Return the rotations, shape (..., 3, 3), of leans north and east, shape (..., 2)."""
    north, east = np.radians(lean_deg[..., 0]), np.radians(lean_deg[..., 1])
    return rotation_vector(np.stack([-east, north, np.zeros_like(north)], axis=-1))


def _columns(pairs: Floats) -> tuple[Floats, Floats]:
    """Return the two columns of pairs (..., 2)."""
    return pairs[..., 0], pairs[..., 1]


def _turned(rotation: Floats, vectors: Floats) -> Floats:
    """Return vectors (..., 3) turned by rotations (..., 3, 3)."""
    return np.asarray((rotation @ vectors[..., np.newaxis])[..., 0])


def _solved(taken_in: list[tuple[Floats, Floats]]) -> Floats:
    """Return the rotation, shape (N, 3, 3), from told directions to axis readings of the stars taken in, each (N, 3)."""
    told, read = taken_in[0]
    if len(taken_in) == 1:
        return shortest_arc(told, read)
    if len(taken_in) == 2:
        return _solved_from_two(np.stack([t for t, _ in taken_in]), np.stack([r for _, r in taken_in]))
    return rotation_between(np.stack([t for t, _ in taken_in], axis=1), np.stack([r for _, r in taken_in], axis=1))


def _solved_from_two(told: Floats, read: Floats) -> Floats:
    """Return what ``rotation_between`` does for two stars, vectors of shape (2, N, 3), a hundred times faster.

    With equal weights the best rotation shares what is wrong between the two: half-way directions and planes fall together. Two stars
    in one place fix no rotation; the shortest way is taken then.
    """
    frames = []
    for one, other in (told, read):
        axes = np.stack([one + other, one - other, np.cross(one, other)], axis=-1)
        frames.append(axes / np.maximum(np.linalg.norm(axes, axis=-2, keepdims=True), 1e-12))
    apart = np.minimum(*(np.linalg.norm(np.cross(one, other), axis=-1) for one, other in (told, read))) > 1e-6
    return np.where(apart[:, np.newaxis, np.newaxis], frames[1] @ np.swapaxes(frames[0], 1, 2), shortest_arc(told[0], read[0]))
