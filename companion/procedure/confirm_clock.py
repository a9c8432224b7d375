"""Our own clock, asked and not asserted: what the observer says of it is believed."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import assert_never

from companion import places, sky
from companion.procedure.confirm_place import agree_on_the_place
from companion.procedure.notes import OurClock
from companion.procedure.script import Context, Steps, ask
from companion.procedure.spoken_figures import number_in
from companion.sky import Moment
from companion.talk.answers import CalendarDateAnswer, ClockCheckAnswer, ClockTimeAnswer, YearAnswer
from companion.talk.check_in_phrases import (
    IsTheClockRight,
    NoSkyForThatYear,
    NoSuchDay,
    TellMeTheDate,
    TellMeTheTime,
    TellMeTheYear,
    TheZoneFollowsThePlace,
    WhatIsWrongWithIt,
)
from companion.talk.saying import Reply

_NEAR_ENOUGH = timedelta(hours=3)
"""Of "half past nine", morning or evening, the one so near our own clock is meant; else the one after noon."""
_MADE = datetime(2026, 11, 1, tzinfo=UTC)
"""When what we know the sky and the voice by was put together. A clock that shows an earlier year has lost its battery."""
_A_YEAR = timedelta(days=366)


def year_in_doubt(context: Context) -> Steps[bool]:
    """Return whether our clock is more than a year from the last evening, or where none is known from when we were made.

    A year beyond the ephemeris is replaced at once: nothing else could be said of the sky.
    """
    known = max(context.last_evening or _MADE, _MADE)
    today = places.local_time(context.moment(context.started)).date()
    if not sky.covers(context.started):
        yield NoSkyForThatYear(today.year, known.year)
        yield OurClock(_seconds_to_year(today, known.year))
        return True
    return abs(context.started - known) > _A_YEAR


def agree_on_the_clock(context: Context, *, year_in_doubt: bool = False) -> Steps[bool]:
    """Read date, time and zone out until they are said to be right; hear what is wrong and correct it; return whether anything was.

    A year in doubt is said the first time, and one that was told is read back.
    """
    wrong, with_year = False, year_in_doubt
    while True:
        answer = yield from ask(IsTheClockRight(with_year))
        told, with_year = answer.command, False
        if told is ClockCheckAnswer.YES or told is ClockCheckAnswer.SKIP:
            return wrong
        wrong = True
        if "hour" in answer.slots:  # said in one breath: no, it's ten past eleven
            minutes = number_in(answer.slots, "hour") * 60 + number_in(answer.slots, "minute")
            yield OurClock(_seconds_from(context.moment(answer.time), minutes, answer.slots.get("half")))
            continue
        if told is ClockCheckAnswer.NO:
            told = (yield from ask(WhatIsWrongWithIt())).command
        with_year = yield from _mend(told, context, year_in_doubt=year_in_doubt)


def minutes_off(context: Context, told: Reply[ClockTimeAnswer]) -> int | None:
    """Return by how many whole minutes a clock that shows the time told is ahead of ours; None where none was told."""
    seconds = seconds_off(context, told)
    return None if seconds is None else round(seconds / 60)


def seconds_off(context: Context, told: Reply[ClockTimeAnswer]) -> float | None:
    """Return by how many seconds the time told is later than ours; None where none was told."""
    hour, minute = number_in(told.slots, "hour"), number_in(told.slots, "minute")
    match told.command:
        case ClockTimeAnswer.PAST:
            minutes = hour * 60 + minute
        case ClockTimeAnswer.TO:
            minutes = hour * 60 - minute
        case ClockTimeAnswer.SKIP:
            return None
        case _:
            assert_never(told.command)
    return _seconds_from(context.moment(told.time), minutes, told.slots.get("half"))


def _seconds_from(moment: Moment, minutes: int, half: str | None) -> float:
    """Return by how many seconds a time of day, in minutes and which half of the day, is later than the moment."""
    halves = _halves(minutes)
    if half:
        halves = (minutes % (12 * 60) + (12 * 60 if half == "pm" else 0),)
    now = places.local_time(moment)
    midnight = now.replace(hour=0, minute=0, second=0, microsecond=0)
    return (_meant([midnight + timedelta(minutes=minute_of_day) for minute_of_day in halves], now) - now).total_seconds()


def _mend(wrong: ClockCheckAnswer, context: Context, *, year_in_doubt: bool) -> Steps[bool]:
    """Hear instead what is wrong; return whether a year was told."""
    match wrong:
        case ClockCheckAnswer.TIME_WRONG:
            yield from _hear_the_time(context)
        case ClockCheckAnswer.DATE_WRONG:
            return (yield from _hear_the_date(context, year_in_doubt=year_in_doubt))
        case ClockCheckAnswer.YEAR_WRONG:
            return (yield from _hear_the_year(context))
        case ClockCheckAnswer.ZONE_WRONG:
            yield TheZoneFollowsThePlace()
            yield from agree_on_the_place()
        case ClockCheckAnswer.YES | ClockCheckAnswer.NO | ClockCheckAnswer.SKIP:
            # Nothing was named: the clock is read out again.
            pass
        case _:
            assert_never(wrong)
    return False


def _hear_the_time(context: Context) -> Steps[None]:
    seconds = seconds_off(context, (yield from ask(TellMeTheTime())))
    if seconds is not None:
        yield OurClock(seconds)


def _hear_the_date(context: Context, *, year_in_doubt: bool) -> Steps[bool]:
    answer = yield from ask(TellMeTheDate())
    if answer.command is CalendarDateAnswer.SKIP:
        return False
    today = places.local_time(context.moment(answer.time)).date()
    asks_the_year = year_in_doubt or today.year < _MADE.year
    year = _year_of((yield from ask(TellMeTheYear()))) if asks_the_year else today.year
    try:
        told = date(year, number_in(answer.slots, "month"), number_in(answer.slots, "day"))
    except ValueError:
        yield NoSuchDay()
        return False
    yield OurClock(timedelta(days=(told - today).days).total_seconds())
    return asks_the_year


def _hear_the_year(context: Context) -> Steps[bool]:
    told = yield from ask(TellMeTheYear())
    today = places.local_time(context.moment(told.time)).date()
    yield OurClock(_seconds_to_year(today, _year_of(told)))
    return True


def _seconds_to_year(today: date, year: int) -> float:
    """Return how much later the same day of another year is."""
    last_of_february = (today.month, today.day) == (2, 29)
    return (today.replace(year=year, day=28 if last_of_february else today.day) - today).total_seconds()


def _year_of(told: Reply[YearAnswer]) -> int:
    """Return the year told; the oldest it can be where that was skipped."""
    match told.command:
        case YearAnswer.YEAR:
            return 2000 + number_in(told.slots, "tens") + number_in(told.slots, "unit")
        case YearAnswer.SKIP:
            return _MADE.year
        case _:
            assert_never(told.command)


def _halves(minutes: int) -> tuple[int, ...]:
    """Return the minutes of the day a clock time can mean: past noon there is one, before it two."""
    minutes %= 24 * 60
    return (minutes,) if minutes >= 13 * 60 else (minutes, (minutes + 12 * 60) % (24 * 60))


def _meant(today: list[datetime], now: datetime) -> datetime:
    """Return the one of today's times that is near our own clock, across midnight too; else the later of them."""
    near = (time + timedelta(days=day) for time in today for day in (-1, 0, 1))
    return next((time for time in near if abs(time - now) <= _NEAR_ENOUGH), max(today))
