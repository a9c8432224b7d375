"""The way to a target by hand: from a bright star by the eye, then by finder fields."""

from __future__ import annotations

from dataclasses import dataclass

from companion.talk.night_phrases import Told
from companion.talk.saying import Ask, Say


@dataclass(frozen=True)
class StartByHand(Ask[Told]):
    """Begin at a bright star, centred in the finder."""

    star: str


@dataclass(frozen=True)
class StepByEye(Ask[Told]):
    """Put the finder some way from what is centred, by the eye, and centre the brightest star there."""

    start_ra_deg: float
    start_dec_deg: float
    end_ra_deg: float
    end_dec_deg: float
    towards: str | None
    """A bright star in whose direction it lies; else the direction is told in up and down, left and right."""


@dataclass(frozen=True)
class StepByFinder(Ask[Told]):
    """Move the tube by parts of the finder's field: to the brightest star there, or to the target."""

    start_ra_deg: float
    start_dec_deg: float
    end_ra_deg: float
    end_dec_deg: float
    field_deg: float
    target: str | None
    """What is there then, None where it is only the next star."""


class BackToTheStarBefore(Ask[Told]):
    """A star of the way can't be found: back to the one before it, which was."""


class NoWayByHand(Say): ...
