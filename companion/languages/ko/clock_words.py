"""Times, dates, durations and zones as a person says them."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from companion.languages.ko.number_words import amount_of, cardinal, count_of, native
from companion.languages.ko.spoken_names import town_name

_DAYS = ["월요일", "화요일", "수요일", "목요일", "금요일", "토요일", "일요일"]
_MONTHS = ["일월", "이월", "삼월", "사월", "오월", "유월", "칠월", "팔월", "구월", "시월", "십일월", "십이월"]
"""The sixth and the tenth have lost a consonant."""
# How the parts of the day are called, by the hour they begin.
_PARTS_OF_DAY = ((0, "새벽"), (6, "오전"), (12, "오후"), (18, "저녁"), (21, "밤"))


def time_of_day(time: datetime) -> str:
    """Return a local time on the twelve-hour clock, the hour in native numerals: "저녁 여섯 시 십 분"."""
    if (time.hour, time.minute) == (0, 0):
        return "자정"
    if (time.hour, time.minute) == (12, 0):
        return "정오"
    part = [name for hour, name in _PARTS_OF_DAY if time.hour >= hour][-1]
    if time.hour == 0:
        part = "밤"
    hour = f"{part} {native((time.hour - 1) % 12 + 1)} 시"
    if time.minute == 0:
        return hour
    return f"{hour} 반" if time.minute == 30 else f"{hour} {amount_of(time.minute, '분')}"


def calendar_day(day: date) -> str:
    """Return "십일월 오일 목요일"."""
    return f"{_MONTHS[day.month - 1]} {cardinal(day.day)}일 {_DAYS[day.weekday()]}"


def month_name(month: int) -> str:
    """Return the Korean name of a month, 1 to 12."""
    return _MONTHS[month - 1]


def duration(length: timedelta) -> str:
    """Return a length of time to a precision people use: minutes below an hour, then quarter hours, then hours."""
    minutes = max(0, round(length.total_seconds() / 60))
    if minutes < 1:
        return "일 분 미만"
    if minutes < 53:
        return amount_of(minutes, "분")
    hours, quarters = divmod(round(minutes / 15), 4)
    if hours == 0:
        return "사십오 분"
    tail = ("", " 십오 분", " 반", " 사십오 분")[quarters]
    return f"{count_of(hours, '시간')}{tail}"


def zone_name(name: str) -> str:
    """Return a zone so that a person recognises it: "서울 시간"."""
    if name.endswith("UTC"):
        return "세계시"
    if name.startswith("Etc/"):
        return "바다 위의 시간대"
    return f"{town_name(name.rpartition('/')[2].replace('_', ' '))} 시간"


def greeting(time: datetime) -> str:
    """Return the greeting: Korean has one for every hour."""
    return "안녕하세요"
