"""What a thing is, how far, how big and how bright, in words."""

from __future__ import annotations

from datetime import UTC, datetime
from importlib import resources
from pathlib import Path

import pytest

from companion import observing, sky
from companion.languages import load_language
from companion.observing import rated_showpieces
from companion.sky import Moment, Site
from companion.talk import question_phrases as ask
from companion.talk.night_phrases import MoreAboutIt
from companion.talk.saying import Say

ENGLISH = load_language("en")
HERE = Moment(Site(46.0, 7.0), datetime(2026, 10, 10, 21, 0, tzinfo=UTC))
MOON_KM = (356_400, 406_800)
"""The Moon's nearest and farthest in this century, from the Earth's centre: value from memory; an observer is up to 6,400 km nearer."""


def said(saying: Say) -> str:
    """Return the words."""
    return ENGLISH.words(saying, HERE)


@pytest.mark.parametrize(
    ("saying", "words"),
    [
        (ask.HowFarItIs("Andromeda Galaxy"), "About two point five million light-years away."),
        (ask.HowOldItsLightIs("Hercules Cluster"), "Its light set out about twenty-two thousand years ago."),
        (ask.HowBigItIs("Jupiter"), "About eleven times as wide as the Earth."),
        (ask.HowBigItIs("Moon"), "About a quarter as wide as the Earth."),
        (ask.HowBrightItIs("Hercules Cluster"), "Magnitude five point eight in all, but spread out."),
        (ask.WhatItIs("Ring Nebula"), "Ring Nebula: a planetary nebula. Gas that an old sun has shed: nothing to do with planets."),
        (ask.HowFarItIs("Sigma Cassiopeiae"), "I don't know how far Sigma Cassiopeiae is."),
        (ask.HowOldItsLightIs("Moon"), "Its light takes a little over a second."),
    ],
)
def test_what_is_said(saying: Say, words: str) -> None:
    """Figures rounded to two places, and plainly that we don't know."""
    assert said(saying) == words


@pytest.mark.parametrize(("target", "words"), [("Moon", "The Moon. About "), ("Saturn", "Saturn, a planet. About ")])
def test_more_about_it_names_it_once(target: str, words: str) -> None:
    """The Moon's name is its kind, too."""
    assert ENGLISH.words(MoreAboutIt(target), HERE).startswith(words)


def test_distances_beside_what_is_known() -> None:
    """Sirius at 8.6 light-years (its parallax in the Hipparcos catalogue is 379.21 mas), the Sun at 499 light-seconds (IAU 2012)."""
    assert observing.light_years(sky.find("Sirius")) == pytest.approx(8.60, abs=0.01)
    assert observing.light_seconds(sky.SUN, HERE) == pytest.approx(499.0, rel=0.017)
    moon = observing.light_seconds(sky.MOON, HERE)
    assert moon is not None
    assert MOON_KM[0] - 6_400 <= moon * observing.LIGHT_KM_S <= MOON_KM[1]


def test_the_best_known_have_a_distance() -> None:
    """Every famous showpiece, and more than 200 of all."""
    far = {one.key: observing.light_years(sky.find(one.key)) for one in rated_showpieces()}
    assert not [one.key for one in rated_showpieces() if one.famous and far[one.key] is None]
    assert sum(value is not None for value in far.values()) > 200


def test_whatever_is_shown_can_be_asked_for() -> None:
    """Every showpiece has a name or a number that "show me" knows."""
    named = (Path(str(resources.files("companion.grammars"))) / "en" / "question_names.jsgf").read_text("utf-8")
    assert not [one.key for one in rated_showpieces() if f"{{{sky.find(one.key).name}}}" not in named]
