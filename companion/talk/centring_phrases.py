"""What is said of bringing a star to the middle, in keys and not in directions of the view, and for when it can't be seen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from companion.talk.answers import (
    EyepieceAnswer,
    FinderAnswer,
    MissAnswer,
    NudgeAnswer,
    SlewingAnswer,
    StarNameAnswer,
    TubeRoseAnswer,
    TubeTurnedAnswer,
    UnseenAnswer,
    ViewAnswer,
)
from companion.talk.saying import Ask, Receipt, Say

ArrowKey: TypeAlias = Literal["right", "left", "up", "down"]
"""A key that moves the tube."""
OPPOSITE: Mapping[ArrowKey, ArrowKey] = {"right": "left", "left": "right", "up": "down", "down": "up"}


@dataclass(frozen=True)
class IsItInTheFinder(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]):
    """Have the star steered into the finder when the mount has turned."""

    watch: bool = False
    """Whether to look how the mount comes to rest, because that is asked next."""


class SteerToTheFinder(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]): ...


class IsItThereNow(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]): ...


class SteerItThere(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]): ...


class WhileItSlews(Ask[SlewingAnswer]): ...


class WhatDoYouSee(Ask[UnseenAnswer]): ...


class CapsAndDew(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]): ...


class SwitchTheDotOn(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]): ...


class SweepForIt(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]): ...


@dataclass(frozen=True)
class SeeTheFinderIsTrue(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]):
    """Have the finder's aim tried on anything bright, and set."""

    star: str


class BringItToFocus(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]): ...


class TheSkyDarkens(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]): ...


class WasItRising(Ask[TubeRoseAnswer]): ...


class AndToWhichSide(Ask[TubeTurnedAnswer]): ...


@dataclass(frozen=True)
class IsItCentred(Ask[EyepieceAnswer | NudgeAnswer]):
    """Send the eye to the eyepiece; the first time, how to finish."""

    star: str
    first: bool
    last: tuple[ArrowKey, ...] = ()
    """With which arrows stars are finished, at most one of each pair, so far as that is known."""


class IsItCentredNow(Ask[EyepieceAnswer | NudgeAnswer]): ...


@dataclass(frozen=True)
class BackToTheFinder(Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]):
    """Send the eye back to the finder."""

    star: str


class DriftIsNormal(Say): ...


class FocusTheEyepiece(Say): ...


class TheOneOfTwo(Say): ...


class WhereInTheView(Ask[ViewAnswer]): ...


class PressRightOnce(Ask[ViewAnswer]): ...


class PressUpOnce(Ask[ViewAnswer]): ...


class ArrowsDoNotFit(Say): ...


@dataclass(frozen=True)
class PressTheseKeys(Say):
    """Name the arrow keys that bring the star in, and how to end with those that stars were finished with before."""

    keys: tuple[ArrowKey, ...]
    last: tuple[ArrowKey, ...]
    """With which stars were finished so far, at most one of each pair."""


@dataclass(frozen=True)
class ConfirmStar(Receipt):
    """Say that it must be confirmed, by the name of the key where it is known."""

    star: str
    key: str | None
