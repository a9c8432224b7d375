"""The true sky: stars from the IAU list, positions by astropy, and the vectors of a mount, written anew from its description.

Nothing of ``companion`` is used, only the text of the IAU star list that is stored there. Frames are (east, north, up).
"""

from __future__ import annotations

import re
import warnings
from datetime import datetime
from functools import lru_cache
from pathlib import Path

import astropy.units as u
import numpy as np
from astropy.coordinates import AltAz, EarthLocation, SkyCoord
from astropy.time import Time
from astropy.utils import iers

STAR_LIST = Path(__file__).parents[2] / "companion" / "sky" / "data" / "iau-csn-2022-04-04.txt"

iers.conf.auto_download = False
iers.conf.auto_max_age = None  # a prediction of the Earth's turn is good enough here


@lru_cache(maxsize=1)
def stars() -> tuple[tuple[str, ...], np.ndarray, SkyCoord]:
    """Return names, V magnitudes and J2000 places of the named stars to V 3."""
    rows = _rows()
    return tuple(row[0] for row in rows), np.array([row[2] for row in rows]), SkyCoord(np.array([row[3:] for row in rows]) * u.deg)


@lru_cache(maxsize=1)
def constellations() -> np.ndarray:
    """Return the IAU abbreviation of the constellation of each star of ``stars``."""
    return np.array([row[1] for row in _rows()])


@lru_cache(maxsize=1)
def _rows() -> tuple[tuple[str, str, float, float, float], ...]:
    """Return name, constellation, V magnitude, right ascension and declination of the named stars to V 3."""
    rows = []
    for line in STAR_LIST.read_text(encoding="utf-8").splitlines():
        row = re.search(r" ([A-Z][A-Za-z]{2}) +\S+ +\S+ +(-?\d+\.\d+) +V .* (\d+\.\d{6}) +(-?\d+\.\d{6}) +\d{4}-", line)
        if row and float(row[2]) <= 3.0:
            rows.append((line[:18].strip(), row[1], float(row[2]), float(row[3]), float(row[4])))
    return tuple(rows)


def horizontal(latitude_deg: float, longitude_deg: float, time: datetime) -> np.ndarray:
    """Return airless azimuth and altitude, shape (stars, 2), in degrees, by astropy."""
    place = EarthLocation(lat=latitude_deg * u.deg, lon=longitude_deg * u.deg)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # dates past the end of the polar motion table
        seen = stars()[2].transform_to(AltAz(obstime=Time(time), location=place, pressure=0 * u.hPa))
    return np.stack([seen.az.deg, seen.alt.deg], axis=-1)


def vector(azimuth_deg: np.ndarray | float, altitude_deg: np.ndarray | float) -> np.ndarray:
    """Return unit vectors (east, north, up), shape (..., 3)."""
    azimuth, altitude = np.radians(azimuth_deg), np.radians(altitude_deg)
    return np.stack(np.broadcast_arrays(np.cos(altitude) * np.sin(azimuth), np.cos(altitude) * np.cos(azimuth), np.sin(altitude)), axis=-1)


def angles(direction: np.ndarray) -> np.ndarray:
    """Return azimuths and altitudes, degrees, shape (..., 2), of vectors (east, north, up)."""
    azimuth = np.arctan2(direction[..., 0], direction[..., 1])
    altitude = np.arctan2(direction[..., 2], np.hypot(direction[..., 0], direction[..., 1]))
    return np.degrees(np.stack([azimuth, altitude], axis=-1))


def tilted(east_deg: np.ndarray | float, north_deg: np.ndarray | float) -> np.ndarray:
    """Return the matrices from base to sky, shape (..., 3, 3), of a base leaning by rotations about the east and then the north line.

    A turn about the east line by -x leans the base north by x, one about the north line by x leans it east by x.
    """
    a, b = np.broadcast_arrays(np.radians(east_deg), np.radians(north_deg))
    one, nil = np.ones_like(a), np.zeros_like(a)
    about_east = np.array([[one, nil, nil], [nil, np.cos(a), -np.sin(a)], [nil, np.sin(a), np.cos(a)]])
    about_north = np.array([[np.cos(b), nil, np.sin(b)], [nil, one, nil], [-np.sin(b), nil, np.cos(b)]])
    return np.einsum("ij...,jk...->...ik", about_north, about_east)


def turned(sky: np.ndarray, latitude_deg: float, turn_deg: np.ndarray, told_latitude_deg: np.ndarray) -> np.ndarray:
    """Return azimuth and altitude, shape (N, 2), at other places and times of a star that stands at ``sky``, shape (2,).

    ``turn_deg``, shape (N,): how far the sidereal time there is ahead. Spherical trigonometry: what a mount does with its clock.
    """
    azimuth, altitude, latitude, told = (np.radians(x) for x in (sky[0], sky[1], latitude_deg, told_latitude_deg))
    declination = np.arcsin(np.sin(altitude) * np.sin(latitude) + np.cos(altitude) * np.cos(latitude) * np.cos(azimuth))
    west = -np.cos(altitude) * np.sin(azimuth)
    south = np.sin(altitude) * np.cos(latitude) - np.cos(altitude) * np.sin(latitude) * np.cos(azimuth)
    hour_angle = np.arctan2(west, south) + np.radians(turn_deg)
    up = np.sin(declination) * np.sin(told) + np.cos(declination) * np.cos(told) * np.cos(hour_angle)
    north = np.sin(declination) * np.cos(told) - np.cos(declination) * np.sin(told) * np.cos(hour_angle)
    return angles(np.stack(np.broadcast_arrays(-np.cos(declination) * np.sin(hour_angle), north, up), axis=-1))


def shortest(one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """Return the matrices, shape (N, 3, 3), that bring unit vectors ``one`` to ``other``, both (N, 3), by the shortest way."""
    half = one + other
    half = half / np.maximum(np.linalg.norm(half, axis=-1, keepdims=True), 1e-9)
    # Two mirrorings make a turn: first in the plane across ``one``, then in the plane across the half way.
    return _mirror(half) @ _mirror(one)


def best(told: np.ndarray, read: np.ndarray) -> np.ndarray:
    """Return the matrices, shape (N, 3, 3), that bring vectors ``told`` to ``read``, both (N, n, 3), best: Davenport's q-method."""
    b = np.einsum("nki,nkj->nij", read, told)
    k = np.empty((len(b), 4, 4))
    trace = np.trace(b, axis1=1, axis2=2)
    k[:, 1:, 1:] = b + np.swapaxes(b, 1, 2) - trace[:, None, None] * np.eye(3)
    k[:, 0, 0] = trace
    k[:, 0, 1:] = k[:, 1:, 0] = np.stack([b[:, 2, 1] - b[:, 1, 2], b[:, 0, 2] - b[:, 2, 0], b[:, 1, 0] - b[:, 0, 1]], axis=-1)
    w, x, y, z = np.moveaxis(np.linalg.eigh(k)[1][:, :, -1], -1, 0)
    return np.moveaxis(
        np.array(
            [
                [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
                [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
                [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
            ]
        ),
        -1,
        0,
    )


def _mirror(across: np.ndarray) -> np.ndarray:
    """Return the matrices, shape (N, 3, 3), that mirror in the planes across unit vectors: I - 2 a a'."""
    return np.eye(3) - 2.0 * across[:, :, None] * across[:, None, :]
