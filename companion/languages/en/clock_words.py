"""Times, dates, durations and zones as a person says them."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from companion.languages.en.number_words import cardinal, count_of, ordinal

_DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
_MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"]
# How the parts of the day are called, by the hour they begin.
_PARTS_OF_DAY = ((0, "at night"), (1, "in the morning"), (12, "in the afternoon"), (18, "in the evening"), (23, "at night"))


def time_of_day(time: datetime) -> str:
    """Return a local time on the twelve-hour clock: "ten past six in the evening"."""
    if (time.hour, time.minute) == (0, 0):
        return "midnight"
    if (time.hour, time.minute) == (12, 0):
        return "noon"
    part = [name for hour, name in _PARTS_OF_DAY if time.hour >= hour][-1]
    minute, hour_word = time.minute, cardinal((time.hour - 1) % 12 + 1)
    if minute == 0:
        return f"{hour_word} o'clock {part}"
    if minute > 30:
        # "Ten to two" sounds like a row of figures.
        return f"{hour_word} {cardinal(minute)} {part}"
    minutes = {15: "a quarter", 30: "half"}.get(minute) or (cardinal(minute) if minute % 5 == 0 else count_of(minute, "minute"))
    return f"{minutes} past {hour_word} {part}"


def calendar_day(day: date, *, month_first: bool = False) -> str:
    """Return "Thursday the fifth of November", or "Thursday, November fifth"."""
    if month_first:
        return f"{_DAYS[day.weekday()]}, {_MONTHS[day.month - 1]} {ordinal(day.day)}"
    return f"{_DAYS[day.weekday()]} the {ordinal(day.day)} of {_MONTHS[day.month - 1]}"


def year_words(year: int) -> str:
    """Return a year as it is said: "twenty twenty-six", "nineteen oh five", "two thousand and one"."""
    century, rest = divmod(year, 100)
    if year % 1000 < 10:
        return cardinal(year)
    return f"{cardinal(century)} {'hundred' if rest == 0 else f'oh {cardinal(rest)}' if rest < 10 else cardinal(rest)}"


def month_name(month: int) -> str:
    """Return the English name of a month, 1 to 12."""
    return _MONTHS[month - 1]


def duration(length: timedelta) -> str:
    """Return a length of time to a precision people use: minutes below an hour, then quarter hours, then hours."""
    minutes = max(0, round(length.total_seconds() / 60))
    if minutes < 1:
        return "less than a minute"
    if minutes < 53:
        return count_of(minutes, "minute")
    quarters = round(minutes / 15)
    hours, rest = divmod(quarters, 4)
    if hours == 0 or (hours, rest) == (1, 0):
        return "an hour" if quarters >= 4 else "three quarters of an hour"
    if rest == 0:
        return count_of(hours, "hour")
    tail = {1: "a quarter", 2: "a half", 3: "three-quarter"}[rest]
    if hours == 1:
        return f"an hour and {'three quarters' if rest == 3 else tail}"
    return f"{cardinal(hours)} and {tail} hours"


def zone_name(name: str) -> str:
    """Return a zone so that a person recognises it: "Moncton time"."""
    if name.endswith("UTC"):
        return "Universal Time"
    if name.startswith("Etc/"):
        return "A zone at sea"
    return f"{name.rpartition('/')[2].replace('_', ' ')} time"


def greeting(time: datetime) -> str:
    """Return the greeting that suits the local hour."""
    if time.hour < 4 or time.hour >= 17:
        return "good evening"
    return "good morning" if time.hour < 12 else "good afternoon"
