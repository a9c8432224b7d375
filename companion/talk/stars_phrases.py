"""What is said of the reference stars: which one, where it is, what it looks like, what is said about it, and the mount's verdict."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, TypeAlias

from companion.equipment import StarChoice
from companion.talk.answers import FinderAnswer, MissAnswer, NudgeAnswer, OutcomeAnswer, ReadyAnswer, StarNameAnswer, WaitingAnswer
from companion.talk.saying import Ask, Receipt, Say

Unfit: TypeAlias = Literal["hidden", "too-low", "too-high", "too-bright-sky", "near-another", "near-sun", "sets-soon"]
"""Why a star that the mount names won't do."""

STARTING_POSE = "starting pose"
"""Where the tube points before the first star: level, to the north. Stands where a star's name would."""


@dataclass(frozen=True)
class BeforeTheStars(Say):
    """Say how the stars are chosen, and the caution where the hazard is."""

    choice: StarChoice


class KeepPeopleBack(Say): ...


@dataclass(frozen=True)
class FirstStar(Say):
    """Introduce the first reference star."""

    star: str
    from_star: str | None


@dataclass(frozen=True)
class AnotherStar(Say):
    """Introduce a further reference star."""

    star: str
    from_star: str | None


@dataclass(frozen=True)
class FindStar(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]):
    """Help the eye to the star again, from where it is now."""

    star: str


@dataclass(frozen=True)
class HowHigh(Say):
    """Say how high a star stands."""

    star: str


@dataclass(frozen=True)
class WhereFromTheMoon(Say):
    """Say on which side of the Moon a star stands."""

    star: str


@dataclass(frozen=True)
class WhatColour(Say):
    """Say whether a star has a colour that shows."""

    star: str


class LeaveStar(Receipt): ...


@dataclass(frozen=True)
class WhichStarDoesItName(Ask[StarNameAnswer]):
    """Ask for the name on the hand control."""

    again: bool = False


@dataclass(frozen=True)
class WhichOfThese(Ask[StarNameAnswer]):
    """Name the stars that begin so."""

    stars: tuple[str, ...]


@dataclass(frozen=True)
class PressItsKeyForAnother(Say):
    """Say why a star won't do, and how to have another."""

    star: str
    why: Unfit


class NoneItNamesWillDo(Say): ...


@dataclass(frozen=True)
class WaitForTheFirstStar(Ask[WaitingAnswer]):
    """Say when a star will come out."""

    star: str
    first: datetime


class NoStarsTonight(Say): ...


@dataclass(frozen=True)
class NoMoreStars(Ask[ReadyAnswer]):
    """Say that nothing is left to centre."""

    choice: StarChoice


class WhatDoesTheMountSay(Ask[OutcomeAnswer]): ...


class CapsOffNow(Say): ...


@dataclass(frozen=True)
class WhatToExpect(Say):
    """Say how well the mount should point now, from where its stars stand."""

    stars: tuple[str, ...]
    lean_deg: float | None = None
    """How far the base leans by the mount's own readings; None where there are none."""
    if_level: bool = False
    """Whether the base was found leaning this evening, and what is left of that isn't known."""


class ItFailed(Ask[ReadyAnswer]): ...
