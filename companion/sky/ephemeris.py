"""The one place that opens the planetary ephemeris and counts time: JPL's DE421 as shipped in skyfield-data, never a download."""

from __future__ import annotations

import atexit
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from importlib.resources import files
from typing import Any

import numpy as np
from numpy.typing import NDArray
from skyfield.api import load, load_file, wgs84
from skyfield.errors import EphemerisRangeError

from companion.errors import BadRequest, MissingPart
from companion.sky.types import Site

Floats = NDArray[np.float64]

SUN_NAME, MOON_NAME = "sun", "moon"
"""What the ephemeris calls them."""
SECONDS_PER_DAY = 86_400.0

_BENT_BY = (10,)
"""Whose gravity bends the light, by the ephemeris's numbers: the Sun alone, as in the IAU's own routines (SOFA, iauAtciq). Jupiter
bends it by 0.016 arcseconds at its very edge (value from memory), which nobody sees here, for two thirds of the time it takes."""

# DE421 runs from 1899-07-29 to 2053-10-09; whole years inside it are what a person can remember.
_FIRST_YEAR, _LAST_YEAR = 1899, 2053
_FIRST, _LAST = datetime(1899, 7, 30, tzinfo=UTC), datetime(2053, 10, 9, tzinfo=UTC)
"""Its ends, the first a day late: a planet's light, and what bends it on the way, left up to hours earlier."""


def covers(time: datetime) -> bool:
    """Say whether the ephemeris holds the whole year of a time, so that the nights before and after it are known, too."""
    return _FIRST_YEAR < time.year < _LAST_YEAR


def out_of_range() -> BadRequest:
    """Return the complaint about a date that the ephemeris does not cover."""
    return BadRequest(f"I only know dates from {_FIRST_YEAR} to {_LAST_YEAR}; check the date")


@lru_cache(maxsize=1)
def kernel() -> Any:
    """Return the open ephemeris, the same one for the whole process."""
    try:
        opened = load_file(str(files("skyfield_data") / "data" / "de421.bsp"))
    except (ModuleNotFoundError, OSError):
        raise MissingPart("the planetary ephemeris de421.bsp is missing; mend it with: pip install skyfield-data") from None
    atexit.register(opened.close)
    return opened


def close() -> None:
    """Close the ephemeris file; the next question opens it again."""
    if kernel.cache_info().currsize:
        kernel().close()
        kernel.cache_clear()
        observer.cache_clear()
        _stood_at.cache_clear()


@lru_cache(maxsize=1)
def timescale() -> Any:
    """Return the timescale built from the tables inside skyfield itself."""
    return load.timescale(builtin=True)


@lru_cache(maxsize=16)
def observer(site: Site) -> Any:
    """Return the skyfield observer at a site: Earth plus the place on the WGS84 ellipsoid."""
    return kernel()["earth"] + wgs84.latlon(site.latitude_deg, site.longitude_deg, elevation_m=site.elevation_m)


@lru_cache(maxsize=64)
def instant(time: datetime) -> Any:
    """Return an aware datetime as a skyfield time; the same one while it is asked for again, since it keeps how the Earth stood then."""
    if not _FIRST_YEAR <= time.year <= _LAST_YEAR or not _FIRST <= time <= _LAST:
        raise out_of_range()
    return timescale().from_datetime(time)


def instants(start: datetime, seconds: Floats) -> Any:
    """Return skyfield times, shape (N,), at ``seconds``, shape (N,), of elapsed time after ``start``."""
    begin = instant(start)
    return timescale().tt_jd(begin.whole, begin.tt_fraction + seconds / SECONDS_PER_DAY)


def after(start: datetime, seconds: float) -> datetime:
    """Return the UTC datetime so many seconds after ``start``; across a leap second (the last was in 2016) it is one second off."""
    return start.astimezone(UTC) + timedelta(seconds=seconds)


def apparent(site: Site, target: Any, time: Any) -> Any:
    """Return the apparent topocentric position of a skyfield target (or ephemeris name) at a skyfield time.

    Aberration and the deflection of light by the Sun are in it; refraction is not.
    """
    return made_apparent(astrometric(site, target, time))


def made_apparent(position: Any) -> Any:
    """Return the apparent position of an astrometric one."""
    try:
        return position.apparent(deflectors=_BENT_BY)
    except EphemerisRangeError:
        # What bends the light is looked up where it was when the light passed it: on the first day that was the day before.
        raise out_of_range() from None


def astrometric(site: Site, target: Any, time: Any) -> Any:
    """Return the topocentric position of a skyfield target (or ephemeris name) where its light left it."""
    body = kernel()[target] if isinstance(target, str) else target
    try:
        return standpoint(site, time).observe(body)
    except EphemerisRangeError:
        raise out_of_range() from None


def standpoint(site: Site, time: Any) -> Any:
    """Return where in the solar system a site is at a skyfield time, of one moment or of many."""
    return _stood_at(site, time) if time.shape == () else observer(site).at(time)


@lru_cache(maxsize=64)
def _stood_at(site: Site, time: Any) -> Any:
    """Return the same for one moment, asked for of every body in turn."""
    return observer(site).at(time)
