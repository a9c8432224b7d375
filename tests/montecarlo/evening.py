"""Made-up evenings: where a mount with a mistake stops on each slew, and what the observer tells of it.

The mount is written anew from its description: it computes where a star should be from the place and time it was told, turns its axes
by that from where it was set, and takes in a centred star by shifting the zeros of its own circles or by a rotation.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np

from .mistakes import SIDEREAL_DEG_PER_HOUR, Mistakes, draw
from .truth import angles, best, horizontal, shortest, stars, tilted, turned, vector

TURN_SIGMA_DEG = 15.0
"""How well a turn is told by the body: the contract's figure where none is given."""


@dataclass(frozen=True)
class Telling:
    """How the misses of an evening are told."""

    slews: int
    how: str
    """``measured``: to 0.5 degrees + 10 %, and it is said; ``eye``: to 2 degrees + 20 %; ``body``: a turn, and half the time how far up."""
    first_centred: bool = False
    """The first star was centred freely, and nobody told its miss."""
    south: bool = False


@dataclass(frozen=True)
class Evening:
    """A place, a time and the stars the mount offers."""

    telling: Telling
    latitude_deg: float
    longitude_deg: float
    local: datetime
    """The start by the Sun's local clock, written as if it were UTC."""
    start: datetime
    times: tuple[datetime, ...]
    chosen: tuple[int, ...]
    """Numbers of the n stars offered."""
    sky: np.ndarray
    """Shape (n, stars, 2): azimuth and altitude of all stars at each of the times."""
    declination_deg: float

    def mistakes(self, cause: str, rng: np.random.Generator, count: int) -> Mistakes:
        """Return so many draws of a cause for this evening."""
        place = (self.latitude_deg, self.longitude_deg)
        return draw(
            cause,
            rng,
            count,
            place=place,
            local=self.local,
            declination_deg=self.declination_deg,
            chosen=list(self.chosen),
            sky=self.sky,
        )


@dataclass(frozen=True)
class Misses:
    """Where the star told of lies from where the telescope stopped, exactly, for N mistakes and n slews."""

    turn_deg: np.ndarray
    """Shape (N, n): azimuth of the star - azimuth of the stop, -180..180."""
    right_deg: np.ndarray
    """Shape (N, n): that times the cosine of the stop's altitude."""
    level: np.ndarray
    """Shape (N, n): that cosine."""
    up_deg: np.ndarray


def draw_evening(rng: np.random.Generator, telling: Telling) -> Evening:
    """Return an evening with enough bright stars 20 to 70 degrees high, each 40 to 120 degrees from the one before."""
    while True:
        latitude = float(rng.uniform(20.0, 60.0)) * (-0.75 if telling.south else 1.0)
        longitude = float(rng.uniform(8.0, 172.0) * rng.choice((-1.0, 1.0)))
        local = datetime(2026, 1, 1, 18, tzinfo=UTC) + timedelta(days=int(rng.integers(365)), minutes=float(rng.uniform(0, 600)))
        declination = float(rng.uniform(4.0, 20.0) * rng.choice((-1.0, 1.0)))
        sky = horizontal(latitude, longitude, _universal(local, longitude))
        chosen = _choose(rng, sky, telling.slews)
        if chosen:
            return evening_of(telling, (latitude, longitude), local, chosen, declination)


def evening_of(telling: Telling, place: tuple[float, float], local: datetime, chosen: Sequence[int], declination_deg: float) -> Evening:
    """Return the evening at a place that begins at a local time, with a star every four minutes."""
    start = _universal(local, place[1])
    times = tuple(start + timedelta(minutes=2.0 + 4.0 * k) for k in range(telling.slews))
    sky = np.stack([horizontal(*place, time) for time in times])
    return Evening(telling, *place, local, start, times, tuple(chosen), sky, declination_deg)


def _universal(local: datetime, longitude_deg: float) -> datetime:
    """Return Universal Time at a local mean time, to the second."""
    return (local - timedelta(hours=longitude_deg / 15.0)).replace(microsecond=0)


def _choose(rng: np.random.Generator, sky: np.ndarray, count: int) -> list[int]:
    """Return so many stars to offer, or none."""
    good = np.flatnonzero((sky[:, 1] > 20.0) & (sky[:, 1] < 70.0) & (stars()[1] < 2.1))
    if len(good) < 3:
        return []
    chosen = [int(rng.choice(good))]
    directions = vector(sky[:, 0], sky[:, 1])
    for _ in range(count - 1):
        away = np.degrees(np.arccos(np.clip(directions[good] @ directions[chosen[-1]], -1, 1)))
        next_ones = [int(i) for i in good[(away > 40.0) & (away < 120.0)] if i not in chosen]
        if not next_ones:
            return []
        chosen.append(int(rng.choice(next_ones)))
    return chosen


def told_by_turning(evening: Evening, mistakes: Mistakes) -> np.ndarray:
    """Return where the mount believes its stars to be, shape (N, n, 2), from where they are, by spherical trigonometry."""
    turn = mistakes.hours * SIDEREAL_DEG_PER_HOUR + mistakes.longitude_deg - evening.longitude_deg
    where = [turned(evening.sky[k, star], evening.latitude_deg, turn, mistakes.latitude_deg) for k, star in enumerate(evening.chosen)]
    return np.stack(where, axis=1)


def told_by_astropy(evening: Evening, mistakes: Mistakes) -> np.ndarray:
    """Return the same as ``told_by_turning`` for few mistakes, by astropy for the place and time each was told."""
    told = np.empty((len(mistakes.hours), len(evening.chosen), 2))
    for i, (latitude, longitude, hours) in enumerate(zip(mistakes.latitude_deg, mistakes.longitude_deg, mistakes.hours, strict=True)):
        for k, (time, star) in enumerate(zip(evening.times, evening.chosen, strict=True)):
            told[i, k] = horizontal(latitude, longitude, time + timedelta(hours=hours))[star]
    return told


def run_mount(evening: Evening, mistakes: Mistakes, told: np.ndarray, left: Collection[int] = ()) -> Misses:
    """Return the exact misses when the mount believes its stars to be at ``told``, shape (N, n, 2).

    ``left``: the slews whose star was left where it lay, so that the mount took nothing in.
    """
    count = len(told)
    tilt = tilted(-mistakes.lean_deg[:, 0], mistakes.lean_deg[:, 1])
    by_level = angles(np.einsum("nji,nj->ni", tilt, vector(mistakes.start_deg[:, 0], mistakes.start_deg[:, 1])))
    start = np.where(mistakes.levelled[:, None], by_level, mistakes.start_deg)
    zero, believed, read, found = start, [], [], []
    for k, star in enumerate(evening.chosen):
        aim = told[:, k]
        if read:
            stack = np.stack(believed, axis=1), np.stack(read, axis=1)
            turn = shortest(believed[0], read[0]) if len(read) == 1 else best(*stack)
            solved = angles(np.einsum("nij,nj->ni", turn, vector(aim[:, 0], aim[:, 1]))) + start
            solves = mistakes.by_arc if len(read) == 1 else mistakes.rotation  # one star fixes no rotation
        else:
            solved, solves = aim, np.zeros(count, dtype=bool)
        axes = np.where(solves[:, None], solved, aim + zero) + mistakes.slip_deg[:, k]
        stop = angles(np.einsum("nij,nj->ni", tilt, vector(axes[:, 0], axes[:, 1])))
        real = np.where((mistakes.wrong == k)[:, None], evening.sky[k, mistakes.instead], evening.sky[k, star])
        seen = np.where(((mistakes.wrong == k) & mistakes.told_of_it)[:, None], real, evening.sky[k, star])
        found.append((_round(seen[:, 0] - stop[:, 0]), np.cos(np.radians(stop[:, 1])), seen[:, 1] - stop[:, 1]))
        if k in left:
            continue
        # The star is centred and taken in. The circles lean with the base: what they read is the direction as seen from it.
        circles = angles(np.einsum("nji,nj->ni", tilt, vector(real[:, 0], real[:, 1]))) - mistakes.slip_deg[:, k]
        zero = circles - told[:, k]
        believed.append(vector(told[:, k, 0], told[:, k, 1]))
        read.append(vector(*np.moveaxis(circles - start, -1, 0)))
    turns, level, up = (np.stack(part, axis=1) for part in zip(*found, strict=True))
    return Misses(turns, turns * level, level, up)


def _round(angle_deg: np.ndarray) -> np.ndarray:
    """Return angles in -180..180 degrees."""
    return (angle_deg + 180.0) % 360.0 - 180.0


def reading_sigma(how: str, across_deg: np.ndarray | float, up_deg: np.ndarray | float) -> np.ndarray:
    """Return how well a miss is read along each axis, degrees; of a turn told by the body, the part upwards."""
    if how == "body":
        return 2.0 + 0.2 * np.abs(up_deg)
    size = np.hypot(across_deg, up_deg)
    return 2.0 + 0.2 * size if how == "eye" else 0.5 + 0.1 * size


def tell(evening: Evening, misses: Misses, rng: np.random.Generator) -> list[dict[str, Any]]:
    """Return what the observer says of the first of some exact misses, with errors of reading."""
    told = []
    for k, (time, star) in enumerate(zip(evening.times, evening.chosen, strict=True)):
        miss: dict[str, Any] = {"star": stars()[0][star], "time": time.isoformat()} | ({"synced": True} if k else {})
        lies = read(evening.telling.how, misses, k, rng)
        told.append(miss | ({"centred": True} if k == 0 and evening.telling.first_centred else lies))
    return told


def read(how: str, misses: Misses, k: int, rng: np.random.Generator) -> dict[str, float]:
    """Return what the observer says of where the star of one slew lay, with errors of reading, as the document has it."""
    right, up, turn = (float(part[0, k]) for part in (misses.right_deg, misses.up_deg, misses.turn_deg))
    sigma = float(reading_sigma(how, right, up))
    across, upward = rng.normal(0.0, 1.0, 2)
    if how == "body":
        turned = {"turn_deg": float(_round(np.array(turn + TURN_SIGMA_DEG * across)))}
        return turned | ({"up_deg": float(np.clip(up + sigma * upward, -180.0, 180.0))} if rng.random() < 0.5 else {})
    right, up = (float(np.clip(x, -180.0, 180.0)) for x in (right + sigma * across, up + sigma * upward))
    exact = {"sigma_deg": 0.5 + 0.1 * float(np.hypot(right, up))} if how == "measured" else {}
    return {"right_deg": right, "up_deg": up} | exact


def document_of(evening: Evening, mistakes: Mistakes, rng: np.random.Generator) -> dict[str, Any]:
    """Return the document for ``diagnose`` about the first of some mistakes."""
    misses = run_mount(evening, mistakes, told_by_astropy(evening, mistakes))
    scheme = "rotation" if mistakes.rotation[0] else "zeros"
    return {
        "site": {"latitude_deg": evening.latitude_deg, "longitude_deg": evening.longitude_deg},
        "time": evening.start.isoformat(),
        "declination_deg": evening.declination_deg,
        "corrections": scheme if rng.random() < 0.5 else "unknown",
        "misses": tell(evening, misses, rng),
    }
