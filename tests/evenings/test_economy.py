"""How long we talk during a set-up without trouble, from the starting pose to two stars confirmed, in our own voice at its usual rate."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from companion.documents.profile_tables import VoicePreference
from companion.factories import open_voice
from companion.languages import load_language
from companion.sky import Moment, Site
from companion.talk.check_in_phrases import GoodEvening, GoodEveningWhereverYouAre, IsTheClockRight
from companion.talk.equipment_phrases import WhereAreYou
from companion.talk.tour_phrases import TourOffered
from tests.english import VOCABULARY
from tests.evenings.script import HERE, Script

STAGES = ("starting-pose", "power", "settings", "late-pose", "reference-stars")


FIRST_TALK_SECONDS = 12
"""Longer, and whoever listens has forgotten the beginning."""


@pytest.mark.slow
def test_the_first_talk_is_short() -> None:
    """Greeting and clock, in our own voice at its usual rate, of the evening with the longest zone, day and time there are."""
    voice, english = open_voice(VoicePreference(), load_language()), load_language()
    moment = Moment(Site(18.5, -72.3, zone="America/Port-au-Prince"), datetime(2026, 9, 23, 23, 29, tzinfo=UTC))
    words = " ".join(english.words(saying, moment) for saying in (GoodEvening(), IsTheClockRight()))
    assert "twenty-nine minutes past seven in the evening, Wednesday the twenty-third of September. Port-au-Prince time" in words
    seconds = voice.render(words).seconds
    print(f"{seconds:.1f} s: {words}")
    assert seconds < FIRST_TALK_SECONDS


@pytest.mark.slow
def test_the_first_talk_to_a_newcomer_is_short_too() -> None:
    """Greeting, the offer of a tour, and where we are, which is asked first where no profile tells it."""
    voice, english = open_voice(VoicePreference(), load_language()), load_language()
    moment = Moment(Site(0.0, 0.0), datetime(2026, 9, 23, 23, 29, tzinfo=UTC))
    words = " ".join(english.words(saying, moment) for saying in (GoodEveningWhereverYouAre(), TourOffered(), WhereAreYou()))
    seconds = voice.render(words).seconds
    print(f"{seconds:.1f} s: {words}")
    assert seconds < FIRST_TALK_SECONDS


@pytest.mark.slow
@pytest.mark.parametrize(("name", "most_seconds"), [("finder_after_dark", 210), ("few_words", 75)])
def test_speech_is_short(name: str, most_seconds: float) -> None:
    """Three and a half minutes in full, seventy-five seconds in few words: what the set-up may cost, set before it was measured."""
    voice = open_voice(VoicePreference(), load_language())
    said = []
    for line, turn in Script.read(HERE / f"{name}.txt").played(VOCABULARY):
        if turn.stage in STAGES and line.startswith("it:"):
            said.append(line.removeprefix("it:  "))
    # The words that follow the last star's confirmation in the same turn belong to it.
    seconds = sum(voice.render(words).seconds for words in said)
    print(f"{name}: {seconds:.0f} s in {len(said)} turns, {sum(len(words.split()) for words in said)} words")
    assert seconds <= most_seconds
