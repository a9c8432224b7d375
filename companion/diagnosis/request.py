"""What a diagnosis works on: plain values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from companion.sky.types import Body, Site

MOST_MISSES = 8
"""More stars than that nobody aligns on, and a diagnosis would take many seconds."""

Faces = Literal["true_north", "magnetic_north", "unknown"]
Tube = Literal["level", "unknown"]
Corrections = Literal["zeros", "rotation", "none", "unknown"]
Message = Literal["failed", "success", "none"]

TURN_SIGMA_DEG = 15.0
"""How exact a turn told by the body is where nobody says; judgement: "behind me" is good to a sixth of a right angle or so."""


@dataclass(frozen=True)
class Miss:
    """Where the star lay, seen from where the telescope stopped: told in degrees on the sky, as a turn of the body, or not at all."""

    body: Body
    """The star the mount offered."""
    time: datetime
    """Aware; the true time."""
    right_deg: float | None = None
    """(Azimuth of the star - of the stop) x cos(altitude of the stop); None where it was not told so."""
    up_deg: float | None = None
    """Altitude of the star - altitude of the stop; None where it was not told."""
    synced: bool = False
    """Whether the mount took in the previous star's correction before this slew; says nothing of the first."""
    sigma_deg: float | None = None
    """How exact degrees on the sky are, one standard deviation along each axis; None means 2 degrees + 20 % of the miss."""
    turn_deg: float | None = None
    """Azimuth of the star - of the stop, told by the body ("behind me"); then there is no ``right_deg``, and perhaps no ``up_deg``."""
    turn_sigma_deg: float = TURN_SIGMA_DEG
    """How exact that turn is, one standard deviation."""
    centred: bool = False
    """The star was centred freely and taken in by the mount; nobody told its miss."""

    @property
    def is_told(self) -> bool:
        """Whether anything is known of where the star lay."""
        return self.right_deg is not None or self.turn_deg is not None

    @property
    def is_unseen(self) -> bool:
        """Whether the star could not be seen."""
        return not (self.is_told or self.centred)


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

    @property
    def taken_in(self) -> tuple[bool, ...]:
        """For each slew, whether the mount took in the star before it; a star centred freely always is."""
        before = (None, *self.misses)
        return tuple(one is not None and (miss.synced or one.centred) for one, miss in zip(before, self.misses, strict=False))
