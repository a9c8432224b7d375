"""What a mount's hand control asks for before it can find anything: date, time, zone, daylight saving, place and declination."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from companion.errors import MissingPart
from companion.places.declination import declination
from companion.sky.types import Moment, Site, zone_info

Side = Literal["N", "S", "E", "W"]


@dataclass(frozen=True)
class Sexagesimal:
    """A latitude or longitude as it is keyed in, to the nearest second."""

    degrees: int
    minutes: int
    seconds: int
    side: Side

    def __str__(self) -> str:
        """Return it as ``48°12'29"N``."""
        return f"{self.degrees}°{self.minutes:02d}'{self.seconds:02d}\"{self.side}"


@dataclass(frozen=True)
class MountSettings:
    """The figures to type in, all of the site's own zone."""

    local_date: str
    """``YYYY-MM-DD``."""
    local_time: str
    """``HH:MM:SS``."""
    utc_offset_hours: float
    """The total in force, east positive; not always whole."""
    standard_offset_hours: float
    """The offset without daylight saving; adding what daylight saving adds gives the total."""
    daylight_saving: bool
    """Whether the total exceeds the lesser of 15 January's and 15 July's offsets of that year."""
    latitude_dms: str
    """As ``48°12'29"N``."""
    longitude_dms: str
    """As ``16°22'23"E``."""
    declination_deg: float | None
    """Magnetic declination, east positive; None outside the model's years."""


def mount_settings(moment: Moment) -> MountSettings:
    """Return what to type into the hand control at a moment."""
    local = local_time(moment)
    total = _offset_hours(local)
    lesser = min(_offset_hours(local.replace(month=month, day=15, hour=12, fold=0)) for month in (1, 7))
    return MountSettings(
        local_date=f"{local:%Y-%m-%d}",
        local_time=f"{local:%H:%M:%S}",
        utc_offset_hours=total,
        # Where the clock is set back for a part of the year (Morocco's Ramadan), the total itself is what holds without daylight saving.
        standard_offset_hours=min(total, lesser),
        daylight_saving=total > lesser,
        latitude_dms=str(latitude(moment.site)),
        longitude_dms=str(longitude(moment.site)),
        declination_deg=declination(moment).declination_deg,
    )


def local_time(moment: Moment) -> datetime:
    """Return the moment's time in the site's own zone."""
    return moment.time.astimezone(zone_info(moment.site.zone))


def latitude(site: Site) -> Sexagesimal:
    """Return a site's latitude as it is keyed in."""
    return _sexagesimal(site.latitude_deg, "N", "S")


def longitude(site: Site) -> Sexagesimal:
    """Return a site's longitude as it is keyed in."""
    return _sexagesimal(site.longitude_deg, "E", "W")


def _sexagesimal(angle_deg: float, positive: Side, negative: Side) -> Sexagesimal:
    seconds = math.floor(abs(angle_deg) * 3600.0 + 0.5)
    side = positive if angle_deg >= 0.0 or seconds == 0 else negative
    return Sexagesimal(seconds // 3600, seconds // 60 % 60, seconds % 60, side)


def zone_at(latitude_deg: float, longitude_deg: float) -> str:
    """Return the IANA name of the time zone at a place, by borders true to about 100 m; ``Etc/GMT+3`` and the like at sea."""
    Site(latitude_deg, longitude_deg)  # refuses what is no place
    try:
        from tzfpy import get_tz  # noqa: PLC0415 - so that a missing library is a remedy, not a traceback
    except ModuleNotFoundError:
        raise MissingPart("the time-zone borders are missing; mend it with: pip install tzfpy") from None
    return get_tz(longitude_deg, latitude_deg) or _nautical_zone(longitude_deg)


def _nautical_zone(longitude_deg: float) -> str:
    """Return the zone of the hour at sea; IANA counts these westward."""
    hours_west = -round(longitude_deg / 15.0)
    return f"Etc/GMT{hours_west:+d}" if hours_west else "Etc/GMT"


def _offset_hours(local: datetime) -> float:
    """Return how far an aware time is ahead of UTC, hours."""
    return (local.utcoffset() or timedelta()) / timedelta(hours=1)
