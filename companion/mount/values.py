"""What a mount tells and what it may be told, as plain frozen values. Degrees throughout; times are aware."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, TypeAlias

Standard = Literal["alpaca", "indi"]
Epoch = Literal["J2000", "of_date"]
"""What right ascension and declination refer to: the ICRS, or the true equator and equinox of the day (apparent places)."""
Capability = Literal["read", "set_time", "set_place", "sync", "slew", "slew_altaz", "abort", "nudge", "park", "track"]
CAPABILITIES: tuple[Capability, ...] = ("read", "set_time", "set_place", "sync", "slew", "slew_altaz", "abort", "nudge", "park", "track")
"""In the order they are told in."""

Why = Literal["unreachable", "unanswered", "refused", "nonsense", "cannot", "parked", "lost", "stopped", "late", "repeated"]
"""``unreachable``: nothing was sent, nobody is there. ``unanswered``: sent, but no whole answer came in time; it may have been done.
``refused``: the mount said no. ``nonsense``: the answer means nothing. ``cannot``: it isn't able to. ``parked``: not while parked.
``lost``: the line is down. ``stopped``: a stop came before. ``late``: its time ran out before it could be sent. ``repeated``: a
command of this id was sent before. Only after ``unanswered`` may something have happened."""


@dataclass(frozen=True)
class Failed:
    """What came of a call that failed. Calls end in this or in their value, never in an exception."""

    why: Why
    detail: str
    """For a log: what the library or the mount said."""


@dataclass(frozen=True)
class Equatorial:
    """A direction by right ascension and declination."""

    ra_deg: float
    dec_deg: float
    epoch: Epoch | None
    """None: as the mount counts, which doesn't say what that is."""


@dataclass(frozen=True)
class Horizontal:
    """A direction by altitude and azimuth, without refraction unless the mount adds it."""

    altitude_deg: float
    azimuth_deg: float
    """From true north through east."""


Direction: TypeAlias = Equatorial | Horizontal


@dataclass(frozen=True)
class Identity:
    """Who answers on the line and what it can."""

    standard: Standard
    name: str | None
    can: frozenset[Capability]
    """What it says it can; the order of ``CAPABILITIES`` is the one to tell it in."""
    epoch: Epoch | None
    """What its right ascension and declination refer to."""
    is_altazimuth: bool | None
    """Whether its axes are azimuth and altitude."""
    syncs_on: frozenset[Literal["equatorial", "horizontal"]] = frozenset()
    """Which directions it takes a sync in."""


@dataclass(frozen=True)
class MountState:
    """Where the mount says it points and what it does. None for what it doesn't tell."""

    at: datetime
    """Our clock, at the middle of the reading."""
    ra_deg: float | None = None
    dec_deg: float | None = None
    epoch: Epoch | None = None
    altitude_deg: float | None = None
    azimuth_deg: float | None = None
    slewing: bool | None = None
    tracking: bool | None = None
    parked: bool | None = None

    @property
    def equatorial(self) -> Equatorial | None:
        """Where it points by right ascension and declination, where it tells both."""
        return None if self.ra_deg is None or self.dec_deg is None else Equatorial(self.ra_deg, self.dec_deg, self.epoch)

    @property
    def horizontal(self) -> Horizontal | None:
        """Where it points by altitude and azimuth, where it tells both."""
        if self.altitude_deg is None or self.azimuth_deg is None:
            return None
        return Horizontal(self.altitude_deg, self.azimuth_deg)


@dataclass(frozen=True)
class Settings:
    """What time and place the mount believes in. None for what it doesn't tell."""

    at: datetime
    """Our clock when ``time`` was read, at the middle of the call."""
    time: datetime | None = None
    latitude_deg: float | None = None
    longitude_deg: float | None = None
    """East positive, -180..180."""
    elevation_m: float | None = None

    @property
    def time_error_s(self) -> float | None:
        """The mount's clock minus ours, seconds."""
        return None if self.time is None else (self.time - self.at).total_seconds()


@dataclass(frozen=True)
class MountReading:
    """All a mount tells."""

    identity: Identity
    state: MountState
    settings: Settings


@dataclass(frozen=True)
class Standstill:
    """A stop was sent and the mount took it."""

    after_s: float
    """From the call to the mount's answer, seconds."""
    confirmed: bool
    """Whether the mount said afterwards that it stands (or only tracks); False where it doesn't tell or still turned."""


def sensible(time: datetime) -> datetime | None:
    """Return a time that has room for any zone's offset, None for one at the very ends of the calendar."""
    return time if 2 <= time.year <= 9998 else None


class LineFault(Exception):
    """Raised within an adapter; whoever calls the adapter makes it the value ``failed``. It never leaves this room."""

    def __init__(self, failed: Failed) -> None:
        """Take what failed."""
        super().__init__(f"{failed.why}: {failed.detail}")
        self.failed = failed


def fault(why: Why, detail: object) -> LineFault:
    """Return the exception for a failure, its detail on one line of bounded length."""
    return LineFault(Failed(why, " ".join(str(detail).split())[:300]))
