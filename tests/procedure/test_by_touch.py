"""An evening of somebody who sees nothing: what is done by touch and ear, what honestly can't be done, and where the Sun is."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from companion import sky
from companion.dialogue import Conversation, rebuild
from companion.equipment import Equipment, Mount, Observer, SightLeft
from companion.languages import load_language
from companion.languages.phrase import Scene
from companion.procedure import EVENING
from companion.procedure.align_mount import Aligned
from companion.sky import Moment, Site
from companion.talk import every_ask
from companion.talk.answers import EyepieceAnswer, FinderAnswer, ProofAnswer, UnseenAnswer, ViewAnswer
from companion.talk.centring_phrases import ConfirmStar, PressTheseKeys
from companion.talk.ground_phrases import CapsAndCooling, CapsAndTheSun, LevelTheTripod
from companion.talk.pose_phrases import FaceTrueNorth, LevelTheBase, NorthByLandmark, SayWhenItIsOn, SwitchOn
from companion.talk.sight_phrases import (
    AidNoted,
    ConfirmKeyAt,
    NobodyLooks,
    WhatTellsYouLevel,
    WhereIsTheConfirmKey,
    WhichArrowIsByTheCable,
)
from companion.talk.stars_phrases import BeforeTheStars
from tests.dialogue.test_jumps import NIGHT, SITE, Evening

ENGLISH = load_language("en")
BLIND = Observer("card", sight="none", level_aid="phone")
KIT = Equipment(mount=Mount(star_choice="list", pose_time="before-power", last_keys="up-right"), observer=BLIND)
SIGHT_WORDS = re.compile(r"\b(look|see|watch|bubble|torch|shadow|its mark on)\b", re.IGNORECASE)


def _with(observer: Observer) -> Equipment:
    return replace(KIT, observer=observer)


def _words(evening: Evening) -> str:
    return " ".join(evening.conversation.words(saying, evening.now) for saying in evening.turn.sayings)


def test_set_up_needs_no_eye() -> None:
    """From the tripod to the settings nothing is to be seen: each step is done by touch, by ear, or has the display read."""
    evening = Evening("ground", kit=_with(replace(BLIND, level_aid=None)))
    told = [_words(evening)]
    for line in (
        *("ready", "a raised mark", "it's level", "ready", "ready", "ready", "ready", "no", "it's level", "another way", "facing north"),
        *("the tube is level", "it's on", "the down arrow", "row three key two"),
    ):
        evening.says(line)
        told.append(_words(evening))
    assert evening.turn.stage == "settings"
    for words in told:
        for sentence in re.split(r"(?<=[.?!])\s+", words):
            assert not SIGHT_WORDS.search(sentence) or re.search(r"someone|watch for cables", sentence), sentence
    everything = " ".join(told)
    for tool in ("level with the raised mark", "the raised mark along the tube", "talking compass", "cord", "display read"):
        assert tool in everything
    assert everything.count("talking phone") == 1, "only where it is asked what there is"


@pytest.mark.parametrize("sight", ["none", "little"])
@pytest.mark.parametrize(
    ("said", "aid", "then"),
    [
        ("a talking phone", "phone", "Lay the talking phone flat on its top"),
        ("a raised mark", "mark", "Lay the level with the raised mark on its top"),
        ("neither", "none", "a marble on the book"),
    ],
)
def test_what_tells_level_is_asked_once(sight: SightLeft, said: str, aid: str, then: str) -> None:
    """Before it is needed first; then only that aid is spoken of, also another evening; who sees, or has somebody look, isn't asked."""
    evening = Evening("ground", kit=_with(replace(BLIND, sight=sight, level_aid=None)))
    evening.says("ready")
    assert isinstance(evening.turn.question, WhatTellsYouLevel)
    evening.says(said)
    assert then in _words(evening)
    assert evening.conversation.equipment.observer.level_aid == aid
    later = Evening("ground", kit=evening.conversation.equipment)
    assert isinstance(later.says("ready").question, LevelTheTripod)
    assert then in _words(later)
    for observer in (Observer("card"), replace(BLIND, eyes="child")):
        assert isinstance(Evening("ground", kit=_with(observer)).says("ready").question, LevelTheTripod)


def test_what_tells_level_is_not_asked_again_of_who_left_it_out() -> None:
    """Skipped at the tripod it stays open all evening, also at the start position; no profile says there is none."""
    evening = Evening("ground", kit=_with(replace(BLIND, level_aid=None)))
    asked = 0
    for line in ("ready", "skip this", "it's level", "ready", "ready", "ready", "ready", "no"):
        evening.says(line)
        asked += isinstance(evening.turn.question, WhatTellsYouLevel)
    assert (asked, type(evening.turn.question)) == (1, LevelTheBase)
    assert evening.conversation.equipment.observer.level_aid is None


@pytest.mark.parametrize(
    ("said", "observer"),
    [
        ("I have a talking compass", Observer("card", sight="none")),
        ("I have a level with a raised mark", Observer(level_aid="mark", sight="none")),
        ("I've got a phone that talks", Observer(level_aid="phone", sight="none")),
    ],
)
def test_aids_may_be_told_at_any_time(said: str, observer: Observer) -> None:
    """Told unasked they are confirmed, kept through a crash, and not asked for any more."""
    evening = Evening("check-in", kit=_with(Observer(sight="none")))
    asked = evening.turn.question
    assert evening.says(said).question == asked
    assert AidNoted() in evening.turn.sayings
    assert evening.conversation.equipment.observer == observer
    resumed = Conversation(EVENING, SITE, ENGLISH, [].append, _with(Observer(sight="none")))
    resumed.resume(rebuild(evening.records), evening.now)
    assert resumed.equipment.observer == observer


def test_poor_sight_is_asked_for_nothing_fine() -> None:
    """Who sees little gets no bubble, no small print, no distant landmark and no faint star; stars are centred as large discs."""
    fine = re.compile(r"bubble|number on it|landmark|Find a distant|Milky Way|going up, or going down", re.IGNORECASE)
    evening = Evening("ground", kit=_with(Observer("card", sight="little", level_aid="mark")))
    told = [_words(evening)]
    for line in (
        *("ready", "it's level", "ready", "ready", "ready", "ready", "no", "it's level", "facing north", "the tube is level", "it's on"),
        *("the down arrow", "row three key two", "everything's in", "it's in the finder", "just off to the right", "right", "dead centre"),
    ):
        evening.says(line)
        told.append(_words(evening))
    assert evening.turn.stage == "reference-stars"
    assert not [words for words in told if fine.search(words)]
    assert any("large disc" in words for words in told)


@pytest.mark.parametrize(("sight", "limits"), [("little", {"faint-stars"}), ("none", set()), (None, set())])
def test_poor_sight_sees_nothing_faint(sight: SightLeft | None, limits: set[str]) -> None:
    """It counts as a limit, unless somebody looks; a story needs no sight."""
    assert Observer(sight=sight).hard == limits
    assert Observer(sight=sight, eyes="child").hard == set()


def test_nobody_there_is_asked_for_an_eye() -> None:
    """Where nobody sees, what only an eye answers isn't asked: it is said what would help; with a child it is asked as ever."""
    for_an_eye = (FinderAnswer, EyepieceAnswer, ViewAnswer, ProofAnswer, UnseenAnswer)
    questions = [question for question in every_ask() if question.expects in for_an_eye]
    assert len(questions) > 15
    for question in questions:
        entry = ENGLISH.book.without_own_eye(question, Scene(SITE, NIGHT, sight="none"))
        assert entry == "This needs an eye. Say: someone looks for me. Or, to go on to the stories: leave this part."
        assert entry != ENGLISH.book.without_own_eye(question, Scene(SITE, NIGHT, sight="none", eyes="child"))


def test_the_first_help_is_for_hands_too() -> None:
    """Asked for help at a step by touch, no blind owner is told of a bubble, a light or a landmark."""
    unseen = re.compile(r"\b(bubble|light up|landmark|stars, a shadow)\b", re.IGNORECASE)
    scene = Scene(SITE, NIGHT, sight="none")
    by_touch = [question for question in every_ask() if question in ENGLISH.book.by_touch]
    for question in (*by_touch, SwitchOn, SayWhenItIsOn):
        assert not unseen.search(ENGLISH.book.help_with(question, scene)), question
    assert unseen.search(ENGLISH.book.help_with(LevelTheTripod, Scene(SITE, NIGHT)))


def test_only_ways_to_north_without_an_eye_are_offered() -> None:
    """The compass, then a known direction: no star, no sunset, no shadow. By day neither."""
    for start in (NIGHT, NIGHT - timedelta(hours=2)):
        evening = Evening("starting-pose", start=start, kit=KIT)
        assert isinstance(evening.says("it's level").question, FaceTrueNorth)
        assert isinstance(evening.says("another way").question, NorthByLandmark)


def test_keys_are_learnt_once_by_feel() -> None:
    """Two questions, noted for the profile; the key that confirms is then told by its place; who sees isn't asked, nor is anybody twice."""
    evening = Evening("power", kit=KIT)
    assert isinstance(evening.says("it's on").question, WhichArrowIsByTheCable)
    assert isinstance(evening.says("the down arrow").question, WhereIsTheConfirmKey)
    assert ConfirmKeyAt(3, 2) in evening.says("row three key two").sayings
    mount = evening.conversation.equipment.mount
    assert (mount.arrow_by_cable, mount.confirm_row, mount.confirm_key_in_row) == ("down", 3, 2)
    words = ENGLISH.words(ConfirmStar("Vega", "enter"), evening.conversation.moment(evening.now), BLIND, mount=mount)
    assert "row three from the cable, key two" in words
    with_child = Observer(sight="none", eyes="child")
    moment = evening.conversation.moment(evening.now)
    for keys, feel in ((("up",), "The up arrow is farthest from the cable"), (("left", "down"), "The down arrow is nearest the cable")):
        assert feel in ENGLISH.words(PressTheseKeys(keys, ()), moment, with_child, mount=mount)
    assert "cable" not in ENGLISH.words(PressTheseKeys(("left",), ()), moment, with_child, mount=mount)
    again = Evening("power", kit=Equipment(KIT.instrument, mount, BLIND))
    assert again.says("it's on").question == evening.turn.question
    seeing = Evening("power")
    assert seeing.says("it's on").question == evening.turn.question


@pytest.mark.parametrize("said", ["I can't tell", "skip this"])
def test_keys_nobody_can_tell_are_left(said: str) -> None:
    """Without an answer the settings begin, and nothing is noted."""
    evening = Evening("power", kit=KIT)
    turn = evening.says("it's on", said)
    assert (turn.question, turn.stage) == (Evening("settings").turn.question, "settings")
    assert evening.conversation.equipment.mount == KIT.mount


def test_centring_alone_is_said_to_be_impossible() -> None:
    """Honest, once; left, the evening goes on with stories; a helper who comes makes the alignment possible at once."""
    evening = Evening("settings", kit=KIT)
    assert isinstance(evening.says("skip this", "everything's in").question, NobodyLooks)
    assert "can't be done" in _words(evening)
    turn = evening.says("skip this")
    assert turn.stage == "targets"
    assert next(result for result in evening.conversation.results if isinstance(result, Aligned)).outcome == "incomplete"
    assert "its light has been on the way" in _words(evening)
    with_help = Evening("settings", kit=KIT)
    with_help.says("skip this", "everything's in", "someone looks for me")
    assert isinstance(with_help.turn.question, NobodyLooks)
    assert any(isinstance(saying, BeforeTheStars) for saying in with_help.says("ready").sayings)
    assert "eyes to the finder" in _words(with_help)


@pytest.mark.parametrize("observer", [BLIND, Observer("card", sight="none", eyes="child"), Observer("card", eyes="helper")])
@pytest.mark.parametrize("saying", [CapsAndCooling(), CapsAndTheSun()])
@pytest.mark.parametrize("hour", [13, 15, 18, 21])
def test_where_the_sun_is_comes_before_anything_is_uncapped(observer: Observer, saying: CapsAndCooling | CapsAndTheSun, hour: int) -> None:
    """Its compass point and height by the ephemeris, first of all, whenever it is up and a cap is spoken of."""
    moment = Moment(SITE, datetime(2026, 10, 15, hour, 0, tzinfo=UTC))
    sun = sky.sight(sky.SUN, moment)
    assert sun.altitude_deg > 0
    points = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
    words = ENGLISH.words(saying, moment, observer)
    assert words.startswith(f"The Sun stands in the {points[round(sun.azimuth_deg / 45) % 8]}, ")
    assert re.search(r"fists?( and a half)? up|half a fist up|fingers? up", words)


def test_by_night_nothing_is_said_of_the_sun() -> None:
    """It is down."""
    assert "Sun" not in ENGLISH.words(CapsAndCooling(), Moment(Site(46.31, -67.52), NIGHT), BLIND)
