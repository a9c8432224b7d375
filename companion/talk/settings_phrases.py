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

    order: DateOrder = "day-month"


@dataclass(frozen=True)
class KeyTheTime(Ask[SettingAnswer]):
    """Read the local time on the clock the mount wants."""

    hours: Literal[12, 24] = 24


class KeyDaylightSaving(Ask[SettingAnswer]):
    """Say whether daylight saving is on, and what it does to the time just keyed."""


class KeyTheZone(Ask[SettingAnswer]):
    """Read the standard zone, and warn where a control that takes whole hours only would be wrong."""


class KeyTheLatitude(Ask[SettingAnswer]):
    """Read the latitude."""


class KeyTheLongitude(Ask[SettingAnswer]):
    """Read the longitude."""


class WhichSideWeAreOn(Say):
    """Say which keys belong to this place."""


class KeyTrueNorth(Say): ...
