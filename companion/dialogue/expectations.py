"""What is known of an answer before it is heard: by the sky, the clock, the place, and what there is to buy. All weights are judgement."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import TypeAlias

from companion import places, sky
from companion.messages import Prior, Slots
from companion.procedure.spoken_figures import degrees_in, figure_of, number_in
from companion.sky import Moment
from companion.talk.answers import CalendarDateAnswer, ClockTimeAnswer, CoordinateAnswer, StarNameAnswer
from companion.talk.equipment_phrases import (
    Aperture,
    ApparentField,
    FocalLength,
    HowWideIsTheFinder,
    WhichEyepiece,
    YourLatitude,
    YourLongitude,
)
from companion.talk.saying import Answers, Ask

LIKELY = 0.3
"""From this weight on an answer surprises nobody."""
_POSSIBLE, _UNLIKELY = 0.3, 0.05
_STRIKING_MAG = 2.0
"""A mount's list begins with the bright ones: fainter names are taken for half as likely."""
_LOW_DEG = 10.0
_HALF_A_DIAL = 6 * 60

_Ranges: TypeAlias = tuple[tuple[float, float], tuple[float, float]]
"""What is likely, and what is possible."""

_USUAL: Mapping[type[Ask[Answers]], _Ranges] = {
    Aperture: ((50, 450), (30, 1_000)),
    FocalLength: ((300, 4_500), (150, 12_000)),
    WhichEyepiece: ((3, 42), (2, 60)),
    ApparentField: ((38, 110), (25, 120)),
    HowWideIsTheFinder: ((4, 9), (2, 12)),
}
"""Millimetres and degrees of what amateurs use; common practice, no published source."""
_INHABITED_DEG: Mapping[type[Ask[Answers]], _Ranges] = {
    YourLatitude: ((-56, 71), (-90, 90)),
    YourLongitude: ((-180, 180), (-180, 180)),
}
"""Where people live, from the south of Chile to the north of Norway."""
_NEAR_DEG, _NOT_FAR_DEG = 3.0, 15.0


@dataclass(frozen=True)
class NamedThings:
    """Names, by how likely a mount is to say them now."""

    weights: Mapping[str, float]

    def weight(self, command: str, slots: Slots) -> float:
        """Return the weight of the name said, of the brightest of a constellation, or of the likeliest that begins with three letters."""
        if command == StarNameAnswer.STAR_LETTERS:
            letters = slots["letters"]
            return max((self.weights.get(body.name, _UNLIKELY) for body in sky.nameable_from(letters)), default=_UNLIKELY)
        if command != StarNameAnswer.STAR_NAME:
            return 1.0
        return self.weights.get(slots.get("star") or slots.get("constellation") or "", _UNLIKELY)


@dataclass(frozen=True)
class Figure:
    """A figure that lies most likely in one range, hardly outside another."""

    read: Callable[[str, Slots], float]
    """From command and slots to the figure. Raises ValueError where they come to none."""
    ranges: _Ranges

    def weight(self, command: str, slots: Slots) -> float:
        """Return the weight of the figure said; of words without one, 1."""
        if not slots:
            return 1.0
        try:
            figure = self.read(command, slots)
        except ValueError:
            return _UNLIKELY
        likely, possible = self.ranges
        return 1.0 if likely[0] <= figure <= likely[1] else _POSSIBLE if possible[0] <= figure <= possible[1] else _UNLIKELY


def expected_at(question: Ask[Answers], moment: Moment, *, place_is_known: bool) -> Prior | None:
    """Return what is known of the answer to a question beforehand; None where nothing is."""
    here = places.local_time(moment)
    if question.expects is StarNameAnswer:
        return names_in_the_sky(moment)
    if question.expects is ClockTimeAnswer:
        return Figure(lambda command, slots: _minutes_from(here.hour * 60 + here.minute, command, slots), ((-10, 10), (-90, 90)))
    if question.expects is CalendarDateAnswer:
        return Figure(lambda _, slots: _days_from(here.date(), slots), ((-2, 2), (-31, 31)))
    if question.expects is CoordinateAnswer:
        is_latitude = isinstance(question, YourLatitude)
        ranges = _INHABITED_DEG[type(question)]
        if place_is_known:
            known = moment.site.latitude_deg if is_latitude else moment.site.longitude_deg
            ranges = ((known - _NEAR_DEG, known + _NEAR_DEG), (known - _NOT_FAR_DEG, known + _NOT_FAR_DEG))
        return Figure(lambda _, slots: _degrees(slots, "NS" if is_latitude else "EW"), ranges)
    usual = _USUAL.get(type(question))
    return None if usual is None else Figure(lambda _, slots: figure_of(slots), usual)


def names_in_the_sky(moment: Moment) -> NamedThings:
    """Weigh what a mount may name: what is up and bright is likeliest. A mount with wrong settings names what is down, too."""
    return NamedThings({seen.body.name: _striking(seen.altitude_deg, seen.magnitude) for seen in sky.sights(sky.nameable(), moment)})


def _striking(altitude_deg: float, magnitude: float | None) -> float:
    height = 1.0 if altitude_deg >= _LOW_DEG else _POSSIBLE if altitude_deg >= 0.0 else _UNLIKELY
    return height * (1.0 if magnitude is not None and magnitude <= _STRIKING_MAG else 0.5)


def _minutes_from(now: int, command: str, slots: Slots) -> float:
    """Return how many minutes a time told lies after now, on a dial of twelve hours."""
    minute = number_in(slots, "minute")
    told = number_in(slots, "hour") * 60 + (-minute if command == ClockTimeAnswer.TO else minute)
    return (told - now + _HALF_A_DIAL) % (2 * _HALF_A_DIAL) - _HALF_A_DIAL


def _days_from(today: date, slots: Slots) -> float:
    """Return how many days after today the nearest such date lies. Raises ValueError where no year has it."""
    month, day = number_in(slots, "month"), number_in(slots, "day")
    return min(((date(today.year + add, month, day) - today).days for add in (-1, 0, 1)), key=abs)


def _degrees(slots: Slots, sides: str) -> float:
    """Return degrees, north or east positive. Raises ValueError for a side that a latitude or a longitude hasn't."""
    side = slots.get("side", "")
    if side not in sides:
        raise ValueError(f"'{side}' is none of {sides}")
    return degrees_in(slots) * (1.0 if side == sides[0] else -1.0)
