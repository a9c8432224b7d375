"""The words for two: what eyes are told is short enough for a child, what hands do is told to hands, and the cautions are for both."""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest

from companion.equipment import Looker, Observer, SightLeft
from companion.languages import load_language
from companion.sky import Moment, Site
from companion.talk import centring_phrases as centring
from companion.talk import every_ask, every_say
from companion.talk.answers import EyepieceAnswer, FinderAnswer, ProofAnswer, SettingAnswer, ViewAnswer
from companion.talk.by_hand_phrases import StartByHand, StepByEye, StepByFinder
from companion.talk.ground_phrases import CapsAndTheSun, PickAFarMark, PickAMarkAfterDark
from companion.talk.mistakes_phrases import CheckThis, MendThese, WhereWasTheLastStar, WhichWayAndHowFar
from companion.talk.mount_phrases import IsItReallyThat, MayITurnThere
from companion.talk.night_phrases import HowManyStarsInside, IntroduceTarget, LookAtIt
from companion.talk.pose_phrases import FaceTrueNorth, NorthByAMark, SwitchOn
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Saying
from companion.talk.settings_phrases import BeforeTheSettings, KeyTheDate, KeyTheLatitude, KeyTheLongitude, KeyTheTime
from companion.talk.stars_phrases import AnotherStar, BeforeTheStars, FindStar, FirstStar, KeepPeopleBack
from companion.talk.targets_phrases import NearlyProven, ProofStar
from companion.talk.turning_phrases import ItPointsThere, ShallITurnThere, ShallITurnThereToo

ENGLISH = load_language("en")
NIGHT = Moment(Site(46.31, -67.52, zone="America/Moncton"), datetime(2026, 10, 15, 23, 30, tzinfo=UTC))
NOON = Moment(NIGHT.site, datetime(2026, 10, 15, 16, 0, tzinfo=UTC))
LONGEST_FOR_A_CHILD = 16
"""Words a sentence. Judgement."""
LONGEST = 20
SAYINGS: tuple[Saying, ...] = (
    PickAFarMark(300.0),
    FaceTrueNorth("card"),
    FaceTrueNorth("needle"),
    BeforeTheStars("list"),
    FirstStar("Vega", None),
    AnotherStar("Altair", "Vega"),
    FindStar("Vega"),
    centring.IsItInTheFinder(True),
    centring.IsItInTheFinder(),
    centring.SeeTheFinderIsTrue("Vega"),
    centring.IsItCentred("Vega", True),
    centring.IsItCentred("Vega", False),
    centring.IsItCentred("Moon", True),
    centring.BackToTheFinder("Vega"),
    centring.PressTheseKeys(("up", "right"), ("down",)),
    ProofStar("Vega"),
    IntroduceTarget("Hercules Cluster", "globular cluster", None, True),
    PickAMarkAfterDark("lamp", 300.0),
    NorthByAMark("Moon"),
    WhichWayAndHowFar("Zubenelgenubi"),
    WhereWasTheLastStar("Rigil Kentaurus"),
    CheckThis("longitude", "Vega"),
    CheckThis("bubble", "Vega"),
    CheckThis("clamps", "Vega"),
    CheckThis("double", "Vega", "Deneb"),
    CheckThis("heading", "Vega", None, "needle"),
    MendThese(("latitude",), "Vega", "unknown"),
    NearlyProven("Vega"),
    LookAtIt("Moon", 25.0),
    HowManyStarsInside(("Alpheratz", "Scheat", "Markab", "Algenib")),
    StartByHand("Vega"),
    StepByEye(279.2, 38.8, 284.7, 32.7, None),
    StepByFinder(279.2, 38.8, 284.7, 32.7, 5.0, "Ring Nebula"),
    ItPointsThere("Ring Nebula", "planetary nebula"),
    MayITurnThere("Deneb"),
    IsItReallyThat("Deneb", 11.0),
    ShallITurnThere("Ring Nebula", "planetary nebula", 25.0, True),
    ShallITurnThere("Ring Nebula", "planetary nebula", 25.0, False, again=True),
    ShallITurnThereToo("Ring Nebula", "planetary nebula", None, False),
    KeyTheDate("day-month"),
    KeyTheTime(24),
)
"""One of each that has facts."""
ONE_MORE = (
    KeyTheDate
    | KeyTheLatitude
    | KeyTheLongitude
    | ShallITurnThere
    | ShallITurnThereToo
    | StartByHand
    | StepByFinder
    | HowManyStarsInside
    | LookAtIt
    | PickAMarkAfterDark
    | NorthByAMark
    | MendThese
)
"""A place in the sky, a picture or a remedy is told as ever; who does what comes before it."""


def _sayings() -> list[Saying]:
    """Return everything that has words for two."""
    told = {type(saying): saying for saying in SAYINGS}
    plain = [kind() for kind in (*every_say(), *every_ask()) if kind in ENGLISH.book.relayed and kind not in told]
    assert {type(saying) for saying in (*SAYINGS, *plain)} == set(ENGLISH.book.relayed)
    return [*SAYINGS, *plain]


def _words(saying: Saying, eyes: Looker | None, sight: SightLeft | None = "none", moment: Moment = NIGHT) -> str:
    return ENGLISH.words(saying, moment, Observer(sight=sight, eyes=eyes))


@pytest.mark.parametrize("saying", _sayings(), ids=lambda saying: saying.code())
@pytest.mark.parametrize("eyes", ["child", "helper"])
def test_sentences_are_short(saying: Saying, eyes: Looker) -> None:
    """At most four, each of at most twenty words, what is said to eyes of at most sixteen; nothing that silences us, no figures."""
    sentences = re.split(r"(?<=[.?!])\s+", _words(saying, eyes))
    assert len(sentences) <= 4 or isinstance(saying, FirstStar | AnotherStar | FindStar | ProofStar | ONE_MORE)
    for sentence in sentences:
        assert len(sentence.split()) <= (LONGEST_FOR_A_CHILD if sentence.startswith("Eyes:") else LONGEST), sentence
        assert not re.search(r"\d|\bstop\b|say that again", sentence)


@pytest.mark.parametrize("eyes", ["child", "helper"])
def test_each_question_for_the_eye_has_its_own_words(eyes: Looker) -> None:
    """Whatever is answered with finder, eyepiece or view is put to eyes, in its last sentence when asked again."""
    for question in every_ask():
        if question.expects in (FinderAnswer, EyepieceAnswer, ViewAnswer, ProofAnswer) and question not in (
            centring.TheSkyDarkens,
            centring.IsItInTheFinder,
        ):
            asked = next((saying for saying in SAYINGS if type(saying) is question), None) or question()
            assert re.search(r"\beyes\b", _words(asked, eyes), re.IGNORECASE), question
            assert _words(asked, eyes).endswith(_words(AskedAgain(asked), eyes))


def test_korean_has_words_for_two_wherever_english_has() -> None:
    """Each names eyes, hands or both; a turn and switching on have the child held."""
    korean = load_language("ko")
    assert set(korean.book.relayed) == set(ENGLISH.book.relayed)
    told = {type(saying): korean.words(saying, NIGHT, Observer(sight="none", eyes="child")) for saying in _sayings()}
    whom = re.compile("눈[,은이과 ]|손[,은이 ]|둘 다|아이")
    unsaid = {kind.__name__ for kind, words in told.items() if not whom.search(words)}
    assert unsaid == {"CapsAndTheSun", "CapsAndCooling", "IntroduceTarget"}
    for kind in (MayITurnThere, ShallITurnThere, ShallITurnThereToo, SwitchOn):
        assert "아이 손을 잡고 둘 다" in told[kind]


def test_the_child_is_the_eye() -> None:
    """Nobody sends the child away: it is told where to stand, and when to look."""
    told = _words(KeepPeopleBack(), "child")
    assert "Keep the children back" not in told
    assert "stands behind you" in told
    assert "only when I say eyes" in told
    assert "Take the child by the hand" in _words(SwitchOn(), "child")
    assert "child" not in _words(KeepPeopleBack(), "helper") + _words(SwitchOn(), "helper")


@pytest.mark.parametrize(
    "turn",
    [MayITurnThere("Deneb"), ShallITurnThere("Moon", "moon", None, False), ShallITurnThereToo("Moon", "moon", None, False, again=True)],
)
def test_both_stand_clear_of_a_turn(turn: Saying) -> None:
    """Before a mount on the line turns, both are told how far off to stand; a child is held."""
    assert "Take the child by the hand, both more than the tube's length off" in _words(turn, "child")
    assert "Both more than the tube's length off" in _words(turn, "helper")
    assert re.search(r"Shall I turn it[^.?]*\?$", _words(turn, "child"))


def test_a_turn_for_two_introduces_its_target_as_ever() -> None:
    """The eyepiece to take is named, too."""
    facts = ("Ring Nebula", "planetary nebula", 25.0, True)
    introduced = _words(IntroduceTarget(*facts), "child")
    assert "twenty-five" in introduced
    assert _words(ShallITurnThere(*facts), "child").startswith(introduced)


def test_what_it_reads_is_settled_by_the_eye() -> None:
    """Where the mount's own reading speaks against it, eyes are asked; each line of the display says who reads and who keys."""
    assert _words(IsItReallyThat("Deneb", 11.0), "child").endswith("Eyes: is it really Deneb?")
    keyed = {kind for kind in every_ask() if kind.expects is SettingAnswer}
    assert keyed <= set(ENGLISH.book.relayed)
    assert all(_words(kind(), "helper").startswith("Eyes read, hands key. ") for kind in keyed)


@pytest.mark.parametrize("saying", [CapsAndTheSun(), BeforeTheStars("body")])
def test_by_day_nobody_looks_towards_the_sun(saying: Saying) -> None:
    """The caution is for both, before anything is uncapped or turned, while the Sun is up."""
    assert re.search(r"nobody looks towards (it|the Sun)", _words(saying, "child", moment=NOON), re.IGNORECASE)
    assert "the Sun" not in _words(BeforeTheStars("body"), "child", moment=NIGHT)


def test_who_sees_for_themselves_hears_what_was_always_said() -> None:
    """Without a looker, and with some sight, every sentence is the usual one."""
    for saying in _sayings():
        assert _words(saying, None, None) == ENGLISH.words(saying, NIGHT)
    assert "Eyes" not in _words(BeforeTheSettings(), None, "little")


def test_nothing_is_put_to_an_eye_that_nobody_there_has() -> None:
    """Every question whose usual words send somebody to look has words for two, but those that hands or memory answer."""
    by_hand_or_memory = {
        "ClampAndBalance", "CapEverything", "CapBeforeItMoves", "AnybodyHurt", "AnotherEyepiece", "HasItADiagonal", "WhichFinder",
        "HowWideIsTheFinder", "HowWideForTheWay", "WhatIsHardForYou", "DoYouSeeTheMilkyWay", "TooNearTheSun", "EyesDazzled",
    }  # fmt: skip
    looks = re.compile(r"\b(look|see|sees|read|bubble|display|finder|eyepiece|sight along)\b", re.IGNORECASE)
    plain = {kind: words for kind in every_ask() if isinstance(words := ENGLISH.book.phrases[kind], str)}
    found = {kind.__name__ for kind, words in plain.items() if looks.search(words) and kind not in ENGLISH.book.relayed}
    assert found == by_hand_or_memory


def test_two_who_know_the_way_hear_few_words() -> None:
    """A line of the display is said to them as to one who knows it; who reads and who keys is said once, before."""
    for code in ("en", "ko"):
        language = load_language(code)
        for kind, words in language.book.relayed_tersely.items():
            assert kind in language.book.relayed, words
        for line in (KeyTheDate("day-month"), KeyTheTime(24)):
            one, two = (language.words(line, NIGHT, Observer(sight="none", eyes=eyes, terse=True)) for eyes in (None, "helper"))
            assert one == two
    before = ENGLISH.words(BeforeTheSettings(), NIGHT, Observer(eyes="helper", terse=True))
    assert before == "Now the settings: eyes read, hands key."
