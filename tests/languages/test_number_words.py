"""Numbers and times in words."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.languages.en import clock_words, number_words


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (0, "zero"),
        (13, "thirteen"),
        (46, "forty-six"),
        (100, "one hundred"),
        (312, "three hundred and twelve"),
        (2026, "two thousand and twenty-six"),
        (-4, "minus four"),
    ],
)
def test_cardinals(number: int, words: str) -> None:
    """Whole numbers as they are said in British English."""
    assert number_words.cardinal(number) == words


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (1, "first"),
        (2, "second"),
        (3, "third"),
        (5, "fifth"),
        (8, "eighth"),
        (9, "ninth"),
        (12, "twelfth"),
        (20, "twentieth"),
        (31, "thirty-first"),
    ],
)
def test_ordinals(number: int, words: str) -> None:
    """Every irregular ordinal, and the rule."""
    assert number_words.ordinal(number) == words


def test_digits_are_spoken_singly() -> None:
    """Bearings are three single digits: ICAO Annex 10 volume II, 5.2.1.4 ("heading zero eight zero")."""
    assert number_words.digits(80, 3) == "zero eight zero"


@given(st.integers(-999_999, 999_999))
def test_every_number_has_words_without_figures(number: int) -> None:
    """No figure is left for a synthesiser to guess at, and different numbers sound different from their neighbours."""
    assert not any(character.isdigit() for character in number_words.cardinal(number))
    assert number_words.cardinal(number) != number_words.cardinal(number + 1)


@pytest.mark.parametrize(
    ("number", "words"),
    [(2.46, "two point five"), (2.44, "two point four"), (3.0, "three"), (-0.04, "zero"), (-1.5, "minus one point five")],
)
def test_decimals(number: float, words: str) -> None:
    """One place, spelt singly, no idle zero, no minus zero."""
    assert number_words.decimal(number) == words


@pytest.mark.parametrize(
    ("hour", "minute", "words"),
    [
        (0, 0, "midnight"),
        (12, 0, "noon"),
        (18, 10, "ten past six in the evening"),
        (19, 42, "seven forty-two in the evening"),
        (5, 30, "half past five in the morning"),
        (23, 45, "eleven forty-five at night"),
        (0, 1, "one minute past twelve at night"),
        (13, 0, "one o'clock in the afternoon"),
    ],
)
def test_times_of_day(hour: int, minute: int, words: str) -> None:
    """The twelve-hour clock as a person reads it."""
    assert clock_words.time_of_day(datetime(2026, 10, 15, hour, minute)) == words


def test_calendar_day() -> None:
    """15 October 2026 is a Thursday (ISO 8601 weekday, as the standard library has it)."""
    assert clock_words.calendar_day(date(2026, 10, 15)) == "Thursday the fifteenth of October"


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0, "less than a minute"),
        (1, "one minute"),
        (11, "eleven minutes"),
        (60, "an hour"),
        (90, "an hour and a half"),
        (105, "an hour and three quarters"),
        (150, "two and a half hours"),
        (135, "two and a quarter hours"),
    ],
)
def test_durations(minutes: int, words: str) -> None:
    """As precise as people use them."""
    assert clock_words.duration(timedelta(minutes=minutes)) == words


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("America/Moncton", "Moncton time"),
        ("America/Port-au-Prince", "Port-au-Prince time"),
        ("Etc/GMT+3", "A zone at sea"),
        ("UTC", "Universal Time"),
    ],
)
def test_zones(name: str, words: str) -> None:
    """A zone is named by its town."""
    assert clock_words.zone_name(name) == words
