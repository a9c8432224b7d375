"""What is said of the starting pose and the power: level, true north, tube level, switch on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from companion.alignment import PoleWay
from companion.equipment import CompassKind
from companion.talk.answers import BearingAnswer, CompassKindAnswer, LevelAnswer, NorthAnswer, PowerAnswer, ReadyAnswer, TubeAnswer
from companion.talk.saying import Ask, Say

AtNorth: TypeAlias = NorthAnswer | BearingAnswer | CompassKindAnswer
"""What may be told where a compass is in use: beside the answers, what it reads and what compass it is."""


class PoseBeforePowerThen(Say): ...


class LevelTheBase(Ask[LevelAnswer]): ...


@dataclass(frozen=True)
class FaceTrueNorth(Ask[AtNorth]):
    """Turn the declination into what to do with the compass at hand: what it reads, or what compass it is, may be told instead."""

    compass: CompassKind | Literal["unknown"] = "unknown"


@dataclass(frozen=True)
class TurnByCompass(Say):
    """Say how far to turn from what the compass reads now."""

    compass: CompassKind | Literal["unknown"]
    reads_deg: int


class WhatDoesItRead(Ask[BearingAnswer]): ...


@dataclass(frozen=True)
class NorthByThePole(Ask[NorthAnswer]):
    """Lead to the pole star by a figure everybody knows, or in the south by the Cross, from where they stand now."""

    way: PoleWay


class NorthByTheShadow(Ask[NorthAnswer]):
    """Describe the way to north by a shadow, at this minute."""


class NorthByTheSunset(Ask[NorthAnswer]):
    """Describe the way to north from where the Sun went down."""


@dataclass(frozen=True)
class NorthByAMark(Ask[NorthAnswer]):
    """Describe the way to north from below the Moon or a planet, at this minute."""

    mark: str


class NorthByLandmark(Ask[NorthAnswer]): ...


class NoOtherWay(Ask[NorthAnswer]): ...


class SayFacingNorth(Ask[AtNorth]): ...


class LevelTheTube(Ask[TubeAnswer]): ...


class LevelAgain(Ask[LevelAnswer]): ...


class NorthAgain(Ask[NorthAnswer]): ...


class TubeLevelAgain(Ask[TubeAnswer]): ...


class LetItFindItsPose(Ask[ReadyAnswer]): ...


class SwitchOn(Ask[PowerAnswer]): ...


class SayWhenItIsOn(Ask[PowerAnswer]): ...


class NoPower(Say): ...


class ItRestarted(Say): ...
