"""What is said where a mount is on the line: how the line is, what the mount believes, and of turning it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from companion.talk.answers import TurnAnswer, TurningAnswer, YesNoAnswer
from companion.talk.saying import Ask, Receipt, Say

ClockFault: TypeAlias = Literal["hours", "date", "clock"]
"""Whole quarters of an hour off, as by a wrong zone; days off; or anything else."""
PlaceFault: TypeAlias = Literal["longitude-side", "latitude-side", "longitude", "latitude", "place"]
"""East and west, or north and south, mixed up; one of the two figures wrong, or both."""
NotTurned: TypeAlias = Literal[
    "sun",
    "horizon",
    "limits",
    "unknown",
    "hands-off",
    "unheard",
    "parked",
    "turning",
    "slow",
    "journal",
    "interrupted",
    "cannot",
    "unaligned",
    "line",
    "refused",
]
"""Why the mount isn't turned. ``unheard``: we could not be told to halt it. ``interrupted``: we were cut off when it was to be sent."""
Halted: TypeAlias = Literal["asked", "off-course", "near-sun", "silent", "unheard", "line", "refused", "short", "unwatched"]
"""Why it was halted on its way.

``unwatched``: it was found turning, and nobody knew where to. ``short``: it stands elsewhere, and we don't know why.
"""


class MountOnTheLine(Say): ...


class MountNotThere(Say): ...


@dataclass(frozen=True)
class MountLineLost(Say):
    """Tell that the mount doesn't answer any more, and what halts it by hand where it may be turning."""

    may_turn: bool


class MountLineBack(Say): ...


class ItStandsStill(Receipt): ...


class CanNotHaltIt(Say): ...


class WatchIt(Say):
    """Tell that it took the halt, but doesn't say that it stands."""


class HandsOffIt(Say): ...


class HandsOnAgain(Say): ...


class ItHasTheRightOnes(Say):
    """Tell that the mount's time and place are right."""


@dataclass(frozen=True)
class MountBelieves(Say):
    """Tell what is wrong in the time and place the mount believes in."""

    clock: ClockFault | None
    clock_off: float
    """Hours, days or minutes ahead of ours, by the kind."""
    place: PlaceFault | None
    place_off_km: float


class GiveItTimeAndPlace(Ask[YesNoAnswer]): ...


class ItHasThemNow(Say): ...


class ItDidNotTakeThem(Say): ...


@dataclass(frozen=True)
class WhereItPoints(Say):
    """Tell where the mount on the line says that it points, in airless degrees; None where it doesn't say."""

    altitude_deg: float | None
    azimuth_deg: float | None
    turns: bool = False


class NobodyTellsWhereItPoints(Say):
    """Tell that there is no mount on the line to be asked."""


@dataclass(frozen=True)
class ToldItTheStar(Say):
    """Tell that the mount was told it points at this star."""

    star: str


@dataclass(frozen=True)
class WhatTheReadingsTell(Say):
    """Tell how well the readings at the stars agree, and how far the base leans where that shows."""

    rms_deg: float
    tilt_deg: float | None


@dataclass(frozen=True)
class MayITurnThere(Ask[TurnAnswer]):
    """Announce a turn, where it ends and where to stand, and ask for it."""

    name: str


class WhileItTurns(Ask[TurningAnswer]): ...


class ItSaysItTurns(Ask[TurningAnswer]):
    """Ask again where the observer says that it stands and the line says that it turns."""


FIT_TOGETHER_DEG = 1.0
"""Readings that are farther off than this don't tell of one sky: one was taken at another star. Judgement."""


class ItMayStillTurn(Say):
    """Tell of a slew that we were cut off from, and can't see the end of, what halts it by hand, and what to answer."""


class DoesItStandStill(Ask[YesNoAnswer]):
    """Ask where the observer speaks of it as standing and the line says that it turns."""


@dataclass(frozen=True)
class IsItReallyThat(Ask[YesNoAnswer]):
    """Ask where the observer says that it points at a thing and it reads itself to be far from there."""

    name: str
    away_deg: float


@dataclass(frozen=True)
class NotTurning(Say):
    """Tell why it isn't turned."""

    why: NotTurned


@dataclass(frozen=True)
class WasHalted(Say):
    """Tell why it stands where it stands."""

    why: Halted
