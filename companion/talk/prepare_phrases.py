"""What is said by day of the night to come: dark hours, Moon, when to be there, what not to miss, what to charge and pack."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, TypeAlias

from companion.equipment import Kit
from companion.talk.answers import KitAnswer, ReadyAnswer, YesNoAnswer
from companion.talk.saying import Ask, Say

Packed: TypeAlias = (
    Kit | Literal["mount-battery", "this-device", "power-supply", "eyepieces", "diagonal", "finder-battery", "compass", "spirit-level"]
)
"""What goes with one: charged first, then what a set-up needs, then the observer's own."""


class ShallITellAboutTonight(Ask[YesNoAnswer]): ...


class ShallITellWhatToPack(Ask[YesNoAnswer]): ...


@dataclass(frozen=True)
class DarkHours(Say):
    """Tell which night is meant, and when it is dark."""

    dark_from: datetime | None
    dark_until: datetime | None
    darkest: datetime
    sun_sets: bool


@dataclass(frozen=True)
class MoonOfTheNight(Say):
    """Tell what the Moon does that night."""

    phase_deg: float
    begins: datetime
    rises: datetime | None
    sets: datetime | None


@dataclass(frozen=True)
class BeThereBy(Say):
    """Tell when to be on the spot."""

    time: datetime
    is_sunset: bool


@dataclass(frozen=True)
class NotToMiss(Say):
    """Name what is best that night."""

    names: tuple[str, ...]


class WhatDoYouBring(Ask[KitAnswer]): ...


class WhatElseDoYouBring(Ask[KitAnswer]): ...


@dataclass(frozen=True)
class ChargeAndPack(Say):
    """Name what to charge and what to pack."""

    things: tuple[Packed, ...]


class UntilTonight(Ask[ReadyAnswer]): ...


@dataclass(frozen=True)
class OneThing(Say):
    """Name one thing to charge or pack."""

    thing: Packed
