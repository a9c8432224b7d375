"""Magnetic declination from the World Magnetic Model 2025 (NOAA and BGS), by pygeomag."""

from __future__ import annotations

import calendar
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from typing import Any, Literal

from companion.errors import MissingPart
from companion.sky.types import Moment

MODEL = "WMM2025"
FIRST_YEAR, LAST_YEAR = 2025.0, 2030.0

DeclinationWarning = Literal["outside-model-years", "blackout-zone", "caution-zone"]
"""``blackout-zone``: the horizontal field is under 2000 nT, no compass can be trusted; ``caution-zone``: under 6000 nT, hardly any."""


@dataclass(frozen=True)
class Declination:
    """Which way a compass needle points at a place and time."""

    declination_deg: float | None
    """Degrees from true north, east positive; None outside the model's years."""
    model: str
    """Name of the field model."""
    epoch_valid: bool
    """Whether the time lies in the model's years."""
    warning: DeclinationWarning | None
    """Why the figure can't be relied on, None when it can."""


def declination(moment: Moment) -> Declination:
    """Return the magnetic declination at a moment."""
    year = decimal_year(moment.time)
    if not FIRST_YEAR <= year <= LAST_YEAR:
        return Declination(None, MODEL, False, "outside-model-years")
    site = moment.site
    field = _model().calculate(glat=site.latitude_deg, glon=site.longitude_deg, alt=site.elevation_m / 1000.0, time=year)
    warning: DeclinationWarning | None = None
    if field.in_blackout_zone:
        warning = "blackout-zone"
    elif field.in_caution_zone:
        warning = "caution-zone"
    return Declination(float(field.d), MODEL, True, warning)


def decimal_year(time: datetime) -> float:
    """Return an aware time as a year and its fraction, in UTC."""
    utc = time.astimezone(UTC)
    elapsed = utc - datetime(utc.year, 1, 1, tzinfo=UTC)
    return utc.year + elapsed.total_seconds() / 86_400.0 / (366 if calendar.isleap(utc.year) else 365)


@lru_cache(maxsize=1)
def _model() -> Any:
    """Return the field model, read once."""
    try:
        from pygeomag import GeoMag  # noqa: PLC0415 - so that a missing library is a remedy, not a traceback
    except ModuleNotFoundError:
        raise MissingPart("the magnetic model is missing; mend it with: pip install pygeomag") from None
    return GeoMag(coefficients_file="wmm/WMM_2025.COF")
