"""What is said of firm ground, caps and cables, and for lining the finder up with the tube."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from companion.talk.answers import FinderCheckAnswer, LevelAnswer, MarkAnswer, ReadyAnswer, YesNoAnswer
from companion.talk.saying import Ask, Say


class MindTheWeight(Say): ...


class LegsAndGround(Ask[ReadyAnswer]): ...


@dataclass(frozen=True)
class LevelTheTripod(Ask[LevelAnswer]):
    """Level the tripod's top while nothing stands on it."""

    measures_its_lean: bool = False
    """Whether the mount finds its own position, so that roughly level is enough."""


class PutItOn(Ask[ReadyAnswer]): ...


class ClampAndBalance(Ask[ReadyAnswer]): ...


class CablesAndFrost(Ask[ReadyAnswer]): ...


class CapsAndCooling(Ask[ReadyAnswer]):
    """Say what stays capped, and what may come off."""


class ShallWeDoTheFinder(Ask[YesNoAnswer]): ...


class CapsAndTheSun(Say): ...


@dataclass(frozen=True)
class PickAFarMark(Ask[MarkAnswer]):
    """Say what to line the finder up on by day."""

    metres: float


@dataclass(frozen=True)
class PickAMarkAfterDark(Ask[MarkAnswer]):
    """Say what to line the finder up on after dark."""

    mark: Literal["Polaris", "Moon", "lamp"]
    metres: float


class TakeAFartherMark(Ask[MarkAnswer]): ...


class CentreTheMark(Ask[ReadyAnswer]): ...


class TurnTheFinderScrews(Ask[ReadyAnswer]): ...


class CheckAtHigherPower(Ask[FinderCheckAnswer]): ...


class CapBothAgain(Say): ...
