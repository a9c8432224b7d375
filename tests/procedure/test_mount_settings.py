"""The settings, in our order or the mount's: each line alone, in the form it is keyed."""

from __future__ import annotations

from datetime import datetime

from companion.dialogue import Conversation
from companion.equipment import Equipment, Mount
from companion.hearing import understand
from companion.languages import load_language
from companion.procedure import EVENING, Stage
from companion.sky import Moment, Site
from companion.talk.answers import SettingAnswer
from companion.talk.settings_phrases import KeyTheElevation
from tests.english import VOCABULARY

SETTINGS: Stage = next(stage for stage in EVENING if stage.name == "settings")
START = datetime.fromisoformat("2026-10-15T20:10:30-03:00")
SITE = Site(46.31, -67.52, zone="America/Moncton")


def _said(*answers: str, mount: Mount | None = None) -> list[str]:
    """Return all that is said, a string a turn."""
    conversation = Conversation([SETTINGS], SITE, load_language(), equipment=Equipment(mount=mount or Mount()))
    turn = conversation.begin(START)
    said = [" ".join(conversation.words(saying, START) for saying in turn.sayings)]
    for words in answers:
        turn = conversation.hear(understand(words, VOCABULARY.active(SettingAnswer)), START)
        said.append(" ".join(conversation.words(saying, START) for saying in turn.sayings))
    assert turn.finished or turn.question is not None
    return said


def test_what_the_mount_asks_for_is_said_alone() -> None:
    """Each request gets its line and nothing else; the figures are those of the place and minute, worked out by hand."""
    said = _said("it's asking for the zone", "it wants the latitude", "it wants the longitude", "it says daylight saving", "east or west")
    assert said[1] == "The zone, without daylight saving: minus four hours."
    assert said[2] == "Latitude. Degrees four six. Minutes one eight. Seconds three six. North."
    assert said[3] == "Longitude. Degrees zero six seven. Minutes three one. Seconds one two. West."
    assert said[4].startswith("Daylight saving: on.")
    assert said[5].startswith("North, and west.")


def test_each_line_is_read_once_in_our_order() -> None:
    """Lines that the mount asked for already are not read a second time; after the last one the stage is over."""
    said = _said("it wants the time", *["next line"] * 6)
    assert [words.split(".")[0].split(":")[0].split(",")[0] for words in said[1:-1]] == [
        "The time",
        "The date",
        "Daylight saving",
        "The zone",
        "Latitude",
        "Longitude",
    ]
    assert said[-1] == ""


def test_the_form_follows_the_mount() -> None:
    """Twelve hours and the month first, by the profile or on request."""
    assert "Hours zero eight. Minutes one zero. P M." in _said("it wants the time", "twelve hours")[2]
    assert "Hours two zero. Minutes one zero." in _said("it wants the time", "twenty four hours")[2]
    assert _said("month first")[1].startswith("The date. The month is October: one zero. Day one five.")
    by_profile = _said("it wants the time", mount=Mount(hours=12, date_order="year-month-day"))
    assert by_profile[0].endswith("The date. Year two zero two six. The month is October: one zero. Day one five.")
    assert by_profile[1].startswith("The time, on the twelve-hour clock.")


def test_a_city_brings_its_place() -> None:
    """From the city list on, latitude and longitude are not read any more; the cities named keep our clock (GeoNames: Halifax, 440,000)."""
    said = _said("it wants a city", *["next line"] * 5)
    assert said[1].startswith("The nearest city: ")
    assert "take Halifax" in said[1]
    assert not any("Latitude" in words or "Longitude" in words for words in said)
    assert said[-1] == ""


def test_the_elevation_in_the_measure_of_the_place() -> None:
    """180 m are read digit by digit; in the United States as 591 feet (180 / 0.3048)."""
    high = Site(46.31, -67.52, 180, zone="America/Moncton")
    assert load_language().words(KeyTheElevation(), Moment(high, START)) == "The elevation, above the sea: one eight zero metres."
    maine = Site(46.31, -68.0, 180, zone="America/New_York")
    assert load_language().words(KeyTheElevation(), Moment(maine, START)) == "The elevation, above the sea: five nine one feet."
