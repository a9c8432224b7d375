"""The story of every target: what it is, how far and how old its light so far as anybody knows, and what is seen of it."""

from __future__ import annotations

import csv
import re
from datetime import UTC, datetime
from importlib.resources import files

import pytest

from companion import observing
from companion.equipment import Observer
from companion.languages import load_language
from companion.languages.en.fact_words import KINDS
from companion.languages.phrase import Scene
from companion.sky import Moment, Site
from companion.talk.night_phrases import IntroduceTarget, LookAtIt
from companion.talk.question_phrases import TellItsStory
from tests.dialogue.test_jumps import Evening

ENGLISH = load_language("en")
MOMENT = Moment(Site(46.31, -67.52, zone="America/Moncton"), datetime(2026, 10, 15, 23, 30, tzinfo=UTC))
SHOWPIECES = [showpiece.body for showpiece in observing.rated_showpieces()]
SOLAR = ["Moon", "Mercury", "Venus", "Mars", "Jupiter", "Saturn", "Uranus", "Neptune"]
LONGEST_SENTENCE_WORDS = 25
"""What the eye sees is one written sentence of up to twenty-two words; the rest keep to twenty."""


def _story(name: str) -> str:
    return ENGLISH.words(TellItsStory(name), MOMENT)


def test_every_showpiece_has_its_story() -> None:
    """Each says what it really is and what the eye sees, in at most five sentences without figures; none is another's."""
    told = {body.name: _story(body.name) for body in SHOWPIECES}
    assert len(told) > 300
    assert len(set(told.values())) == len(told)
    for body in SHOWPIECES:
        words = told[body.name]
        sentences = re.split(r"(?<=[.?!])\s+", words)
        assert 3 <= len(sentences) <= 6, words
        assert KINDS[body.kind] in words
        seen = ENGLISH.sky.look_for(body, MOMENT)
        assert seen is not None
        assert words.endswith(seen)
        assert not re.search(r"\d|\?|\bstop\b|say that again|\bNone\b", words), words
        assert max(len(sentence.split()) for sentence in sentences) <= LONGEST_SENTENCE_WORDS, words


def test_each_distance_that_is_known_is_told() -> None:
    """Every row of the table of distances is in its object's story, with the age of its light; where none is known, none is told."""
    text = (files("companion.observing.data") / "distances.csv").read_text(encoding="utf-8")
    rows = {row["object"] for row in csv.DictReader(text.splitlines())}
    keys = {showpiece.key: showpiece.body.name for showpiece in observing.rated_showpieces()}
    assert rows <= keys.keys()
    for key, name in keys.items():
        known = observing.light_years(next(body for body in SHOWPIECES if body.name == name)) is not None
        assert known or key not in rows
        assert ("light-years away: its light has been on the way" in _story(name)) == known, name


@pytest.mark.parametrize(
    ("name", "far"),
    [
        ("Andromeda Galaxy", "Two point five million light-years"),
        ("Orion Nebula", "One thousand three hundred light-years"),
        ("Vega", "Twenty-five light-years"),
    ],
)
def test_distances_are_those_of_the_books(name: str, far: str) -> None:
    """M 31 2.5 million, M 42 about 1,300 and Vega 25 light-years (values from memory)."""
    assert far in _story(name)


@pytest.mark.parametrize("name", SOLAR)
def test_moon_and_planets_have_theirs(name: str) -> None:
    """How far each is now, in kilometres, and how long its light takes."""
    words = _story(name)
    assert "kilometres away now" in words
    assert re.search(r"Its light (set out|takes)", words)


def test_who_sees_nothing_is_introduced_to_it_by_its_story() -> None:
    """Unasked, and where it stands, without an eyepiece. Who has someone look is told where to look; the story when it is found."""
    target = IntroduceTarget("Hercules Cluster", "globular cluster", 25.0, True)
    alone = ENGLISH.words(target, MOMENT, Observer(sight="none"))
    assert KINDS["globular cluster"] in alone
    assert "in the west" in alone
    assert "eyepiece" not in alone
    for seen in (Observer(), Observer(sight="none", eyes="child")):
        assert KINDS["globular cluster"] not in ENGLISH.words(target, MOMENT, seen)
    found = LookAtIt("Hercules Cluster", None)
    assert KINDS["globular cluster"] not in ENGLISH.words(found, MOMENT)
    for limited in (Observer(sight="little"), Observer(sight="none", eyes="child")):
        assert KINDS["globular cluster"] in ENGLISH.words(found, MOMENT, limited)


def test_it_is_told_when_asked_for() -> None:
    """Of the target we are at, and of anything by its name."""
    evening = Evening("targets")
    for said, named in (
        ("tell me its story", None),
        ("tell me about the Andromeda Galaxy", "Andromeda Galaxy"),
        ("tell me about Saturn", "Saturn"),
    ):
        turn = evening.says(said)
        saying = turn.sayings[0]
        assert isinstance(saying, TellItsStory)
        assert saying.name == (named or evening.conversation._course.current.decisions[-1].facts["target"])


def test_korean_tells_it_too() -> None:
    """Every showpiece has a story in Korean, in Korean letters."""
    korean = load_language("ko")
    for body in SHOWPIECES:
        words = korean.words(TellItsStory(body.name), MOMENT)
        assert re.fullmatch(r"[가-힣 ,.]+", words), words
    assert Scene(MOMENT.site, MOMENT.time).sight is None
