"""What was seen: one observation, as it was told at the eyepiece."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Annotated, Literal, TypeAlias

from companion.equipment import APERTURE_MM, EYEPIECE_MM, FOCAL_LENGTH_MM, Instrument
from companion.observing.target_choice import catalogue_number
from companion.ranges import Range
from companion.sky import Body, Kind, Moment, Site, sight

Seen: TypeAlias = Literal["easily", "just", "suspected", "not at all"]
"""How well it showed."""
Look: TypeAlias = Literal[
    "round", "long", "two", "colour", "bright", "faint", "misty", "single stars", "bright middle", "sharp edge", "dark patch", "detail",
]  # fmt: skip
"""How it looked, in the few words that are asked for; ``two``: a pair, seen apart."""
Mark: TypeAlias = Annotated[int, Range(1, 5, "(five is best)")]
"""How steady or how clear the air was. Five is best: the other way round than Antoniadi's scale of steadiness."""


@dataclass(frozen=True)
class Observation:
    """What was seen of one thing at one moment; None stands for what nobody told."""

    time: datetime
    """When the observer said so; aware."""
    site: Site
    target: str
    """Its name as we speak it."""
    kind: Kind
    altitude_deg: float
    """As it is seen, refraction in it."""
    azimuth_deg: float
    """From true north through east."""
    catalogue: str | None = None
    """Its catalogue number, such as ``M 57``."""
    aperture_mm: Annotated[float, APERTURE_MM] | None = None
    focal_length_mm: Annotated[float, FOCAL_LENGTH_MM] | None = None
    eyepiece_mm: Annotated[float, EYEPIECE_MM] | None = None
    """Focal length of the eyepiece."""
    seen: Seen | None = None
    steadiness: Mark | None = None
    clearness: Mark | None = None
    looks: tuple[Look, ...] = ()

    def is_of_the_same_look(self, other: Observation) -> bool:
        """Say whether another one tells of the same look at the same thing, more or less fully."""
        return (self.time, self.target) == (other.time, other.target)


def observed(body: Body, moment: Moment, instrument: Instrument, eyepiece_mm: float | None = None) -> Observation:
    """Return the observation of a body with what we know ourselves: time, place, direction and telescope."""
    there = sight(body, moment)
    return Observation(
        moment.time,
        moment.site,
        body.name,
        body.kind,
        round(there.altitude_deg, 2),
        round(there.azimuth_deg, 2) % 360.0,
        catalogue_number(body),
        instrument.aperture_mm,
        instrument.focal_length_mm,
        eyepiece_mm,
    )
