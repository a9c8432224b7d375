"""What is said to observers who tell of their sight and of who looks for them, of what talks or is felt, and of keys found by feel."""

from __future__ import annotations

from dataclasses import dataclass

from companion.equipment import FinderKind, Limit, Looker, SightLeft
from companion.talk.answers import ArrowByCableAnswer, KeyPlaceAnswer, LevelAidAnswer, ReadyAnswer
from companion.talk.saying import Ask, Say


@dataclass(frozen=True)
class SightNoted(Say):
    """Confirm in one sentence what is different from now on."""

    sight: SightLeft | None
    eyes: Looker | None


class AidNoted(Say):
    """Confirm that what talks or is felt is counted on."""


@dataclass(frozen=True)
class LimitNoted(Say):
    """Confirm what is chosen otherwise from the next part on."""

    limit: Limit


@dataclass(frozen=True)
class GearNoted(Say):
    """Confirm what was told of the telescope unasked; nothing but that, where it says nothing we reckon with."""

    aperture_mm: float | None = None
    focal_length_mm: float | None = None
    finder: FinderKind | None = None
    on_the_ground: bool = False
    """Whether it has a base that stands on the ground, and no tripod."""


class WhatTellsYouLevel(Ask[LevelAidAnswer]): ...


class WhichArrowIsByTheCable(Ask[ArrowByCableAnswer]): ...


class WhereIsTheConfirmKey(Ask[KeyPlaceAnswer]): ...


@dataclass(frozen=True)
class ConfirmKeyAt(Say):
    """Confirm where the key that confirms lies."""

    row: int
    key: int


@dataclass(frozen=True)
class NobodyLooks(Ask[ReadyAnswer]):
    """Say honestly what can't be done where nobody sees, and what can."""

    linked: bool = False
    """Whether there is a mount on the line."""
