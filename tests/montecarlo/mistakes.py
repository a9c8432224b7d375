"""What goes wrong on made-up evenings, how often and by how much: many draws of one cause at once.

Written from the description of the causes; the sizes and how often each happens are judgement, as in the diagnosis, and drawn without
looking there. Values are in degrees and hours; arrays hold one row a draw.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

import numpy as np

from .truth import constellations, stars, vector

FREQUENCY = {
    "start_azimuth": 0.10,
    "magnetic_declination": 0.06,
    "start_altitude": 0.08,
    "base_tilt": 0.07,
    "hour": 0.16,
    "date_day": 0.02,
    "date_month": 0.05,
    "latitude": 0.05,
    "longitude": 0.05,
    "site": 0.04,
    "wrong_star": 0.15,
    "slipped": 0.06,
    "reversed": 0.05,
    "none": 0.06,
}
"""Share of the evenings that go wrong which go wrong this way."""
CAUSES = tuple(FREQUENCY)
NORTH_SIGMAS_DEG = (6.0, 2.0, 1.0)  # compass, landmark, pole star
SIDEREAL_DEG_PER_HOUR = 15.04106864  # IAU 1982


@dataclass
class Mistakes:
    """N draws of one cause with the everyday small errors, for an evening of n slews."""

    cause: str
    members: np.ndarray
    """Shape (N,): the variety, or an empty text."""
    start_deg: np.ndarray
    """Shape (N, 2): azimuth and altitude of the tube at the start."""
    levelled: np.ndarray
    """Shape (N,): the tube was set against the sky (a level along it); else against the marks of the base, which may lean."""
    lean_deg: np.ndarray
    """Shape (N, 2): how far the base leans north and east."""
    hours: np.ndarray
    """Shape (N,): clock and date told minus true."""
    latitude_deg: np.ndarray
    longitude_deg: np.ndarray
    """Shape (N,): the place told."""
    slip_deg: np.ndarray
    """Shape (N, n, 2): how far each axis has slipped by the end of each slew."""
    wrong: np.ndarray
    """Shape (N,): the slew after which another star was centred; -1 for none."""
    instead: np.ndarray
    """Shape (N,): the number of that star."""
    told_of_it: np.ndarray
    """Shape (N,): the miss was told of that star too; else rightly, and then the wrong one was centred."""
    rotation: np.ndarray
    """Shape (N,): the mount solves a rotation from its stars; else it shifts its zeros."""
    by_arc: np.ndarray
    """Shape (N,): after one star such a mount turns by the shortest way; else it shifts its zeros then."""


def draw(
    cause: str,
    rng: np.random.Generator,
    count: int,
    *,
    place: tuple[float, float],
    local: datetime,
    declination_deg: float,
    chosen: list[int],
    sky: np.ndarray,
) -> Mistakes:
    """Return so many draws of a cause. ``sky``, shape (n, stars, 2): where the stars stand at each slew to one of ``chosen``."""
    north = rng.choice(NORTH_SIGMAS_DEG, count)
    rotation = rng.random(count) < 0.5
    drawn = Mistakes(
        cause,
        members=np.full(count, "", dtype="U20"),
        start_deg=rng.normal(0.0, 1.0, (count, 2)) * np.stack([north, np.full(count, 1.5)], axis=-1),
        levelled=rng.random(count) < 0.5,
        lean_deg=rng.normal(0.0, 1.0, (count, 2)),
        hours=np.zeros(count),
        latitude_deg=np.full(count, place[0]),
        longitude_deg=np.full(count, place[1]),
        slip_deg=np.zeros((count, len(chosen), 2)),
        wrong=np.full(count, -1),
        instead=np.zeros(count, dtype=int),
        told_of_it=np.ones(count, dtype=bool),
        rotation=rotation,
        by_arc=rotation & (rng.random(count) < 0.3),
    )
    sign = rng.choice((-1.0, 1.0), count)
    if cause in ("start_azimuth", "magnetic_declination", "start_altitude", "reversed", "base_tilt"):
        _draw_pose(drawn, rng, sign, declination_deg)
    elif cause in ("hour", "date_day", "date_month"):
        _draw_time(drawn, rng, sign, local)
    elif cause in ("latitude", "longitude", "site"):
        _draw_place(drawn, rng, sign, place)
    elif cause == "slipped":
        _draw_slip(drawn, rng, sign)
    elif cause == "wrong_star":
        _draw_wrong_star(drawn, rng, chosen, sky)
    return drawn


def _draw_pose(drawn: Mistakes, rng: np.random.Generator, sign: np.ndarray, declination_deg: float) -> None:
    """Draw how tube and base stood at the start."""
    count = len(sign)
    if drawn.cause == "start_azimuth":
        drawn.start_deg[:, 0] += sign * _sizes(rng, 28.0, count)
    elif drawn.cause == "magnetic_declination":
        drawn.members = rng.choice(("not_applied", "applied_twice", "wrong_sign"), count, p=(0.5, 0.2, 0.3))
        drawn.start_deg[:, 0] += (
            np.select([drawn.members == "not_applied", drawn.members == "applied_twice"], [1.0, -1.0], 2.0) * declination_deg
        )
    elif drawn.cause == "start_altitude":
        drawn.start_deg[:, 1] += np.minimum(_sizes(rng, 18.0, count), 70.0) * np.where(rng.random(count) < 0.7, 1.0, -0.7)
    elif drawn.cause == "reversed":
        drawn.start_deg[:, 0] += 180.0
    else:
        size, towards = rng.uniform(5.0, 9.0, count), rng.uniform(0.0, 2.0 * np.pi, count)
        drawn.lean_deg = size[:, None] * np.stack([np.cos(towards), np.sin(towards)], axis=-1) + 0.3 * drawn.lean_deg


def _draw_time(drawn: Mistakes, rng: np.random.Generator, sign: np.ndarray, local: datetime) -> None:
    """Draw how far off the clock or the date was."""
    count = len(sign)
    if drawn.cause == "hour":
        drawn.members = rng.choice(("daylight_saving", "time_zone", "am_pm", "clock"), count, p=(0.4, 0.3, 0.15, 0.15))
        sizes = {"daylight_saving": np.ones(count), "time_zone": rng.integers(2, 11, count) * 1.0, "am_pm": np.full(count, 12.0)}
        drawn.hours = sign * np.select([drawn.members == m for m in sizes], list(sizes.values()), _sizes(rng, 1.0, count))
    elif drawn.cause == "date_day":
        drawn.hours = 24.0 * sign
    else:
        months = [local.replace(month=m, day=min(local.day, 28)) for m in range(1, 13) if m != local.month]
        away = np.array([(month - local).total_seconds() / 3600.0 for month in months])
        drawn.hours, drawn.members = rng.choice(away, count), np.full(count, "month", dtype="U20")
        if local.day <= 12 and local.day != local.month:
            swapped = rng.random(count) < 0.5
            hours = (local.replace(day=local.month, month=local.day) - local).total_seconds() / 3600.0
            drawn.hours, drawn.members = np.where(swapped, hours, drawn.hours), np.where(swapped, "day_month_swapped", drawn.members)


def _draw_place(drawn: Mistakes, rng: np.random.Generator, sign: np.ndarray, place: tuple[float, float]) -> None:
    """Draw the place the mount was told."""
    count, (latitude, longitude) = len(sign), place
    if drawn.cause == "site":
        drawn.latitude_deg = np.degrees(np.arcsin(rng.uniform(-0.8, 0.9, count)))
        drawn.longitude_deg = rng.uniform(-180.0, 180.0, count)
        return
    drawn.members = rng.choice(("sign", "value"), count)
    if drawn.cause == "latitude":
        value = np.clip(latitude + sign * _sizes(rng, 15.0, count), -89.0, 89.0)
        drawn.latitude_deg = np.where(drawn.members == "sign", -latitude, value)
    else:
        drawn.longitude_deg = np.where(drawn.members == "sign", -longitude, longitude + sign * np.minimum(_sizes(rng, 25.0, count), 180.0))


def _draw_slip(drawn: Mistakes, rng: np.random.Generator, sign: np.ndarray) -> None:
    """Draw clutches that let go on one slew after the first: of one axis, or each by its own amount."""
    count, slews = drawn.slip_deg.shape[:2]
    axes = np.array(((1.0, 0.0), (0.0, 1.0), (1.0, 1.0)))[rng.integers(3, size=count)]
    sizes = np.stack([sign, rng.choice((-1.0, 1.0), count)], axis=-1) * _sizes(rng, 18.0, (count, 2)) * axes
    after = np.arange(slews)[None, :] >= rng.integers(1, slews, count)[:, None]
    drawn.slip_deg = sizes[:, None, :] * after[:, :, None]


def _draw_wrong_star(drawn: Mistakes, rng: np.random.Generator, chosen: list[int], sky: np.ndarray) -> None:
    """Draw neighbours centred instead; of all but the last slew the miss may have been told rightly before."""
    count = len(drawn.wrong)
    drawn.wrong = rng.integers(len(chosen), size=count)
    for k, star in enumerate(chosen):
        weights = confusable(sky[k], star)
        drawn.instead = np.where(drawn.wrong == k, rng.choice(len(weights), count, p=weights), drawn.instead)
    drawn.told_of_it = (drawn.wrong == len(chosen) - 1) | (rng.random(count) < 0.6)


def _sizes(rng: np.random.Generator, median: float, shape: int | tuple[int, int]) -> np.ndarray:
    """Return sizes that mistakes have: log-normal about a median, two thirds of them within a factor of 1.7; none has a sharp limit."""
    return np.asarray(rng.lognormal(np.log(median), 0.55, shape))


def confusable(sky: np.ndarray, star: int) -> np.ndarray:
    """Return how likely each star is taken for one, shape (stars,): sooner near, bright, of one constellation; up."""
    directions = vector(sky[:, 0], sky[:, 1])
    away = np.degrees(np.arccos(np.clip(directions @ directions[star], -1.0, 1.0)))
    alike = np.where(constellations() == constellations()[star], 2.5, 1.0)
    weights = 10.0 ** (-0.25 * stars()[1]) * alike / (1.0 + (away / 14.0) ** 4)
    weights = np.where((away > 2.0) & (sky[:, 1] > 5.0), weights, 0.0)
    return weights / weights.sum()
