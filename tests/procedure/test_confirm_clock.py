"""Our own clock and place, corrected by voice: what is told is what holds afterwards, for every later word of the evening."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from companion import places
from companion.dialogue import Conversation, Record, rebuild
from companion.hearing import understand
from companion.languages import load_language
from companion.messages import Heard
from companion.procedure import EVENING, Context
from companion.procedure.confirm_clock import seconds_off
from companion.sky import Site
from companion.talk.answers import ClockTimeAnswer, YesNoAnswer
from companion.talk.check_in_phrases import IsTheClockRight
from companion.talk.saying import Reply
from tests.english import VOCABULARY

SITE = Site(46.31, -67.52, zone="America/Moncton")


def _after(wrong: datetime, *answers: str) -> tuple[Conversation, list[Record]]:
    records: list[Record] = []
    conversation = Conversation(EVENING, SITE, load_language(), records.append)
    turn = conversation.begin(wrong)
    for words in answers:
        assert turn.question is not None
        active = VOCABULARY.active(turn.question.expects)
        assert active.parse(words) is not None, (words, turn.question)
        turn = conversation.hear(understand(words, active), wrong)
    return conversation, records


@pytest.mark.parametrize(
    ("ours", "told", "true_time"),
    [
        ("2026-10-15 19:10", "ten past eight", "2026-10-15 20:10"),
        ("2026-10-15 19:10", "twenty ten", "2026-10-15 20:10"),
        ("2026-10-15 20:30", "ten to nine", "2026-10-15 20:50"),
        ("2026-10-15 23:50", "five past twelve", "2026-10-16 00:05"),
        ("2026-10-15 03:00", "nine o'clock", "2026-10-15 21:00"),
        ("2026-10-15 05:40", "half past six", "2026-10-15 06:30"),
    ],
)
def test_the_hour_told_is_the_hour_that_holds(ours: str, told: str, true_time: str) -> None:
    """Of the two hours a clock face can mean, the one within three hours of our clock is taken, else the one after noon."""
    start = datetime.fromisoformat(f"{ours}-03:00")
    conversation, _ = _after(start, "no", "wrong hour", told)
    now = places.local_time(conversation.moment(start))
    assert now.strftime("%Y-%m-%d %H:%M") == true_time


@pytest.mark.parametrize(
    ("told", "true_time"),
    [("no it's ten past eight", "20:10"), ("it's a quarter past seven", "19:15"), ("no it's nine o'clock in the morning", "09:00")],
)
def test_the_right_hour_may_be_said_at_once(told: str, true_time: str) -> None:
    """Told in one breath with the no, it isn't asked for again: the clock is read out anew."""
    start = datetime.fromisoformat("2026-10-15T19:30:00-03:00")
    conversation = Conversation(EVENING, SITE, load_language())
    turn = conversation.begin(start)
    assert turn.question is not None
    turn = conversation.hear(VOCABULARY.understand(told, turn.question.expects), start)
    assert isinstance(turn.question, IsTheClockRight)
    assert places.local_time(conversation.moment(start)).strftime("%H:%M") == true_time


@pytest.mark.parametrize(
    ("told", "true_time"),
    [("ten fifteen in the evening", "22:15"), ("a quarter past nine in the evening", "21:15"), ("twenty to six in the morning", "05:40")],
)
def test_the_part_of_the_day_tells_which_hour_is_meant(told: str, true_time: str) -> None:
    """A time typed, or found in the second search, with the part of the day it is in."""
    heard = VOCABULARY.understand(told, ClockTimeAnswer)
    assert isinstance(heard, Heard)
    context = Context(SITE, datetime.fromisoformat("2026-10-15T12:00:00-03:00"), {})
    off = seconds_off(context, Reply(ClockTimeAnswer(heard.command), context.started, heard.slots))
    assert off is not None
    told_time = places.local_time(context.moment(context.started + timedelta(seconds=off)))
    assert told_time.strftime("%H:%M") == true_time


def test_a_dead_clock_is_asked_for_its_year() -> None:
    """A clock that stands in 1970 gets day, month and year; the sky of the right night follows."""
    start = datetime(1970, 1, 1, 0, 3, tzinfo=UTC)
    conversation, _ = _after(start, "wrong date", "the fifteenth of October", "twenty twenty six", "wrong hour", "ten past eight")
    now = places.local_time(conversation.moment(start))
    assert (now.date().isoformat(), now.hour, now.minute) == ("2026-10-15", 20, 10)


def _said(start: datetime, *answers: str, last_evening: datetime | None = None) -> list[str]:
    """Return what is said at the beginning and after each answer."""
    conversation = Conversation(EVENING, SITE, load_language(), last_evening=last_evening)
    turn, said = conversation.begin(start), list[str]()
    for words in (*answers, None):
        said.append(conversation.words(turn.sayings[0], start) + " ".join(conversation.words(saying, start) for saying in turn.sayings[1:]))
        if words is not None:
            assert turn.question is not None
            turn = conversation.hear(VOCABULARY.understand(words, turn.question.expects), start)
    return said


@pytest.mark.parametrize(
    ("start", "last", "year"),
    [
        ("2027-10-20", None, None),
        ("2027-12-20", None, "twenty twenty-seven"),
        ("2025-10-15", None, "twenty twenty-five"),
        ("1970-01-01", None, "nineteen seventy"),
        ("2005-03-01", None, "two thousand and five"),
        ("2031-05-05", "2031-04-01", None),
        ("2031-05-05", "2029-04-01", "twenty thirty-one"),
        ("2027-05-05", "2029-04-01", "twenty twenty-seven"),
        ("1970-01-02", "1970-01-01", "nineteen seventy"),
    ],
)
def test_a_year_far_from_the_last_evening_is_said_once(start: str, last: str | None, year: str | None) -> None:
    """More than a year from the last evening, or where none is known from when we were made; not again after the hour is told."""
    begins = datetime.fromisoformat(f"{start}T22:00:00Z")
    last_evening = datetime.fromisoformat(f"{last}T22:00:00Z") if last else None
    first, _, again = _said(begins, "wrong hour", "ten past eight", last_evening=last_evening)
    assert (f", {year}. " in first) == (year is not None)
    assert "twenty twenty" not in first or year is not None
    assert "My clock says ten past eight in the evening, " in again
    assert year is None or year not in again


def test_a_year_in_doubt_is_asked_with_the_date_and_read_back() -> None:
    """Where the year was said, "wrong date" and "wrong year" hear another, and the read-back names it."""
    start = datetime.fromisoformat("2030-10-15T22:00:00Z")
    said = _said(start, "no", "wrong date", "the first of March", "twenty twenty seven", "yes")
    assert said[3] == "What year is it?"
    assert "Monday the first of March, twenty twenty-seven. " in said[4]
    said = _said(start, "wrong year", "twenty twenty nine")
    assert "Monday the fifteenth of October, twenty twenty-nine. " in said[2]


@pytest.mark.parametrize(("start", "shown"), [("2060-02-29T22:00:00Z", "twenty sixty"), ("1890-05-01T22:00:00Z", "eighteen ninety")])
def test_a_year_without_a_sky_is_said_at_the_first_question(start: str, shown: str) -> None:
    """Beyond the ephemeris (JPL DE421, 1899 to 2053) the evening is held all the same, in the year we were made, until told which it is."""
    begins = datetime.fromisoformat(start)
    said = _said(begins, "where is Vega", "leave this part", "go to the targets")
    assert f"My clock shows {shown}: I have no sky for that year, so I'll take twenty twenty-six." in said[0]
    assert ", twenty twenty-six. Moncton time" in said[0]
    assert said[1].startswith("Vega")
    told = _said(begins, "wrong year", "twenty thirty one", "yes", "yes")
    assert ", twenty thirty-one. " in told[2]
    assert "The Sun" in told[4]


def test_no_such_day_is_said() -> None:
    """The thirty first of June changes nothing."""
    start = datetime.fromisoformat("2026-10-15T20:10:00-03:00")
    conversation, _ = _after(start, "wrong date", "the thirty first of June")
    assert conversation.moment(start).time == start


def test_the_place_told_is_the_place_that_holds() -> None:
    """Latitude and longitude by voice move the site, and the zone with it."""
    start = datetime.fromisoformat("2026-10-15T20:10:00-03:00")
    place = ("thirty three degrees twenty four minutes south", "one hundred and forty nine degrees thirty six minutes east", "yes")
    conversation, _ = _after(start, "yes", "no", "latitude and longitude", *place)
    site = conversation.moment(start).site
    assert (site.latitude_deg, site.longitude_deg, site.zone) == (-33.4, 149.6, "Australia/Sydney")


def test_corrections_survive_a_crash_and_are_taken_back() -> None:
    """Resumed from its records an evening has the same corrections; "go back" takes one away again."""
    start = datetime.fromisoformat("2026-10-15T19:10:00-03:00")
    conversation, records = _after(start, "wrong hour", "ten past eight", "yes", "yes", "ready")
    assert conversation.moment(start).time == start + timedelta(hours=1)
    resumed = Conversation(EVENING, SITE, load_language())
    resumed.resume(rebuild(records), start)
    assert resumed.moment(start) == conversation.moment(start)
    for _ in range(4):
        conversation.hear(understand("go back", VOCABULARY.active(YesNoAnswer)), start)
    assert conversation.moment(start).time == start
