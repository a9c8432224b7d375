"""The sky's values: where and when we look, what we look at, and where it stands."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Annotated, Literal, TypeAlias
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from companion.errors import BadRequest
from companion.ranges import Range

LATITUDE_DEG = Range(-90, 90, "degrees, north positive")
LONGITUDE_DEG = Range(-180, 180, "degrees, east positive")
ELEVATION_M = Range(-500, 100_000, "metres above sea level")
Latitude: TypeAlias = Annotated[float, LATITUDE_DEG]
Longitude: TypeAlias = Annotated[float, LONGITUDE_DEG]
Elevation: TypeAlias = Annotated[float, ELEVATION_M]

Kind = Literal[
    "star", "double star", "carbon star", "variable star", "planet", "moon", "sun",
    "open cluster", "globular cluster", "galaxy", "nebula", "planetary nebula", "star cloud", "user",
]  # fmt: skip
"""What something is; ``user``: of the observer's own list."""


@dataclass(frozen=True)
class Site:
    """A place on the Earth. An impossible one is refused with ``BadRequest``."""

    latitude_deg: Latitude
    longitude_deg: Longitude
    elevation_m: Elevation = 0.0
    zone: str = "UTC"
    """IANA time zone name, e.g. ``Europe/Dublin``."""
    name: str | None = None
    """What the observer calls it; spoken at check-in."""

    def __post_init__(self) -> None:
        """Refuse what is no place on the Earth or no time zone."""
        for what, figure, within in (
            ("latitude", self.latitude_deg, LATITUDE_DEG),
            ("longitude", self.longitude_deg, LONGITUDE_DEG),
            ("elevation", self.elevation_m, ELEVATION_M),
        ):
            if figure not in within:
                raise BadRequest(f"the {what} {within.complaint(figure)}")
        zone_info(self.zone)


def checked_year(time: datetime) -> datetime:
    """Return a time that can be told in any zone; BadRequest for one at the very ends of the calendar."""
    if not 2 <= time.year <= 9998:
        raise BadRequest(f"the year {time.year} is too far away; check the date")
    return time


@dataclass(frozen=True)
class Moment:
    """A site and a time: all that a direction in the sky depends on. Always passed in; the sky has no clock."""

    site: Site
    time: datetime
    """Aware; any offset."""

    def __post_init__(self) -> None:
        """Refuse a time that doesn't say its offset, or one at the very ends of the calendar."""
        if self.time.utcoffset() is None:
            raise BadRequest(f"the time {self.time.isoformat()} has no offset; add one, e.g. {self.time.isoformat()}+00:00 or Z")
        checked_year(self.time)


@dataclass(frozen=True)
class Place:
    """Where a body that keeps its place among the stars is: ICRS at epoch J1991.25, with its motion from there."""

    ra_deg: float
    """Right ascension, degrees."""
    dec_deg: float
    """Declination, degrees."""
    pm_ra_mas: float = 0.0
    """Proper motion in right ascension times cos(declination), milliarcseconds a year."""
    pm_dec_mas: float = 0.0
    """Proper motion in declination, milliarcseconds a year."""
    parallax_mas: float = 0.0
    """Annual parallax, milliarcseconds; 0 where unknown or too small."""


@dataclass(frozen=True)
class Body:
    """Something in the sky that has a name."""

    name: str
    """The name we speak: the IAU name of a star (else ``HIP n``), else the common or catalogue name."""
    kind: Kind
    magnitude: float | None = None
    """Visual magnitude where it is fixed (stars, deep-sky objects): of a double star both together, of a variable one the middle of its
    range; None for the planets, the Moon and the Sun."""
    designation: str | None = None
    """A second name: a star's Bayer name in full (``Gamma Velorum``), a deep-sky object's catalogue number (``M 57``)."""
    place: Place | None = None
    """None for the Sun, the Moon and the planets: the ephemeris knows where they are."""
    size_arcmin: float | None = None
    """Longest extent of a deep-sky object; the separation of a double star."""
    width_arcmin: float | None = None
    """Shortest extent of a deep-sky object; None where only one is known."""
    color_index: float | None = None
    """B-V of a star: below 0 bluish, above 1 yellow to orange."""


@dataclass(frozen=True)
class Sight:
    """A body as it stands over a site at a moment."""

    body: Body
    time: datetime
    altitude_deg: float
    """Degrees above the horizon; negative when it is down."""
    azimuth_deg: float
    """Degrees from true north through east, 0 <= azimuth < 360."""
    magnitude: float | None
    """Visual magnitude at that moment, before the air dims it."""
    constellation: str
    """IAU abbreviation, e.g. ``Ori``."""


def zone_info(zone: str) -> ZoneInfo:
    """Return the rules of an IANA time zone; a name nobody knows is a ``BadRequest``."""
    try:
        return ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise BadRequest(f"I don't know a time zone called {zone!r}; use an IANA name such as Europe/Dublin") from None
