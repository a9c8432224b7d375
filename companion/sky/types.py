"""The sky's values: where and when we look, what we look at, and where it stands."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

Kind = Literal[
    "star", "double star", "planet", "moon", "sun", "open cluster", "globular cluster", "galaxy", "nebula", "planetary nebula"
]


@dataclass(frozen=True)
class Site:
    """A place on the Earth."""

    latitude_deg: float
    """Degrees, north positive."""
    longitude_deg: float
    """Degrees, east positive."""
    elevation_m: float = 0.0
    """Metres above sea level."""
    zone: str = "UTC"
    """IANA time zone name, e.g. ``Europe/Dublin``."""
    name: str | None = None
    """What the observer calls it; spoken at check-in."""


@dataclass(frozen=True)
class Moment:
    """A site and a time: all that a direction in the sky depends on. Always passed in; the sky has no clock."""

    site: Site
    time: datetime
    """Aware; any offset."""


@dataclass(frozen=True)
class Body:
    """Something in the sky that has a name."""

    name: str
    """The name we speak: the IAU name of a star, else the common or catalogue name."""
    kind: Kind
    magnitude: float | None = None
    """Visual magnitude where it is fixed (stars, deep-sky objects); None for what varies (planets, Moon, Sun)."""


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
