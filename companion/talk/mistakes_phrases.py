"""What is said of finding out why the mount missed: hand measures back, readings of the hand control, causes and remedies."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from companion.diagnosis import Cause, Reading
from companion.equipment import CompassKind
from companion.talk.answers import ClockTimeAnswer, MissAnswer, ReadyAnswer, YesNoAnswer
from companion.talk.saying import Ask, Say


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
class MissHeard(Say):
    """Say the miss back in degrees, so that a wrong one is noticed."""

    right_deg: float | None
    up_deg: float | None


@dataclass(frozen=True)
class ReadItBack(Ask[YesNoAnswer]):
    """Ask whether the hand control shows what it should."""

    reading: Reading
    star: str


class AnOrdinaryMiss(Say): ...


@dataclass(frozen=True)
class MendThat(Ask[ReadyAnswer]):
    """Say what the hand control should show instead, and what must be done again after that."""

    reading: Reading
    star: str


class ReadMeItsTime(Ask[ClockTimeAnswer]): ...


@dataclass(frozen=True)
class MendItsClock(Ask[ReadyAnswer]):
    """Say how wrong the mount's clock is, and the time to key."""

    minutes: int


class NotSureAtAll(Say): ...


@dataclass(frozen=True)
class FairlySureOfTheCause(Say):
    """Name a cause we are fairly sure of."""

    cause: Cause


@dataclass(frozen=True)
class OneOfTwoCauses(Say):
    """Name two causes, honestly."""

    cause: Cause
    other: Cause


class PerhapsOurOwnClock(Say): ...


@dataclass(frozen=True)
class KeyOurTimeAgain(Ask[ReadyAnswer]):
    """Say the corrected time once more, for the hand control has the wrong one from us."""

    hours: Literal[12, 24] | None


@dataclass(frozen=True)
class MendIt(Ask[ReadyAnswer]):
    """Say the least that must be done again, and wait for it."""

    cause: Cause
    compass: CompassKind | Literal["unknown"]
