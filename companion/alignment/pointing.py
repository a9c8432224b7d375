"""Where a mount's axes really point: the attitude that explains its readings of known stars, in least squares.

Conventions. A reading is a true direction turned into the mount's frame: true azimuth = azimuth zero + reading (clockwise sense) or
azimuth zero - reading (anticlockwise); reading of altitude = altitude above the mount's own base + altitude index. The base may be
tilted. True directions are airless (see ``standing``).

One sighting, or sightings all along one line (the same star twice, or opposite ones), can't show a tilt: then only the two zeros are
found, with the base taken to be level. The altitude index is no rotation, so two stars show it, unless they stand at the same
azimuth or otherwise so that a small error of sighting would be a large one of the index; then it is taken to be zero.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from itertools import combinations
from typing import Literal

import numpy as np

from companion.alignment.suspects import Suspect, attitude_cost, find_suspects
from companion.errors import BadRequest
from companion.sky.airless_directions import standing, standing_of_date
from companion.sky.attitude import Floats, azimuth_altitude, direction, rotation_between, rotation_vector, separation_deg, wrapped
from companion.sky.types import Body, Site

Sense = Literal["clockwise", "anticlockwise"]

LOWEST_SIGHTED_DEG = -2.0
"""A star below this can't have been sighted; refraction lifts by 0.6 degrees and a high place sees a little under the horizon."""

_LINE = 2.0 * np.sin(np.radians(1.0)) / np.sqrt(2.0)  # two stars nearer than 2 degrees to each other, or to being opposite
_INDEX_AMPLIFICATION = 3.0  # an index that would carry more than this many times the error of a sighting is not "seen"


@dataclass(frozen=True)
class Sighting:
    """A star centred, and what the mount read then."""

    body: Body
    """What was centred; a place without a name is a body called ``RA … Dec …``."""
    time: datetime
    """Aware; when it was centred."""
    reported_azimuth_deg: float
    """The mount's own azimuth, of any zero."""
    reported_altitude_deg: float
    """The mount's own altitude; above 90 the tube leans over the top."""
    of_date: bool = False
    """Whether the body's place is for the equator and equinox of date instead of J2000."""


@dataclass(frozen=True)
class Target:
    """Something to be found with the fitted mount."""

    body: Body
    time: datetime | None = None
    """Aware; None means the time of the latest sighting."""


@dataclass(frozen=True)
class FitRequest:
    """What ``fit`` works on."""

    site: Site
    sightings: tuple[Sighting, ...]
    """At least one."""
    find: tuple[Target, ...] = ()
    azimuth_sense: Sense = "clockwise"
    """Which way the mount's azimuth grows, seen from above."""


@dataclass(frozen=True)
class Prediction:
    """Where the mount will read when it points at something."""

    name: str
    reported_azimuth_deg: float
    """0 <= azimuth < 360, in the mount's own zero and sense."""
    reported_altitude_deg: float
    """In the mount's own zero; negative when the body is down."""


@dataclass(frozen=True)
class Fit:
    """The mount's attitude, and how well it explains the sightings."""

    residuals_deg: tuple[float, ...]
    """Angle between reading and fit for each sighting; 0 with a single one."""
    rms_deg: float
    """Root mean square of the residuals."""
    tilt_deg: float | None
    """Angle between the mount's vertical and the true one; None where only zeros were found."""
    azimuth_zero_deg: float
    """True azimuth, 0 <= zero < 360, at which the (levelled) mount reads azimuth 0."""
    altitude_index_deg: float | None
    """Reading minus true altitude above the mount's base; None where it can't be seen (it is taken for 0 then)."""
    separation_error_deg: tuple[float, ...]
    """Measured minus true separation of each pair, in the order (0, 1), (0, 2), … (1, 2), …"""
    suspects: tuple[Suspect, ...]
    """Sightings that another bright star or planet explains significantly better, best first."""
    predictions: tuple[Prediction, ...]


@dataclass(frozen=True)
class _Attitude:
    """Sky to mount: turn by ``rotation``, then add the index to the altitude."""

    rotation: Floats
    index_deg: float


def fit(request: FitRequest) -> Fit:
    """Return the least-squares attitude. A star that was below the horizon when sighted is a ``BadRequest``."""
    sky = _sighted(request)
    sign = 1.0 if request.azimuth_sense == "clockwise" else -1.0
    azimuth = sign * np.array([sighting.reported_azimuth_deg for sighting in request.sightings])
    altitude = np.array([sighting.reported_altitude_deg for sighting in request.sightings])
    attitude, solved = _solve(sky, azimuth, altitude)
    residuals = separation_deg(sky @ attitude.rotation.T, direction(azimuth, altitude - attitude.index_deg))
    if len(residuals) == 1:
        residuals = np.zeros(1)  # two zeros from two readings: nothing is left over
    first, second = np.array(list(combinations(range(len(sky)), 2)), dtype=int).reshape(-1, 2).T
    read = direction(azimuth, altitude)
    errors = separation_deg(read[first], read[second]) - separation_deg(sky[first], sky[second])
    turn = attitude.rotation
    return Fit(
        residuals_deg=tuple(residuals.tolist()),
        rms_deg=float(np.sqrt(np.mean(residuals**2))),
        tilt_deg=None if solved == "zeros" else float(separation_deg(turn[2], np.array([0.0, 0.0, 1.0]))),
        azimuth_zero_deg=float(np.degrees(np.arctan2(turn[0, 1] - turn[1, 0], turn[0, 0] + turn[1, 1])) % 360.0),
        altitude_index_deg=None if solved == "rotation" else attitude.index_deg,
        separation_error_deg=tuple(errors.tolist()),
        suspects=() if solved == "zeros" else find_suspects(request.site, _who(request), sky, azimuth, altitude),
        predictions=_predictions(request, attitude, sign),
    )


def _who(request: FitRequest) -> list[tuple[str, datetime]]:
    """Return name and time of each sighting."""
    return [(sighting.body.name, sighting.time) for sighting in request.sightings]


def _sighted(request: FitRequest) -> Floats:
    """Return the true directions of the sightings, shape (n, 3); refuse a star that was down."""
    sightings = request.sightings
    sky = standing(request.site, [s.body for s in sightings], [s.time for s in sightings])
    for i, sighting in enumerate(sightings):
        place = sighting.body.place
        if sighting.of_date and place is not None:
            sky[i] = standing_of_date(request.site, place.ra_deg, place.dec_deg, sighting.time)
        altitude = float(np.degrees(np.arcsin(sky[i, 2])))
        if altitude < LOWEST_SIGHTED_DEG:
            raise BadRequest(
                f"sightings[{i}]: {sighting.body.name} was {-altitude:.0f}° below the horizon then, so it can't have been sighted; "
                "check the star, the time and the site"
            )
    return sky


def _solve(sky: Floats, azimuth: Floats, altitude: Floats) -> tuple[_Attitude, Literal["zeros", "rotation", "rotation_and_index"]]:
    """Return the attitude that the sightings suffice for, from true directions (n, 3) and clockwise readings (n,)."""
    read = direction(azimuth, altitude)
    if min(float(np.linalg.svd(vectors, compute_uv=False)[1]) if len(vectors) > 1 else 0.0 for vectors in (sky, read)) < _LINE:
        return _zeros(sky, azimuth, altitude), "zeros"
    plain = _Attitude(rotation_between(sky, read), 0.0)
    refined = [_refined(sky, azimuth, altitude, index) for index in _index_minima(sky, azimuth, altitude)]
    seen = [attitude for attitude, amplification in refined if amplification <= _INDEX_AMPLIFICATION]
    if not seen:
        return plain, "rotation"

    def cost(attitude: _Attitude) -> float:
        left = np.radians(separation_deg(sky @ attitude.rotation.T, direction(azimuth, altitude - attitude.index_deg)))
        return float(attitude_cost(0.5 * np.sum(left**2), np.array(attitude.index_deg), attitude.rotation[2, 2]))

    return min(seen, key=cost), "rotation_and_index"


def _zeros(sky: Floats, azimuth: Floats, altitude: Floats) -> _Attitude:
    """Return both zeros of a mount taken to be level: the mean of what each sighting says."""
    true_azimuth, true_altitude = azimuth_altitude(sky)
    zeros = np.radians(true_azimuth - azimuth)
    zero = np.arctan2(np.mean(np.sin(zeros)), np.mean(np.cos(zeros)))
    return _Attitude(rotation_vector(np.array([0.0, 0.0, -zero])), float(np.mean(wrapped(altitude - true_altitude))))


def _index_minima(sky: Floats, azimuth: Floats, altitude: Floats) -> list[float]:
    """Return the altitude indices, to a degree, at which the best rotation leaves least over; two stars may have two."""
    indices = np.arange(-90.0, 91.0)
    correlation = [np.swapaxes(direction(azimuth, altitude - index), 0, 1) @ sky for index in indices]
    u, s, vt = np.linalg.svd(np.array(correlation))
    loss = len(sky) - s[:, 0] - s[:, 1] - s[:, 2] * np.sign(np.linalg.det(u) * np.linalg.det(vt))
    return [float(indices[i]) for i in range(1, len(indices) - 1) if loss[i] <= loss[i - 1] and loss[i] <= loss[i + 1]]


def _refined(sky: Floats, azimuth: Floats, altitude: Floats, index_deg: float) -> tuple[_Attitude, float]:
    """Return rotation and index by Gauss and Newton from a first index, and how much the index amplifies an error of sighting."""
    rotation = rotation_between(sky, direction(azimuth, altitude - index_deg))
    index = np.radians(index_deg)
    amplification = np.inf
    for _ in range(30):
        turned = sky @ rotation.T
        read = direction(azimuth, altitude - np.degrees(index))
        upward = direction(azimuth, altitude - np.degrees(index) + 90.0)
        # A small turn w moves each turned vector by w x vector; a larger index lowers each reading along its own vertical.
        turns = np.stack([np.cross(axis, turned) for axis in np.eye(3)], axis=-1)
        slopes = np.concatenate([turns, upward[:, :, np.newaxis]], axis=-1).reshape(-1, 4)
        step, _, rank, _ = np.linalg.lstsq(slopes, (read - turned).reshape(-1), rcond=1e-9)
        if rank < 4:
            return _Attitude(rotation, float(np.degrees(index))), np.inf
        amplification = float(np.sqrt(np.linalg.inv(slopes.T @ slopes)[3, 3]))
        rotation, index = rotation_vector(step[:3]) @ rotation, index + step[3]
        if np.max(np.abs(step)) < 1e-13:
            break
    return _Attitude(rotation, float(np.degrees(index))), amplification if abs(index) < np.pi / 2 else np.inf


def _predictions(request: FitRequest, attitude: _Attitude, sign: float) -> tuple[Prediction, ...]:
    """Return the mount's readings for everything that is to be found."""
    if not request.find:
        return ()
    latest = max(sighting.time for sighting in request.sightings)
    sky = standing(request.site, [target.body for target in request.find], [target.time or latest for target in request.find])
    azimuths, altitudes = azimuth_altitude(sky @ attitude.rotation.T)
    return tuple(
        Prediction(target.body.name, float(sign * azimuth % 360.0) % 360.0, float(altitude + attitude.index_deg))
        for target, azimuth, altitude in zip(request.find, azimuths, altitudes, strict=True)
    )
