"""What is said of the settings the hand control asks for, each line digit by digit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from companion.equipment import DateOrder
from companion.talk.answers import SettingAnswer
from companion.talk.saying import Ask, Say


class BeforeTheSettings(Say): ...


@dataclass(frozen=True)
class KeyTheDate(Ask[SettingAnswer]):
    """Read the local date in the order it is keyed, its parts named."""

    order: DateOrder | None = None
    """None for the order that is usual where we are."""


@dataclass(frozen=True)
class KeyTheTime(Ask[SettingAnswer]):
    """Read the local time on the clock the mount wants."""

    hours: Literal[12, 24] | None = None
    """None for the clock that is usual where we are."""


class KeyDaylightSaving(Ask[SettingAnswer]):
    """Say whether daylight saving is on, and what it does to the time just keyed."""


class KeyTheZone(Ask[SettingAnswer]):
    """Read the standard zone, and warn where a control that takes whole hours only would be wrong."""


class KeyTheLatitude(Ask[SettingAnswer]):
    """Read the latitude."""


class KeyTheLongitude(Ask[SettingAnswer]):
    """Read the longitude."""


class KeyTheElevation(Ask[SettingAnswer]):
    """Say how high the place lies."""


class PickACity(Ask[SettingAnswer]):
    """Name the city to pick where a mount has a list instead of latitude and longitude."""


class WholeMinutes(Say): ...


class WhichSideWeAreOn(Say):
    """Say which keys belong to this place."""


class KeyTrueNorth(Say): ...
