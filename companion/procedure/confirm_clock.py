"""Our own clock, asked and not asserted: what the observer says of it is believed."""

from __future__ import annotations

from collections.abc import Generator
from datetime import date, datetime, timedelta

from companion import places
from companion.messages import Answer, Ask, Note, Say
from companion.procedure.confirm_place import agree_on_the_place
from companion.procedure.notes import clock_note
from companion.procedure.script import Context
from companion.procedure.spoken_figures import number_in

_NEAR_ENOUGH = timedelta(hours=3)
"""Of "half past nine", morning or evening, the one so near our own clock is meant; else the one after noon."""
_OLDEST_YEAR = 2026
"""A clock that shows less has lost its battery."""
Correction = Generator[Say | Ask | Note, Answer, None]


def agree_on_the_clock(context: Context) -> Generator[Say | Ask | Note, Answer, bool]:
    """Read date, time and zone out until they are said to be right; hear what is wrong and correct it; return whether anything was."""
    corrections = _Corrections(context)
    answer = yield Ask("is-the-clock-right", expects="clock_check")
    wrong = answer.command not in ("yes", "skip")
    while answer.command not in ("yes", "skip"):
        if answer.command == "no":
            answer = yield Ask("what-is-wrong-with-it", expects="clock_check")
        if answer.command == "time-wrong":
            yield from corrections.hear_the_time()
        elif answer.command == "date-wrong":
            yield from corrections.hear_the_date()
        elif answer.command == "zone-wrong":
            yield Say("the-zone-follows-the-place")
            yield from agree_on_the_place()
        answer = yield Ask("is-the-clock-right", expects="clock_check")
    return wrong


def seconds_off(context: Context, told: Answer) -> float | None:
    """Return by how many seconds the time told is later than ours; None where none was told."""
    if "hour" not in told.slots:
        return None
    now = places.local_time(context.moment(told.time))
    hour, minute = number_in(told.slots, "hour"), number_in(told.slots, "minute")
    minutes = hour * 60 + minute if told.command == "past" else hour * 60 - minute
    midnight = now.replace(hour=0, minute=0, second=0, microsecond=0)
    return (_meant([midnight + timedelta(minutes=minute_of_day) for minute_of_day in _halves(minutes)], now) - now).total_seconds()


def minutes_off(context: Context, told: Answer) -> int | None:
    """Return by how many whole minutes a clock that shows the time told is ahead of ours; None where none was told."""
    seconds = seconds_off(context, told)
    return None if seconds is None else round(seconds / 60)


class _Corrections:
    """Hears times and dates; knows the zone they are meant in."""

    def __init__(self, context: Context) -> None:
        self._context = context

    def hear_the_time(self) -> Correction:
        answer = yield Ask("tell-me-the-time", expects="clock_time")
        seconds = seconds_off(self._context, answer)
        if seconds is not None:
            yield clock_note(seconds)

    def hear_the_date(self) -> Correction:
        answer = yield Ask("tell-me-the-date", expects="calendar_date")
        if answer.command == "skip":
            return
        now = self._local(answer.time)
        year = now.year
        if year < _OLDEST_YEAR:
            said = yield Ask("tell-me-the-year", expects="year")
            year = 2000 + number_in(said.slots, "tens") + number_in(said.slots, "unit") if said.command == "year" else _OLDEST_YEAR
        try:
            told = date(year, number_in(answer.slots, "month"), number_in(answer.slots, "day"))
        except ValueError:
            yield Say("no-such-day")
            return
        yield clock_note(timedelta(days=(told - now.date()).days).total_seconds())

    def _local(self, time: datetime) -> datetime:
        return places.local_time(self._context.moment(time))


def _halves(minutes: int) -> tuple[int, ...]:
    """Return the minutes of the day a clock time can mean: past noon there is one, before it two."""
    minutes %= 24 * 60
    return (minutes,) if minutes >= 13 * 60 else (minutes, (minutes + 12 * 60) % (24 * 60))


def _meant(today: list[datetime], now: datetime) -> datetime:
    """Return the one of today's times that is near our own clock, across midnight too; else the later of them."""
    near = (time + timedelta(days=day) for time in today for day in (-1, 0, 1))
    return next((time for time in near if abs(time - now) <= _NEAR_ENOUGH), max(today))
