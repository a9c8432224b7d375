"""The night at the telescope: targets introduced, found, told about and left, and what the sky does meanwhile.

Every question here takes the same answers: whatever was said last, the observer may say anything.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, TypeAlias

from companion.sky import Kind
from companion.sky.bands import CompassPoint
from companion.talk.answers import FinderWidthAnswer, NudgeAnswer, ToldFigureAnswer, TurnAnswer
from companion.talk.night_answers import MilkyWayAnswer, ShowMeAnswer, StarCountAnswer, TargetAnswer
from companion.talk.saying import Ask, Receipt, Say

Told: TypeAlias = TargetAnswer | ShowMeAnswer | TurnAnswer | ToldFigureAnswer | NudgeAnswer
Wish: TypeAlias = Literal[
    "anything",
    "planets",
    "doubles",
    "clusters",
    "globulars",
    "open-clusters",
    "galaxies",
    "nebulae",
    "planetaries",
    "red-stars",
    "own-list",
    "for-children",
    "brighter",
    "easier",
    "harder",
    "near-here",
]
"""What the observer would like to see next."""


# --- a target ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class IntroduceTarget(Ask[Told]):
    """Introduce a target: its name, its number (what is keyed into a hand control), what it is, where it stands, which eyepiece."""

    target: str
    kind: Kind
    eyepiece_mm: float | None
    """The one to find it with; None where the eyepieces aren't known."""
    change: bool
    """Whether another one may be in: with the first target, and after one that wanted more power. Else nothing is said of it."""


@dataclass(frozen=True)
class FindTarget(Ask[Told]):
    """Say again where a target is, from where it is now."""

    target: str
    kind: Kind


@dataclass(frozen=True)
class LookAtIt(Ask[Told]):
    """It is found: say what to look for."""

    target: str
    eyepiece_mm: float | None
    """Another than the one it was found with; None to stay with that."""
    told: bool = False
    """Whether what a person sees of it was said just before."""


@dataclass(frozen=True)
class WhatToSee(Ask[Told]):
    """Say what a person sees of it."""

    target: str


@dataclass(frozen=True)
class MoreAboutIt(Ask[Told]):
    """Tell how far it is, its size, and when it stands best; asked for again, what it really is, and how bright."""

    target: str
    again: bool = False
    distance_told: bool = False
    """Whether somebody asked for its distance just before."""


@dataclass(frozen=True)
class EyepieceForIt(Ask[Told]):
    """Say which eyepiece to take."""

    target: str
    eyepiece_mm: float | None
    """One that shows it better than the one it is found with; None where there is none, or it isn't known."""
    finding_mm: float | None
    """The one it is found with; None where the eyepieces aren't known."""
    is_only: bool
    """Whether there is no other."""


@dataclass(frozen=True)
class HowWellItStands(Ask[Told]):
    """Say whether it is well placed, and when it is better."""

    target: str


@dataclass(frozen=True)
class FilterForIt(Ask[Told]):
    """Say whether a filter helps."""

    target: str


class EnjoyIt(Ask[Told]): ...


class SayNextTarget(Ask[Told]): ...


# --- where nothing shows: step by step ---------------------------------------------------------------------------------


@dataclass(frozen=True)
class CheckTheFinder(Ask[Told]):
    """Say where the finder must point."""

    target: str


class LowestPower(Ask[Told]): ...


class LookBeside(Ask[Told]): ...


@dataclass(frozen=True)
class HowItLooks(Ask[Told]):
    """Say how it looks, and how large."""

    target: str
    kind: Kind


class SweepForIt(Ask[Told]): ...


class LeaveItForLater(Ask[Told]): ...


# --- what comes next --------------------------------------------------------------------------------------------------


class ForLater(Receipt): ...


class NotAgain(Receipt): ...


@dataclass(frozen=True)
class AtTheTopNow(Say):
    """Promise what stands at the top of the sky, where it is hard to steer, for when it has left it."""

    target: str
    until: datetime


@dataclass(frozen=True)
class NoMoreOfThem(Receipt):
    """Say that nothing more of what was wished for stands well."""

    wish: Wish


@dataclass(frozen=True)
class NoneOfThem(Ask[Told]):
    """Say that there is none, and stay."""

    wish: Wish


class NothingNow(Ask[Told]): ...


class NothingBefore(Ask[Told]): ...


@dataclass(frozen=True)
class NotUpNow(Ask[Told]):
    """Say when something rises that was asked for by name."""

    name: str


@dataclass(frozen=True)
class HiddenNow(Ask[Told]):
    """Say that something asked for by name stands behind trees or a roof."""

    name: str


@dataclass(frozen=True)
class NoLongerThere(Say):
    """Say that a target gone back to can't be seen any more."""

    target: str


class TooNearTheSun(Ask[Told]): ...


@dataclass(frozen=True)
class HowManySeen(Ask[Told]):
    """Count what was seen, and name the last few; of what was passed by say only how many."""

    seen: tuple[str, ...]
    passed: int


@dataclass(frozen=True)
class StillToCome(Ask[Told]):
    """Name a few that stand well."""

    targets: tuple[str, ...]


class HowDoesTheMilkyWayShow(Ask[MilkyWayAnswer | TargetAnswer | ShowMeAnswer | ToldFigureAnswer]): ...


@dataclass(frozen=True)
class HowManyStarsInside(Ask[StarCountAnswer | TargetAnswer | ShowMeAnswer | ToldFigureAnswer]):
    """Ask how many stars show inside a figure of bright ones."""

    corners: tuple[str, ...]


@dataclass(frozen=True)
class SkyIsSoDark(Ask[Told]):
    """Take how dark the sky is, as a meter shows it."""

    sky_mag_arcsec2: float


@dataclass(frozen=True)
class FinderIsSoWide(Ask[Told]):
    """Take how much sky the finder shows."""

    field_deg: float


@dataclass(frozen=True)
class EyepieceIsIn(Ask[Told]):
    """Take which eyepiece was put in."""

    eyepiece_mm: float


class HowWideForTheWay(Ask[FinderWidthAnswer | TargetAnswer | ShowMeAnswer | ToldFigureAnswer]):
    """Ask how much sky the finder shows, before the first way by hand."""


@dataclass(frozen=True)
class WayGoesByThat(Receipt):
    """Take how much sky the finder shows while a way by hand is under way, which is measured anew."""

    field_deg: float


# --- the sky and the things -------------------------------------------------------------------------------------------


class MoonAndTargets(Ask[Told]): ...


class AwayFromTheCloud(Receipt): ...


@dataclass(frozen=True)
class KeepTo(Receipt):
    """Keep to one side of the sky."""

    point: CompassPoint


@dataclass(frozen=True)
class NothingSoLow(Receipt):
    """Something stands before the target: nothing as low is offered on that side any more."""

    point: CompassPoint


class ClearAgain(Receipt): ...


class DewOnTheGlass(Ask[Told]): ...


class BatteryFading(Ask[Told]): ...


class GetItSharp(Ask[Told]): ...


class LetItSettle(Ask[Told]): ...


class EyesDazzled(Ask[Told]): ...


class WhyUpsideDown(Ask[Told]): ...


@dataclass(frozen=True)
class NoneInDirection(Ask[Told]):
    """Say that nothing new on one side of the sky stands well."""

    point: CompassPoint


@dataclass(frozen=True)
class NoneInConstellation(Ask[Told]):
    """Say that nothing new of a constellation stands well: its three letters."""

    constellation: str


@dataclass(frozen=True)
class OnABreak(Ask[Told]):
    """Grant a break."""

    until: datetime


class SunIsUp(Say): ...


# --- at a pause -------------------------------------------------------------------------------------------------------


class BreakIsOver(Say): ...


class MoonRisesSoon(Say): ...


class DawnIsNear(Say): ...


class ItIsMidnight(Say): ...


class LookForDew(Say): ...


@dataclass(frozen=True)
class PlanetStandsBest(Say):
    """Say that a planet is as high as it gets."""

    target: str
