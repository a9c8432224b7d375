"""What is said of the beginning and the end of an evening: time, place, darkness, leaving."""

from __future__ import annotations

from dataclasses import dataclass

from companion.talk.answers import CalendarDateAnswer, ClockCheckAnswer, ClockTimeAnswer, StartAnswer, TownAnswer, YearAnswer, YesNoAnswer
from companion.talk.saying import Ask, Say


class GoodEvening(Say):
    """Greet."""


class GoodEveningWhereverYouAre(Say): ...


class NoSkyWithoutAPlace(Say): ...


class ClockMayHaveStood(Say):
    """Tell that a machine without a clock chip was off, so that its clock is to be asked about."""


class ClockSetToTheLastAnswer(Say):
    """Say that our clock went wrong between two sessions of an evening, and what it is taken to show."""


@dataclass(frozen=True)
class NoSkyForThatYear(Say):
    """Say that our clock's year is beyond the ephemeris, and which is taken instead."""

    year: int
    taken: int


@dataclass(frozen=True)
class IsTheClockRight(Ask[ClockCheckAnswer]):
    """Say the date, time, zone and daylight saving that everything will be computed with."""

    with_year: bool = False


class WhatIsWrongWithIt(Ask[ClockCheckAnswer]): ...


class TellMeTheTime(Ask[ClockTimeAnswer]): ...


class TellMeTheDate(Ask[CalendarDateAnswer]): ...


class TellMeTheYear(Ask[YearAnswer]): ...


class NoSuchDay(Say): ...


class TheZoneFollowsThePlace(Say): ...


class IsThePlaceRight(Ask[YesNoAnswer | TownAnswer]):
    """Say the place to a tenth of a degree; a town near by says another one."""


class HowDarkItIs(Say):
    """Say what the Sun is doing now, when it will be dark, and where no star comes out what can be done; by day the caution comes first."""


class ShallWeStart(Ask[StartAnswer]): ...
