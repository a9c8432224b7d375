"""Every way a set-up may have gone wrong, as a list of guesses: one mistake each, of one size, with its share of the cause's weight.

Sizes that run on (an azimuth, a latitude) are a grid; ``slack`` says how wide each of its cells is, and the likelihood spreads the guess
over it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta, timezone

import numpy as np

from companion.diagnosis.causes import Cause
from companion.diagnosis.request import DiagnoseRequest
from companion.sky.attitude import Floats, direction, separation_deg, wrapped
from companion.sky.types import Moment

DEGREES_PER_DAY = 360.98564736629
"""How far the sky turns in a day of the clock (IAU 1982 sidereal time, linear term)."""
DEGREES_PER_HOUR = DEGREES_PER_DAY / 24.0

COMPASS_POINTS = ("north", "north_east", "east", "south_east", "south", "south_west", "west", "north_west")
_CELL = 1.0 / np.sqrt(12.0)  # standard deviation of a uniform cell of width 1
_LOG_WIDTH = 0.6  # of the sizes of mistakes, by their natural logarithm; judgement
_TOLD_OF_IT = 0.6  # a miss of a star confused is mostly told of the one that is centred then; judgement
_MOST_FOR_BOTH = 4  # with more misses than this one axis at a time is slip enough to try: the many pairs would take seconds
_SLIPS = np.array([4.0, 7.0, 10.0, 14.0, 18.0, 23.0, 28.0, 34.0, 40.0, 48.0, 56.0, 65.0, 75.0, 90.0, 105.0, 120.0, 140.0, 160.0])


@dataclass(frozen=True)
class Guess:
    """One mistake of one size."""

    cause: Cause
    weight: float
    """Share of the cause's prior; over all guesses of a cause they sum to 1."""
    value: float | str | None = None
    """Told minus true in the cause's unit, or the star really centred; degrees are refined afterwards where ``slack`` says so."""
    member: str = ""
    start_deg: tuple[float, float] = (0.0, 0.0)
    """Azimuth and altitude of the tube at the start as seen from the base (truly, where it is upright), beyond the small errors."""
    clock_deg: float = 0.0
    """Sidereal time told minus true."""
    days: float = 0.0
    """Date and time told minus true: what moves (Moon, planets) is elsewhere then."""
    latitude_deg: float = 0.0
    """Latitude told minus true."""
    lean_deg: tuple[float, float] = (0.0, 0.0)
    """How far the base leans north and east."""
    swap: tuple[str, int, bool] | None = None
    """Star named, number of the one centred in its place, and whether the miss was given for that one too."""
    slip: tuple[int, float, float] | None = None
    """Slew during which the clutches slipped (from 0), and by how much in azimuth and altitude."""
    slack_deg: tuple[tuple[str, float], ...] = ()
    """Widths (standard deviations) of this guess in the small errors of the mount model, by their names."""


@dataclass(frozen=True)
class Mistakable:
    """What may have been taken for the stars the mount offered."""

    names: tuple[str, ...]
    """Of the m bright stars and planets."""
    magnitudes: Floats
    """Shape (m,)."""
    constellations: tuple[str, ...]
    """Their IAU abbreviations."""
    directions: Floats
    """Shape (n, m, 3): true directions at the time of each of the n misses."""


def all_guesses(request: DiagnoseRequest, declination_deg: float | None, sky: Floats, others: Mistakable) -> list[Guess]:
    """Return every guess for n misses of stars at true directions ``sky``, shape (n, 3)."""
    moment = Moment(request.site, request.time)
    site = moment.site
    return [
        Guess("none", 1.0),
        Guess("reversed", 1.0, 180.0, start_deg=(180.0, 0.0)),
        *_start_azimuth(),
        *_start_altitude(),
        *_magnetic_declination(declination_deg),
        *_base_tilt(),
        *_hour(),
        *_date_day(),
        *_date_month(moment),
        *_latitude(site.latitude_deg),
        *_longitude(site.longitude_deg),
        *_site(site.latitude_deg, site.longitude_deg),
        *_wrong_star(request, sky, others),
        *_slipped(len(request.misses)),
    ]


def _shares(weights: Floats) -> Floats:
    """Return weights that sum to 1."""
    return np.asarray(weights / np.sum(weights))


def _as_large(sizes: Floats, median: float) -> Floats:
    """Return how likely a mistake is of each size either way, not normalised: log-normal, so that none has a sharp limit; judgement.

    Half of all are below the median, two thirds within a factor of 1.8 of it; what lies below a tenth of it nobody notices.
    """
    large = np.maximum(np.abs(sizes), 0.1 * median)
    return np.asarray(np.exp(-0.5 * (np.log(large / median) / _LOG_WIDTH) ** 2) / large)


def _start_azimuth() -> Iterator[Guess]:
    """Yield tubes that faced some other way: by a fist or four, at worst anywhere but backwards."""
    sizes = np.arange(-178.5, 180.0, 3.0)
    for size, share in zip(sizes, _shares(_as_large(sizes, 25.0)), strict=True):
        yield Guess("start_azimuth", float(share), -float(size), start_deg=(float(size), 0.0), slack_deg=(("start_azimuth", 3.0 * _CELL),))


def _start_altitude() -> Iterator[Guess]:
    """Yield tubes that were not level: more often raised than drooping."""
    sizes = np.arange(-45.0, 91.0, 2.0)
    # A tube near the zenith would swing over the top and look like one that faced backwards: nobody calls that level.
    shares = _shares(_as_large(sizes, 16.0) * np.where(sizes > 0, 0.65, 0.35))
    for size, share in zip(sizes, shares, strict=True):
        yield Guess(
            "start_altitude", float(share), -float(size), start_deg=(0.0, float(size)), slack_deg=(("start_altitude", 2.0 * _CELL),)
        )


def _magnetic_declination(declination_deg: float | None) -> Iterator[Guess]:
    """Yield a compass read as if its needle showed true north, corrected twice or to the wrong side. Unknown: within some ten degrees."""
    if declination_deg is None:
        sizes = np.arange(-30.0, 31.0, 2.0)
        for size, share in zip(sizes, _shares(np.exp(-0.5 * (sizes / 10.0) ** 2)), strict=True):
            yield Guess("magnetic_declination", float(share), -float(size), "not_applied", start_deg=(float(size), 0.0))
        return
    for member, share, times in (("not_applied", 0.52, 1.0), ("applied_twice", 0.22, -1.0), ("wrong_sign", 0.26, 2.0)):
        start = times * declination_deg
        yield Guess("magnetic_declination", share, -start, member, start_deg=(start, 0.0))


def _base_tilt() -> Iterator[Guess]:
    """Yield bases that lean to one of the eight compass points. The tube was laid level along itself, or by the marks of the base."""
    sizes = np.array([5.0, 7.0, 9.0])  # besides the everyday lean, which blurs them
    shares = _shares(np.array([0.8, 1.0, 0.7]))
    for i, point in enumerate(COMPASS_POINTS):
        north, east = np.cos(i * np.pi / 4.0), np.sin(i * np.pi / 4.0)
        for size, share in zip(sizes, shares, strict=True):
            lean = (float(size * north), float(size * east))
            # Along the line it leans by a cell of the size; across it by what separates two compass points at that size.
            along, across = 2.0 * _CELL, size * np.pi / 4.0 * _CELL
            slack = (
                ("tilt_north", float(np.hypot(along * north, across * east))),
                ("tilt_east", float(np.hypot(along * east, across * north))),
            )
            for start in ((0.0, lean[0]), (0.0, 0.0)):
                part = float(share) / (2.0 * len(COMPASS_POINTS))
                yield Guess("base_tilt", part, float(size), point, start_deg=start, lean_deg=lean, slack_deg=slack)


def _clock(cause: Cause, share: float, hours: float, member: str, slack_hours: float = 0.0) -> Guess:
    """Return a guess that the clock was off by so many hours."""
    slack = (("clock", slack_hours * DEGREES_PER_HOUR),) if slack_hours else ()
    return Guess(cause, share, hours, member, clock_deg=hours * DEGREES_PER_HOUR, days=hours / 24.0, slack_deg=slack)


def _hour() -> Iterator[Guess]:
    """Yield clocks off by part of a day: daylight saving by an hour, the zone by hours, noon for midnight, or simply set wrong."""
    for hours in (-1.0, 1.0):
        yield _clock("hour", 0.21, hours, "daylight_saving")
    zones = np.array([h / 2.0 for h in range(-26, 29) if h not in (-1, 0, 1)])
    weights = np.where(zones % 1.0 == 0.0, 1.0, 0.1) * np.exp(-np.abs(zones) / 9.0)
    for hours, share in zip(zones, 0.29 * _shares(weights), strict=True):
        yield _clock("hour", float(share), float(hours), "time_zone")
    for hours in (-12.0, 12.0):
        yield _clock("hour", 0.065, hours, "am_pm")
    clocks = np.arange(-4.0, 4.01, 0.1)
    for hours, share in zip(clocks, 0.16 * _shares(_as_large(clocks, 0.8)), strict=True):
        yield _clock("hour", float(share), float(hours), "clock", 0.1 * _CELL)


def _date(cause: Cause, share: float, days: float, member: str = "") -> Guess:
    """Return a guess that the date was off by whole days; the sky of another date comes about four minutes a day earlier."""
    return Guess(cause, share, days, member, clock_deg=float(wrapped(days * DEGREES_PER_DAY)), days=days)


def _date_day() -> Iterator[Guess]:
    """Yield days typed wrong or left at yesterday."""
    days = np.array([d for d in range(-20, 21) if d])
    shares = 0.25 * _shares(np.exp(-np.abs(days) / 5.0))
    for day, share in zip(days, shares, strict=True):
        yield _date("date_day", float(share) + (0.375 if abs(day) == 1 else 0.0), float(day))


def _date_month(moment: Moment) -> Iterator[Guess]:
    """Yield months that are wrong, or day and month in each other's place where the day can be a month."""
    zone = timezone(timedelta(hours=round(moment.site.longitude_deg / 15.0)))
    today = moment.time.astimezone(zone).date()
    swappable = today.day <= 12 and today.day != today.month
    months = [today.replace(month=m, day=min(today.day, 28)) for m in range(1, 13) if m != today.month]
    weights = np.array([0.16 if min((m.month - today.month) % 12, (today.month - m.month) % 12) == 1 else 0.08 for m in months])
    for month, share in zip(months, (0.5 if swappable else 1.0) * _shares(weights), strict=True):
        yield _date("date_month", float(share), float((month - today.replace(day=min(today.day, 28))).days), "month")
    if swappable:
        swapped = today.replace(day=today.month, month=today.day)
        yield _date("date_month", 0.5, float((swapped - today).days), "day_month_swapped")


def _latitude(true_deg: float) -> Iterator[Guess]:
    """Yield north for south, or figures typed wrong."""
    yield Guess("latitude", 0.5, -2.0 * true_deg, "sign", latitude_deg=-2.0 * true_deg)
    told = np.arange(-89.0, 90.0, 2.0)
    off = told - true_deg
    shares = 0.5 * _shares(_as_large(off, 17.0))
    for error, share in zip(off, shares, strict=True):
        yield Guess("latitude", float(share), float(error), "value", latitude_deg=float(error), slack_deg=(("latitude", 2.0 * _CELL),))


def _longitude(true_deg: float) -> Iterator[Guess]:
    """Yield east for west, or figures typed wrong."""
    sign = float(wrapped(-2.0 * true_deg))
    yield Guess("longitude", 0.5, sign, "sign", clock_deg=sign)
    off = np.arange(-178.5, 180.0, 3.0)
    shares = 0.5 * _shares(_as_large(off, 22.0))
    for error, share in zip(off, shares, strict=True):
        yield Guess("longitude", float(share), float(error), "value", clock_deg=float(error), slack_deg=(("clock", 3.0 * _CELL),))


def _site(latitude_deg: float, longitude_deg: float) -> Iterator[Guess]:
    """Yield another place altogether: the figures swapped, both signs wrong, or somewhere people live, sooner near than far."""
    latitudes, longitudes = (x.ravel() for x in np.meshgrid(np.arange(-56.25, 70.0, 7.5), np.arange(-176.25, 180.0, 7.5), indexing="ij"))
    off = np.hypot(latitudes - latitude_deg, wrapped(longitudes - longitude_deg) * np.cos(np.radians(latitude_deg)))
    both = np.minimum(np.abs(latitudes - latitude_deg), np.abs(wrapped(longitudes - longitude_deg)))
    weights = np.cos(np.radians(latitudes)) * (np.exp(-off / 30.0) + 1.0) * np.where(both < 3.75, 0.5, 1.0)
    swapped, mirrored = (float(np.clip(longitude_deg, -90.0, 90.0)), latitude_deg), (-latitude_deg, -longitude_deg)
    told = np.array([swapped, mirrored, *zip(latitudes, longitudes, strict=True)])
    away = separation_deg(direction(told[:, 1], told[:, 0]), direction(longitude_deg, latitude_deg))
    east, north = wrapped(told[:, 1] - longitude_deg), told[:, 0] - latitude_deg
    spread = (("clock", 0.4 * 7.5), ("latitude", 0.4 * 7.5))  # wider than a cell, lest there be gaps between them
    shares = [0.1, 0.05, *(0.85 * _shares(weights)).tolist()]
    for i, (share, value, clock, latitude) in enumerate(zip(shares, away.tolist(), east.tolist(), north.tolist(), strict=True)):
        yield Guess("site", share, value, clock_deg=clock, latitude_deg=latitude, slack_deg=spread if i > 1 else ())


def _wrong_star(request: DiagnoseRequest, directions: Floats, others: Mistakable) -> Iterator[Guess]:
    """Yield other stars centred: the miss was given for it, or rightly and then the wrong one was centred."""
    taken_in = (*request.taken_in[1:], False)
    stars = [miss.body.name for miss in request.misses]
    # One that was never seen and never taken in was not taken for another.
    possible = [k for k, miss in enumerate(request.misses) if (miss.is_told or taken_in[k]) and miss.body.name not in stars[:k]]
    for k in possible:
        weights = _confusable(directions[k], others.directions[k], others, stars[k])
        for i in np.flatnonzero(weights):
            share = float(weights[i]) / len(possible)
            both = request.misses[k].is_told and taken_in[k]
            yield Guess("wrong_star", share * (_TOLD_OF_IT if both else 1.0), others.names[i], swap=(stars[k], int(i), True))
            if both:
                yield Guess("wrong_star", share * (1.0 - _TOLD_OF_IT), others.names[i], swap=(stars[k], int(i), False))


def _confusable(star: Floats, directions: Floats, others: Mistakable, name: str) -> Floats:
    """Return how likely each of m others is taken for a star, shape (m,), by judgement.

    Sooner what stands near, in the same constellation, and bright: who looks for a bright star settles on a bright one.
    """
    away = separation_deg(directions, star)
    alike = np.array(others.constellations) == dict(zip(others.names, others.constellations, strict=True)).get(name)
    weights = np.where(alike, 2.5, 1.0) * 10.0 ** (-0.25 * others.magnitudes) / (1.0 + (away / 15.0) ** 4)
    weights = np.where((away > 0.5) & (directions[:, 2] > 0.03), weights, 0.0)
    return weights / max(float(np.sum(weights)), 1e-300)


def _slipped(count: int) -> Iterator[Guess]:
    """Yield clutches that let go between two stars: one axis or both, sooner a little than a lot."""
    for k in range(1, count):
        part = 1.0 / (count - 1)
        for size, width, share in _slip_sizes(160.0):
            yield Guess("slipped", 0.35 * part * share, -size, slip=(k, size, 0.0), slack_deg=(("slip_azimuth", width * _CELL),))
        for size, width, share in _slip_sizes(65.0):
            yield Guess("slipped", 0.35 * part * share, -size, slip=(k, 0.0, size), slack_deg=(("slip_altitude", width * _CELL),))
        # Pairs of sizes are many, so their cells are twice as wide.
        for azimuth, wide, first in _slip_sizes(160.0, every=2) if count <= _MOST_FOR_BOTH else ():
            for altitude, high, second in _slip_sizes(65.0, every=2):
                value = -(azimuth if abs(azimuth) > abs(altitude) else altitude)
                both = (("slip_azimuth", wide * _CELL), ("slip_altitude", high * _CELL))
                yield Guess("slipped", 0.3 * part * first * second, value, slip=(k, azimuth, altitude), slack_deg=both)


def _slip_sizes(most_deg: float, every: int = 1) -> Iterator[tuple[float, float, float]]:
    """Yield sizes either way, degrees, the widths of their cells, and their shares."""
    one_way = _SLIPS[most_deg >= _SLIPS][::every]
    sizes = np.concatenate([-one_way[::-1], one_way])
    widths = np.concatenate([np.gradient(one_way)[::-1], np.gradient(one_way)])
    shares = _shares(widths * _as_large(sizes, 17.0))
    yield from zip(sizes.tolist(), widths.tolist(), shares.tolist(), strict=True)
