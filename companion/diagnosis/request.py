"""What a diagnosis works on and what it answers: plain values.

Values are told minus true. For the tube at the start the mount is "told" azimuth 0 and altitude 0: the value is minus where it was.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from companion.diagnosis.causes import Cause
from companion.sky.types import Body, Site

MOST_MISSES = 8
"""More stars than that nobody aligns on, and a diagnosis would take many seconds."""

Faces = Literal["true_north", "magnetic_north", "unknown"]
Tube = Literal["level", "unknown"]
Corrections = Literal["zeros", "rotation", "none", "unknown"]
Message = Literal["failed", "success", "none"]


@dataclass(frozen=True)
class Miss:
    """Where the star lay, seen from where the telescope stopped."""

    body: Body
    """The star the mount offered."""
    time: datetime
    """Aware; the true time."""
    right_deg: float | None
    """(Azimuth of the star - of the stop) x cos(altitude of the stop); None where the star could not be seen."""
    up_deg: float | None
    """Altitude of the star - altitude of the stop; None where it could not be seen."""
    synced: bool = False
    """Whether the mount took in the previous star's correction before this slew; says nothing of the first."""
    sigma_deg: float | None = None
    """How exact the miss is, one standard deviation along each axis; None means 2 degrees + 20 % of it."""


@dataclass(frozen=True)
class DiagnoseRequest:
    """What ``diagnose`` works on. Site and times are the true ones."""

    site: Site
    time: datetime
    """Aware; when the mount was started."""
    misses: tuple[Miss, ...]
    """At least one, in the order of the slews."""
    declination_deg: float | None = None
    """Magnetic declination, east positive; None means by the field model."""
    faces: Faces = "true_north"
    """Which north the tube was set to face."""
    tube: Tube = "level"
    corrections: Corrections = "unknown"
    message: Message = "none"
    """What the mount said after its stars."""


@dataclass(frozen=True)
class CauseFound:
    """One cause, as likely as what was seen makes it."""

    cause: Cause
    probability: float
    """0..1; over all causes they sum to 1."""
    value: float | str | None
    """Told minus true: degrees, hours (``hour``), days (``date_…``); ``site``: degrees away; ``wrong_star``: the one really centred."""
    members: tuple[str, ...]
    """The cause's varieties that are possible, likeliest first."""
    member_probabilities: tuple[float, ...]
    """Of each member, given the cause; they sum to 1 where there are members."""
    member_values: tuple[float | str | None, ...]
    """The value if it is that member; ``value`` is the first of them where there are members."""
    fits_as_well: tuple[Cause, ...]
    """Other likely causes whose best guess explains these misses as well as this one's: only habit decides between them so far."""
    same_turn: tuple[Cause, ...]
    """Other likely causes that turn the sky about the same line: no further star will ever separate them but by their size."""
    star_named: str | None
    """For ``wrong_star``: the star that was meant."""


@dataclass(frozen=True)
class Diagnosis:
    """All causes, likeliest first, and what has been asked about them since."""

    causes: tuple[CauseFound, ...]
    asked: tuple[str, ...] = ()
    """Readings of the hand control that have been answered."""
