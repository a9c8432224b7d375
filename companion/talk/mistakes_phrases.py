"""What is said of finding out why the mount missed: hand measures back, readings of the hand control, causes and remedies."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from companion.diagnosis import About, Cause, Cure
from companion.equipment import CompassKind
from companion.talk.answers import CheckAnswer, ClockTimeAnswer, FacingAnswer, GroundAnswer, KnockAnswer, MissAnswer, ReadyAnswer
from companion.talk.saying import Ask, Receipt, Say


@dataclass(frozen=True)
class WhichWayAndHowFar(Ask[MissAnswer]):
    """Ask for the miss in hand measures."""

    star: str


@dataclass(frozen=True)
class WhereWasTheLastStar(Ask[MissAnswer]):
    """Ask for the last star's miss afterwards."""

    star: str


@dataclass(frozen=True)
class ThatStarIsDown(Say):
    """Say that the mount offers a star below the horizon."""

    star: str


@dataclass(frozen=True)
class MissHeard(Receipt):
    """Say the miss back in degrees, so that a wrong one is noticed."""

    right_deg: float | None
    up_deg: float | None
    turn_deg: float | None


@dataclass(frozen=True)
class CheckThis(Ask[CheckAnswer]):
    """Ask whether something is as it should be: on the hand control, at the mount, or in the sky."""

    about: About
    star: str
    instead: str | None = None
    """Another star it may have been, where that is asked."""
    compass: CompassKind | Literal["unknown"] = "unknown"


class IsItsTimeRight(Ask[CheckAnswer | ClockTimeAnswer]): ...


class WhichWayDidItFace(Ask[FacingAnswer]): ...


class IsTheGroundSoft(Ask[GroundAnswer]): ...


class WasItKnocked(Ask[KnockAnswer]): ...


class CorrectThat(Receipt): ...


class AnOrdinaryMiss(Say): ...


class NorthWasALittleOff(Say): ...


@dataclass(frozen=True)
class StillUnsure(Say):
    """Say that it isn't known yet, and what it is not."""

    found_right: tuple[Cure, ...]
    """What was found to be right, by what would mend it."""
    perhaps: tuple[Cause, ...] = ()
    """What it may be, where that is to be mended though nobody knows."""


class AnotherStarWillTell(Say): ...


@dataclass(frozen=True)
class FairlySureOfTheCause(Say):
    """Name a cause we are fairly sure of."""

    cause: Cause


@dataclass(frozen=True)
class OneOfTheseCauses(Say):
    """Name the likeliest causes, at most three, honestly."""

    causes: tuple[Cause, ...]
    sure: bool
    """Whether it is almost certainly one of them."""


class OneAnswerDoesntFit(Say): ...


@dataclass(frozen=True)
class ThatIsIt(Say):
    """Say that what was just found wrong is the cause, and what that was."""

    found_wrong: tuple[Cure, ...]
    """By what mends it."""
    sure: bool


class PerhapsOurOwnClock(Say): ...


@dataclass(frozen=True)
class KeyOurTimeAgain(Ask[ReadyAnswer]):
    """Say the corrected time once more, for the hand control has the wrong one from us."""

    hours: Literal[12, 24] | None


@dataclass(frozen=True)
class MendThese(Ask[ReadyAnswer]):
    """Say the least that must be done again, and wait for it."""

    cures: tuple[Cure, ...]
    star: str
    """The star to look for again, where one was confused."""
    compass: CompassKind | Literal["unknown"]
    minutes: int = 0
    """By how much the mount's clock is ahead, where it was read out and is wrong."""
