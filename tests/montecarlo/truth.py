"""The truth side: stars from the IAU list, positions by astropy, and a mount written anew here from its description.

Nothing of ``companion.sky`` is used, only the text of the IAU star list that is stored there. Frames are (east, north, up).
"""

from __future__ import annotations

import re
import warnings
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from pathlib import Path

import astropy.units as u
import numpy as np
from astropy.coordinates import AltAz, EarthLocation, SkyCoord
from astropy.time import Time
from astropy.utils import iers

STAR_LIST = Path(__file__).parents[2] / "companion" / "sky" / "data" / "iau-csn-2022-04-04.txt"
CAUSES = (
    "start_azimuth",
    "magnetic_declination",
    "start_altitude",
    "hour",
    "date_day",
    "date_month",
    "latitude",
    "longitude",
    "site",
    "wrong_star",
    "slipped",
    "reversed",
    "none",
)
NORTH_SIGMAS_DEG = (6.0, 2.0, 1.0)  # compass, landmark, pole star

iers.conf.auto_download = False
iers.conf.auto_max_age = None  # a prediction of the Earth's turn is good enough here


@dataclass(frozen=True)
class Trial:
    """A made-up evening: what went wrong, and the document for ``diagnose``."""

    cause: str
    member: str
    document: dict[str, object]


@dataclass
class Mistake:
    """One mistake, drawn at random."""

    cause: str
    member: str = ""
    start_deg: tuple[float, float] = (0.0, 0.0)
    hours: float = 0.0
    latitude_deg: float | None = None
    longitude_deg: float | None = None
    declination_deg: float = 0.0
    slip_deg: tuple[float, float] = (0.0, 0.0)
    wrong: bool = False


@lru_cache(maxsize=1)
def stars() -> tuple[tuple[str, ...], np.ndarray, SkyCoord]:
    """Return names, V magnitudes and J2000 places of the named stars to V 3."""
    names, magnitudes, places = [], [], []
    for line in STAR_LIST.read_text(encoding="utf-8").splitlines():
        row = re.search(r" (-?\d+\.\d+) +V .* (\d+\.\d{6}) +(-?\d+\.\d{6}) +\d{4}-", line)
        if row and float(row[1]) <= 3.0:
            names.append(line[:18].strip())
            magnitudes.append(float(row[1]))
            places.append((float(row[2]), float(row[3])))
    return tuple(names), np.array(magnitudes), SkyCoord(np.array(places) * u.deg)


def horizontal(latitude_deg: float, longitude_deg: float, time: datetime) -> np.ndarray:
    """Return airless azimuth and altitude, shape (stars, 2), in degrees, by astropy."""
    place = EarthLocation(lat=latitude_deg * u.deg, lon=longitude_deg * u.deg)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # dates past the end of the polar motion table
        seen = stars()[2].transform_to(AltAz(obstime=Time(time), location=place, pressure=0 * u.hPa))
    return np.stack([seen.az.deg, seen.alt.deg], axis=-1)


def vector(azimuth_deg: float, altitude_deg: float) -> np.ndarray:
    """Return the unit vector (east, north, up)."""
    azimuth, altitude = np.radians(azimuth_deg), np.radians(altitude_deg)
    return np.array([np.cos(altitude) * np.sin(azimuth), np.cos(altitude) * np.cos(azimuth), np.sin(altitude)])


def angles(direction: np.ndarray) -> np.ndarray:
    """Return azimuth and altitude, degrees, of a vector (east, north, up)."""
    return np.degrees([np.arctan2(direction[0], direction[1]), np.arcsin(np.clip(direction[2] / np.linalg.norm(direction), -1.0, 1.0))])


def tilted(east_deg: float, north_deg: float) -> np.ndarray:
    """Return the matrix from base to sky of a base leaning by rotations about the east and then the north line."""
    a, b = np.radians([east_deg, north_deg])
    about_east = np.array([[1, 0, 0], [0, np.cos(a), -np.sin(a)], [0, np.sin(a), np.cos(a)]])
    about_north = np.array([[np.cos(b), 0, np.sin(b)], [0, 1, 0], [-np.sin(b), 0, np.cos(b)]])
    return about_north @ about_east


def draw_mistake(cause: str, rng: np.random.Generator, place: tuple[float, float], when: datetime) -> Mistake:
    """Return one mistake of a cause, of a size that people make and notice."""
    mistake = Mistake(cause, declination_deg=float(rng.uniform(-18.0, 18.0)), wrong=cause == "wrong_star")
    sign = float(rng.choice((-1.0, 1.0)))
    if cause in ("start_azimuth", "magnetic_declination", "start_altitude", "reversed", "slipped"):
        _draw_mechanical(mistake, rng, sign)
    elif cause in ("hour", "date_day", "date_month"):
        _draw_time(mistake, rng, sign, when)
    elif cause in ("latitude", "longitude", "site"):
        _draw_place(mistake, rng, sign, place)
    return mistake


def _draw_mechanical(mistake: Mistake, rng: np.random.Generator, sign: float) -> None:
    """Draw how the tube stood at the start, or slipped."""
    if mistake.cause == "start_azimuth":
        mistake.start_deg = (sign * rng.uniform(12.0, 60.0), 0.0)
    elif mistake.cause == "magnetic_declination":
        mistake.declination_deg = sign * rng.uniform(8.0, 20.0)
        mistake.member = str(rng.choice(("not_applied", "applied_twice", "wrong_sign"), p=(0.5, 0.2, 0.3)))
        mistake.start_deg = ({"not_applied": 1, "applied_twice": -1, "wrong_sign": 2}[mistake.member] * mistake.declination_deg, 0.0)
    elif mistake.cause == "start_altitude":
        mistake.start_deg = (0.0, rng.uniform(8.0, 45.0) * (1.0 if rng.random() < 0.7 else -0.7))
    elif mistake.cause == "reversed":
        mistake.start_deg = (180.0, 0.0)
    else:
        axes = ((1.0, 0.0), (0.0, 1.0), (1.0, 1.0))[rng.integers(3)]
        size = sign * float(rng.uniform(8.0, 40.0))
        mistake.slip_deg = (axes[0] * size, axes[1] * size)


def _draw_time(mistake: Mistake, rng: np.random.Generator, sign: float, when: datetime) -> None:
    """Draw how far off the clock or the date was."""
    if mistake.cause == "hour":
        mistake.member = str(rng.choice(("daylight_saving", "time_zone", "am_pm", "clock"), p=(0.4, 0.3, 0.15, 0.15)))
        sizes = {"daylight_saving": 1.0, "time_zone": float(rng.integers(2, 11)), "am_pm": 12.0, "clock": rng.uniform(0.5, 2.0)}
        mistake.hours = sign * sizes[mistake.member]
    elif mistake.cause == "date_day":
        mistake.hours = 24.0 * sign
    else:
        if when.day <= 12 and when.day != when.month and rng.random() < 0.5:
            mistake.member, told = "day_month_swapped", when.replace(day=when.month, month=when.day)
        else:
            month = int((when.month - 1 + rng.integers(1, 12)) % 12 + 1)
            mistake.member, told = "month", when.replace(month=month, day=min(when.day, 28))
        mistake.hours = (told - when).total_seconds() / 3600.0


def _draw_place(mistake: Mistake, rng: np.random.Generator, sign: float, place: tuple[float, float]) -> None:
    """Draw the place the mount was told."""
    latitude, longitude = place
    if mistake.cause == "site":
        mistake.latitude_deg = float(np.degrees(np.arcsin(rng.uniform(-0.8, 0.9))))
        mistake.longitude_deg = float(rng.uniform(-180.0, 180.0))
        return
    mistake.member = "sign" if rng.random() < 0.5 else "value"
    if mistake.cause == "latitude":
        value = float(np.clip(latitude + sign * rng.uniform(8.0, 30.0), -89.0, 89.0))
        mistake.latitude_deg = -latitude if mistake.member == "sign" else value
    else:
        mistake.longitude_deg = -longitude if mistake.member == "sign" else longitude + sign * float(rng.uniform(10.0, 60.0))


def draw_trial(cause: str, rng: np.random.Generator, *, south: bool, misses: int, by_eye: bool) -> Trial:
    """Return a trial with one mistake and everyday small errors.

    ``by_eye``: misses are read to 2 degrees + 20 % and say nothing of it; else to 0.5 degrees + 10 %, and say so.
    """
    while True:
        latitude = float(rng.uniform(20.0, 60.0)) * (-0.75 if south else 1.0)
        longitude = float(rng.uniform(8.0, 172.0) * rng.choice((-1.0, 1.0)))
        local = datetime(2026, 1, 1, 18, tzinfo=UTC) + timedelta(days=int(rng.integers(365)), minutes=float(rng.uniform(0, 600)))
        start = (local - timedelta(hours=longitude / 15.0)).replace(microsecond=0)
        times = [start + timedelta(minutes=2.0 + 4.0 * k) for k in range(misses)]
        sky = horizontal(latitude, longitude, times[0])
        chosen = _choose(rng, sky, misses)
        if chosen:
            mistake = draw_mistake(cause, rng, (latitude, longitude), local)
            return _observed(mistake, rng, place=(latitude, longitude), start=start, times=times, chosen=chosen, by_eye=by_eye)


def _choose(rng: np.random.Generator, sky: np.ndarray, count: int) -> list[int]:
    """Return bright stars 20 to 70 degrees high, the second 40 to 120 degrees from the first."""
    good = np.flatnonzero((sky[:, 1] > 20.0) & (sky[:, 1] < 70.0) & (stars()[1] < 2.1))
    if len(good) < 3:
        return []
    chosen = [int(rng.choice(good))]
    for _ in range(count - 1):
        away = np.array([np.degrees(np.arccos(np.clip(vector(*sky[i]) @ vector(*sky[chosen[-1]]), -1, 1))) for i in good])
        next_ones = good[(away > 40.0) & (away < 120.0)]
        if not len(next_ones):
            return []
        chosen.append(int(rng.choice(next_ones)))
    return chosen


def _observed(
    mistake: Mistake,
    rng: np.random.Generator,
    *,
    place: tuple[float, float],
    start: datetime,
    times: list[datetime],
    chosen: list[int],
    by_eye: bool,
) -> Trial:
    """Return the trial: run the mount through the evening and write down what the observer says."""
    latitude, longitude = place
    north_sigma = NORTH_SIGMAS_DEG[rng.integers(3)]
    tilt = tilted(*rng.normal(0.0, 1.0, 2))
    zero = np.array(mistake.start_deg) + rng.normal(0.0, (north_sigma, 1.5))  # axes = encoders + zero
    scheme = str(rng.choice(("zeros", "rotation")))
    told_latitude = latitude if mistake.latitude_deg is None else mistake.latitude_deg
    told_longitude = longitude if mistake.longitude_deg is None else mistake.longitude_deg
    wrong_k = int(rng.integers(len(times))) if mistake.wrong else -1
    given_for_wrong = True
    if mistake.wrong and wrong_k < len(times) - 1:
        given_for_wrong = bool(rng.random() < 0.6)
    misses: list[dict[str, object]] = []
    for k, (time, star) in enumerate(zip(times, chosen, strict=True)):
        sky = horizontal(latitude, longitude, time)
        told = horizontal(told_latitude, told_longitude, time + timedelta(hours=mistake.hours))[star]
        slip = np.array(mistake.slip_deg) if k > 0 else np.zeros(2)
        axes = told + zero + slip
        stop = angles(tilt @ vector(*axes))
        real = seen = sky[star]
        if k == wrong_k:
            real = sky[_neighbour(rng, sky, star)]
            seen = real if given_for_wrong else seen
        right = ((seen[0] - stop[0] + 180.0) % 360.0 - 180.0) * np.cos(np.radians(stop[1]))
        up = seen[1] - stop[1]
        size = float(np.hypot(right, up))
        sigma = 2.0 + 0.2 * size if by_eye else 0.5 + 0.1 * size
        right, up = np.array([right, up]) + rng.normal(0.0, sigma, 2)
        miss = {"star": stars()[0][star], "time": time.isoformat(), "right_deg": float(np.clip(right, -180, 180)), "up_deg": float(up)}
        misses.append(miss | {"synced": k > 0} | ({} if by_eye else {"sigma_deg": 0.5 + 0.1 * float(np.hypot(right, up))}))
        # The star is centred and the mount shifts its zeros, which is all that one star can do in either scheme.
        zero = angles(tilt.T @ vector(*real)) - told - slip
    document = {
        "site": {"latitude_deg": latitude, "longitude_deg": longitude},
        "time": start.isoformat(),
        "declination_deg": mistake.declination_deg,
        "corrections": scheme if rng.random() < 0.5 else "unknown",
        "misses": misses,
    }
    return Trial(mistake.cause, mistake.member, document)


def _neighbour(rng: np.random.Generator, sky: np.ndarray, star: int) -> int:
    """Return another star 4 to 25 degrees from a star and up, sooner a bright one; the nearest one where there is none."""
    away = np.array([np.degrees(np.arccos(np.clip(vector(*row) @ vector(*sky[star]), -1, 1))) for row in sky])
    good = np.flatnonzero((away > 4.0) & (away < 25.0) & (sky[:, 1] > 5.0))
    if not len(good):
        return int(np.argsort(away)[1])
    weights = 10.0 ** (-0.3 * stars()[1][good])
    return int(rng.choice(good, p=weights / weights.sum()))
