"""Directions as vectors, and the rotation between two sets of them: the mathematics under the pointing fit and the mount.

A direction is (north, east, up), so azimuth runs from the first axis towards the second. A rotation ``R`` takes sky directions to
mount directions: ``mount = R @ sky``.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def direction(azimuth_deg: Floats | float, altitude_deg: Floats | float) -> Floats:
    """Return unit vectors (north, east, up), shape (..., 3), for azimuths and altitudes of any broadcastable shape.

    An altitude above 90 degrees leans over the top, as a tube does: the vector stands on the other side.
    """
    azimuth, altitude = np.broadcast_arrays(np.radians(azimuth_deg), np.radians(altitude_deg))
    level = np.cos(altitude)
    return np.stack([level * np.cos(azimuth), level * np.sin(azimuth), np.sin(altitude)], axis=-1)


def azimuth_altitude(vectors: Floats) -> tuple[Floats, Floats]:
    """Return azimuths, 0 <= azimuth < 360, and altitudes in degrees, each of shape (...), of vectors of shape (..., 3)."""
    north, east, up = vectors[..., 0], vectors[..., 1], vectors[..., 2]
    azimuth = np.degrees(np.arctan2(east, north)) % 360.0
    return np.where(azimuth >= 360.0, 0.0, azimuth), np.degrees(np.arctan2(up, np.hypot(north, east)))


def wrapped(angle_deg: Floats | float) -> Floats:
    """Return angles brought into -180 <= angle < 180 degrees."""
    return np.asarray((np.asarray(angle_deg, dtype=np.float64) + 180.0) % 360.0 - 180.0)


def separation_deg(a: Floats, b: Floats) -> Floats:
    """Return the angles in degrees, shape (...), between unit vectors of shape (..., 3); exact for the smallest and the largest too."""
    return np.asarray(np.degrees(2.0 * np.arctan2(np.linalg.norm(a - b, axis=-1), np.linalg.norm(a + b, axis=-1))))


def rotation_between(sky: Floats, mount: Floats, weights: Floats | None = None) -> Floats:
    """Return the rotations, shape (..., 3, 3), that take unit vectors ``sky`` to ``mount``, both (..., n, 3), best in least squares.

    The singular-value solution of Wahba's problem: G. Wahba, SIAM Review 7 (1965) 409; F. L. Markley, J. Astronautical Sciences 36
    (1988) 245. ``weights``, shape (n,), default to one each.
    """
    weighted = mount if weights is None else mount * weights[:, np.newaxis]
    u, _, vt = np.linalg.svd(np.swapaxes(weighted, -1, -2) @ sky)
    handedness = np.sign(np.linalg.det(u) * np.linalg.det(vt))
    u = u.copy()
    u[..., :, 2] *= handedness[..., np.newaxis]
    return np.asarray(u @ vt)


def rotation_vector(vector_rad: Floats) -> Floats:
    """Return the rotation matrices, shape (..., 3, 3), about vectors of shape (..., 3) by their lengths in radians (Rodrigues)."""
    angle = np.linalg.norm(vector_rad, axis=-1)[..., np.newaxis, np.newaxis]
    x, y, z = vector_rad[..., 0], vector_rad[..., 1], vector_rad[..., 2]
    zero = np.zeros_like(x)
    cross = np.stack([np.stack([zero, -z, y], -1), np.stack([z, zero, -x], -1), np.stack([-y, x, zero], -1)], -2)
    return np.asarray(np.eye(3) + np.sinc(angle / np.pi) * cross + 0.5 * np.sinc(angle / (2.0 * np.pi)) ** 2 * (cross @ cross))


def shortest_arc(sky: Floats, mount: Floats) -> Floats:
    """Return the rotations, shape (..., 3, 3), by the shortest way from unit vectors ``sky`` to ``mount``, both (..., 3)."""
    axis = np.cross(sky, mount)
    sine = np.linalg.norm(axis, axis=-1, keepdims=True)
    angle = np.arctan2(sine, np.sum(sky * mount, axis=-1, keepdims=True))
    return rotation_vector(axis / np.maximum(sine, 1e-12) * angle)


def hour_angle_to_horizon(
    hour_angle_deg: Floats | float, declination_deg: Floats | float, latitude_deg: Floats | float
) -> tuple[Floats, Floats]:
    """Return azimuth (from north through east) and altitude in degrees for hour angle and declination at a latitude."""
    h, dec, lat = (np.radians(x) for x in (hour_angle_deg, declination_deg, latitude_deg))
    north = np.sin(dec) * np.cos(lat) - np.cos(dec) * np.cos(h) * np.sin(lat)
    east = -np.cos(dec) * np.sin(h)
    up = np.sin(dec) * np.sin(lat) + np.cos(dec) * np.cos(h) * np.cos(lat)
    return azimuth_altitude(np.stack(np.broadcast_arrays(north, east, up), axis=-1))


def horizon_to_hour_angle(azimuth_deg: Floats | float, altitude_deg: Floats | float, latitude_deg: Floats | float) -> tuple[Floats, Floats]:
    """Return hour angle (-180..180) and declination in degrees for azimuth (from north through east) and altitude at a latitude."""
    # The same turn by 90 degrees minus the latitude leads both ways, so horizon and equator swap roles.
    mirrored, declination = hour_angle_to_horizon(azimuth_deg, altitude_deg, latitude_deg)
    return wrapped(mirrored), declination
