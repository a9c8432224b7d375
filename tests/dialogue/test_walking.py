"""Walks the evening with every answer each question can take, and at random, over sites and dates: no dead end, no missing phrase."""

from __future__ import annotations

import os
import random
import re
import runpy
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from functools import cache
from importlib import resources
from itertools import product
from typing import get_args

import pytest

from companion import sky
from companion.dialogue import Conversation, Turn
from companion.equipment import Equipment, Mount, Observer, PoseTime, StarChoice
from companion.hearing import ActiveSet
from companion.messages import Heard, NotNow, NotUnderstood, Silence
from companion.procedure import EVENING, Stage
from companion.sky import Moment, Site
from companion.talk.answers import NudgeAnswer, StarNameAnswer, UniversalAnswer
from companion.talk.guidance_phrases import MoreWordsThatAlwaysWork, WhereWeAre, WordsThatAlwaysWork
from companion.talk.question_answers import NEVER_LIVE
from companion.talk.question_phrases import AskedAgain, WhatComesNext
from companion.talk.saying import Answers, Ask
from tests.english import ENGLISH, VOCABULARY

SITES = (
    Site(46.31, -67.52, zone="America/Moncton", name="Spruce Ridge clearing"),
    Site(-33.4, 149.6, zone="Australia/Sydney"),
    Site(1.2, 36.8, zone="Africa/Nairobi"),
    Site(69.7, 19.0, zone="Europe/Oslo"),
    Site(27.7, 85.3, 1400, zone="Asia/Kathmandu"),
    Site(-89.0, 0.0, 2800, zone="UTC"),
)
STARTS = (
    datetime(2026, 1, 10, 18, 0, tzinfo=UTC),
    datetime(2026, 6, 21, 12, 0, tzinfo=UTC),
    datetime(2027, 10, 5, 2, 30, tzinfo=UTC),
    datetime(2031, 3, 3, 22, 0, tzinfo=UTC),
)
STAR_KITS = tuple(Equipment(mount=Mount(star_choice=choice, pose_time="before-power")) for choice in get_args(StarChoice))
POSE_KITS = tuple(Equipment(mount=Mount(star_choice="names", pose_time=pose, last_keys="down-left")) for pose in get_args(PoseTime))
KITS = (Equipment(), *STAR_KITS, *POSE_KITS)
KITS_OF_STAGE = {"reference-stars": STAR_KITS, "starting-pose": (Equipment(), *POSE_KITS), "late-pose": POSE_KITS}
"""The equipment on which a stage depends."""
LONGEST_SENTENCE_WORDS = 20
MOST_PHRASES = 24
"""In the live set of a question: judgement, the recorded evenings are heard as well as with twenty."""


WHOLE = os.environ.get("COMPANION_FULL_SWEEP") == "1"
FEW_PHRASES = 3000
EXAMPLES = {
    example.rule: [other.words for other in grammar.examples if other.rule == example.rule and other.accepted]
    for grammar in VOCABULARY.grammars
    for example in grammar.examples
}


@cache
def commands_for(expects: type[Answers]) -> tuple[Heard, ...]:
    """Return one way of saying each thing that is understood at a question, universal words included; of large rules the examples."""
    active = VOCABULARY.active(expects)
    if active.phrase_count > FEW_PHRASES:
        phrases = [active.parse(words) for words in EXAMPLES[expects.rule()]] + list(VOCABULARY.universal())
    else:
        phrases = list(active.phrases())
    sides = ("star", "side", "across")
    by_meaning = {p.command: p for p in phrases if p} | {(p.command, *(p.slots.get(s) for s in sides)): p for p in phrases[::40] if p}
    return tuple(Heard(phrase.words, phrase.command, phrase.slots) for phrase in by_meaning.values())


def answers_to(question: Ask[Answers]) -> tuple[Heard | NotNow, ...]:
    """Return the same for one question: what other rules give that is an answer here comes with it."""
    names = [VOCABULARY.everything.parse(words) for words in EXAMPLES["star_name"]] if StarNameAnswer in question.also else []
    return (*commands_for(question.expects), *(NotNow(name.words, name.command, name.slots) for name in names if name))


def check_words(turn: Turn, moment: Moment) -> None:
    """Every sentence of a turn exists, in full and in short, is short enough, and points at nothing below the horizon."""
    for saying, observer in product(turn.sayings, (Observer(), Observer(terse=True))):
        words = ENGLISH.words(saying, moment, observer)
        assert words.strip(), saying
        for sentence in re.split(r"(?<=[.?!])\s+", words):
            assert len(sentence.split()) <= LONGEST_SENTENCE_WORDS, sentence
        assert not re.search(r"\d|\bnan\b", words), words
        assert isinstance(saying, Ask | AskedAgain) or "?" not in words, f"a yes would be taken for an answer to the open question: {words}"
        if "below the horizon" in words:
            assert not re.search(r"\bfists? up|\bin the (north|south|east|west)", words), words


def _walked_already(stage: Stage, kit: Equipment) -> bool:
    """Say whether the questions of a stage with this kit are mostly those of another that is walked each time."""
    choice = kit.mount.star_choice
    return choice in ("one", "body", "list") or (choice is not None and stage.name in ("starting-pose", "late-pose"))


@pytest.mark.parametrize(
    ("stage", "kit"),
    [
        # The ways to choose stars share most of their questions, and so do the start positions: the others with the slow tests.
        pytest.param(stage, kit, marks=[pytest.mark.slow] if _walked_already(stage, kit) else [])
        for stage in EVENING
        for kit in KITS_OF_STAGE.get(stage.name, KITS[:1])
    ],
    ids=lambda value: value.name if isinstance(value, Stage) else f"{value.mount.star_choice}-{value.mount.pose_time}",
)
def test_every_answer_to_every_question_leads_on(stage: Stage, kit: Equipment) -> None:
    """From each question a stage can reach within a few answers, every answer gives words and an open question, or the end."""
    site, start = SITES[0], STARTS[0]
    frontier: list[tuple[Heard | NotNow, ...]] = [()]
    seen: set[str] = set()
    while frontier:
        path = frontier.pop()
        turn = None
        conversation = Conversation([stage], site, ENGLISH, equipment=kit)
        turn = conversation.begin(start)
        for step, heard in enumerate(path, 1):
            turn = conversation.hear(heard, start + timedelta(minutes=step))
        check_words(turn, Moment(site, start))
        if turn.question is None or turn.question.code() in seen:
            continue
        seen.add(turn.question.code())
        frontier += [(*path, heard) for heard in answers_to(turn.question)]


def _random_walk(seed: int, turns: int) -> Iterator[tuple[Turn, Moment]]:
    choose = random.Random(seed)
    while True:
        site, time = choose.choice(SITES), choose.choice(STARTS)
        conversation = Conversation(EVENING, site, ENGLISH, equipment=choose.choice(KITS))
        turn = conversation.begin(time)
        while turn.question is not None:
            yield turn, conversation.moment(time)
            turns -= 1
            if turns <= 0:
                return
            time += timedelta(seconds=choose.choice((5, 30, 200, 3000)))
            answer = choose.choice(answers_to(turn.question))
            turn = conversation.hear(choose.choices((answer, NotUnderstood(), Silence()), weights=(10, 1, 1))[0], time)
        yield turn, conversation.moment(time)


@pytest.mark.parametrize("seed", range(3))
def test_random_evenings_never_end_in_a_dead_end(seed: int) -> None:
    """Several hundred random turns over sites and dates: always words that can be spoken, always a way on."""
    for turn, moment in _random_walk(seed, turns=250):
        check_words(turn, moment)


@pytest.mark.slow
def test_ten_thousand_random_turns() -> None:
    """The same, a thousand turns long, or ten thousand with COMPANION_FULL_SWEEP=1."""
    for turn, moment in _random_walk(99, turns=10_000 if WHOLE else 1_000):
        check_words(turn, moment)


@pytest.mark.parametrize("stage", [stage.name for stage in EVENING])
def test_every_stage_can_be_told(stage: str) -> None:
    """Whoever is lost is told which part of the evening it is, and what comes next."""
    moment = Moment(SITES[0], datetime(2026, 10, 15, 23, 0, tzinfo=UTC))
    for saying in (WhereWeAre(stage), WhatComesNext(stage)):
        assert ENGLISH.words(saying, moment)


def test_what_help_offers_is_understood() -> None:
    """Every word that help names for a question is in that question's grammar."""
    for expects, words in ENGLISH.book.sayable.items():
        for phrase in words:
            assert VOCABULARY.active(expects).parse(phrase) is not None, (expects, phrase)


def test_questions_are_small() -> None:
    """Few phrases a question beside the universal ones; measures, names and numbers have a step of their own."""
    for grammar in VOCABULARY.grammars:
        for rule in grammar.public_rules:
            if rule in {asked.rule() for asked in (*NEVER_LIVE, NudgeAnswer)}:
                continue  # Never live.
            large = (
                "misses",
                "star_names",
                "numbers",
                "equipment_figures",
                "told_figures",
                "towns",
                "typed",
                "town_letters",
                "otherwise",
                "typed",
                "ways_to_say",
            )
            if grammar.name in large or rule in ("year", "universal", "key_place", "star_count"):
                continue
            assert ActiveSet.of((grammar, rule)).phrase_count <= MOST_PHRASES, rule


def test_rules_have_one_home() -> None:
    """A rule's name is in one file only, since questions name rules without their file; other words for an answer may be in two."""
    rules = [(grammar.name, rule) for grammar in VOCABULARY.grammars for rule in grammar.public_rules]
    homes = [rule for name, rule in rules if name != "ways_to_say"]
    assert len(homes) == len(set(homes))
    assert all(rule.endswith("_otherwise") for name, rule in rules if name == "ways_to_say")


def test_no_sentence_of_ours_silences_or_repeats_us() -> None:
    """The words that are live while we speak appear in nothing we say, so that our own voice can't trigger them."""
    for turn, moment in _random_walk(7, turns=250):
        for saying in turn.sayings:
            assert not re.search(r"\bstop\b|say that again", ENGLISH.words(saying, moment), re.IGNORECASE)


STEERS = {
    "TurnByCompass", "MissHeard", "FaceTrueNorth", "PressRightOnce", "PressUpOnce", "PressTheseKeys", "WhichWayAndHowFar",
    "WhereWasTheLastStar", "NorthByTheShadow", "FirstStar", "AnotherStar", "FindStar", "WhereFromTheMoon", "WhereInTheView",
    "StartByHand", "StepByEye", "StepByFinder", "AndToWhichSide", "IsItCentred", "SayWhichWay", "NorthByThePole",
    "WhichArrowIsByTheCable", "WhereIsTheConfirmKey",
}  # fmt: skip
"""The phrases that point to a side: which way to turn, where something lies, which arrow."""
OFFERS_A_SIDE = {"YouCanSay", "HelpWithStep"}
"""Help names answers, sides among them."""


def test_a_side_is_named_only_where_one_is_meant() -> None:
    """Only phrases that steer say "right" or "left": said of a star passed by, "left" would send the tube away."""
    others = [
        (name, words)
        for name, words in _all_that_is_said()
        if name not in STEERS | OFFERS_A_SIDE and re.search(r"\b(right|left)\b", words.replace("Is that right?", ""))
    ]
    assert not others


def _all_that_is_said() -> Iterator[tuple[str, str]]:
    """Yield every fixed phrase of the book, and what random evenings say of the others."""
    for entries in (ENGLISH.book.phrases, ENGLISH.book.terse):
        yield from ((kind.__name__, words) for kind, words in entries.items() if isinstance(words, str))
    for turn, moment in _random_walk(11, turns=150):
        for saying, observer in product(turn.sayings, (Observer(), Observer(terse=True))):
            saying = saying.question if isinstance(saying, AskedAgain) else saying  # noqa: PLW2901 - put again in its own words
            yield type(saying).__name__, ENGLISH.words(saying, moment, observer)


def test_grammar_examples_hold() -> None:
    """The examples written beside the rules are understood, the counter-examples are not."""
    for grammar in VOCABULARY.grammars:
        assert grammar.examples
        grammar.check_examples()


def test_star_names_are_those_of_the_table() -> None:
    """The grammar of star names is what its maker writes today, and each name in it is a body we can find."""
    make = runpy.run_path(str(resources.files("companion.grammars") / "make_star_names.py"))
    assert (resources.files("companion.grammars") / "en" / "star_names.jsgf").read_text("utf-8") == make["grammar_text"]()
    for phrase in VOCABULARY.active(StarNameAnswer).phrases():
        star = phrase.slots.get("star") or phrase.slots.get("constellation")
        assert star is None or sky.find(star).name == star


def test_the_words_said_to_work_anywhere_do() -> None:
    """Every word that the last help names is a universal one."""
    offered = f"{ENGLISH.book.phrases[WordsThatAlwaysWork]} {ENGLISH.book.phrases[MoreWordsThatAlwaysWork]}"
    for words in re.findall(r"(?<=: )[^.:]+(?=\.)", offered):
        for phrase in words.split(", "):
            assert VOCABULARY.active(UniversalAnswer).parse(phrase) is not None, phrase
