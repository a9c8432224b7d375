"""The interview about place, telescope, mount and observer: each answer's meaning, and that any answers end with valid equipment."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Mapping
from dataclasses import replace

import pytest

from companion.documents.equipment_tables import equipment_from
from companion.equipment import Equipment, Eyepiece, Instrument, Mount, Observer, Obstruction
from companion.languages.en.equipment_phrases import EQUIPMENT
from companion.messages import Answer, NotNow
from companion.procedure import Context, ask_equipment, ask_horizon, ask_instrument, ask_mount, ask_observer
from companion.procedure.equipment_told import EquipmentTold, InstrumentTold, tables_of
from companion.procedure.script import Steps
from companion.sky import Site
from companion.talk.equipment_phrases import WhereAreYou
from companion.talk.help_phrases import YouCanSay
from companion.talk.saying import Answers, Ask, Saying
from tests.any_phrase import any_phrase
from tests.interview import LONGEST_SENTENCE_WORDS, SITE, TIME, VOCABULARY, check_words, hold, live, typed, words_of

CONTEXT = Context(SITE, TIME, {})

EVERYTHING: Mapping[str, str | list[str]] = {
    "where-are-you": "latitude and longitude",
    "your-latitude": "forty six degrees eighteen minutes north",
    "your-longitude": "sixty seven degrees thirty one minutes west",
    "aperture": "two hundred millimetres",
    "focal-length": "one two zero zero",
    "which-eyepiece": ["twenty five millimetres", "nine point seven"],
    "apparent-field": ["fifty two degrees", "skip this"],
    "another-eyepiece": ["yes", "no"],
    "has-it-a-diagonal": "yes",
    "which-finder": "a red dot",
    "which-compass": "my phone",
    "which-north-does-the-phone-show": "magnetic north",
    "who-chooses-the-stars": "I choose from its list",
    "when-is-the-pose-taken": "after the settings",
    "does-it-turn-by-hand": "no",
    "which-key-confirms": "the enter key",
    "which-two-arrows-last": "up and left",
    "what-is-in-the-way": "trees in the west up to three fists",
    "anything-else-in-the-way": ["houses from the east to the north up to a fist and a half", "that's all"],
    "do-you-see-the-milky-way": "yes",
    "alone-or-with-people": "with other people",
    "what-is-hard-for-you": "kneeling",
    "another-limit": ["faint stars", "nothing else"],
    "in-full-or-short": "keep it short",
}


def test_a_whole_interview() -> None:
    """Every question answered: the result makes the tables of a profile, and their equipment is what was said."""
    told, _ = hold(ask_equipment.ask_about_equipment(CONTEXT), typed(EVERYTHING))
    tables = tables_of(told)
    assert tables["site"] == pytest.approx({"latitude_deg": 46.3, "longitude_deg": -67 - 31 / 60, "zone": "America/Moncton"})
    assert equipment_from(tables) == Equipment(
        Instrument(200, 1200, (Eyepiece(25, 52), Eyepiece(9.7)), True, "dot"),
        Mount("list", "after-settings", False, "enter", last_keys="up-left"),
        Observer("card", sees_milky_way=True, in_company=True, limits=frozenset({"kneeling", "faint-stars"}), terse=True),
        # The nearer way round is meant, whichever end is named first.
        (Obstruction(247.5, 292.5, 30, "trees"), Obstruction(0, 90, 15, "houses")),
    )


def test_everything_skipped() -> None:
    """Nothing is demanded: skipping every question says nothing, and is valid."""
    told, said = hold(ask_equipment.ask_about_equipment(CONTEXT), typed({}))
    assert told == EquipmentTold()
    assert tables_of(told) == {}
    assert equipment_from({}) == Equipment()
    assert len([saying for saying in said if isinstance(saying, Ask)]) <= 17


def test_no_finder_is_told_apart_from_a_skip() -> None:
    """Who has no finder was asked and answered; a profile, which has no word for it, is as after a skip."""
    none, skipped = (hold(ask_instrument.ask_finder(), typed(answers))[0] for answers in ({"which-finder": "no finder"}, {}))
    assert (none, skipped) == (("none", None), (None, None))
    told = EquipmentTold(instrument=InstrumentTold(aperture_mm=200, finder="none"))
    assert tables_of(told) == tables_of(replace(told, instrument=InstrumentTold(aperture_mm=200))) == {"instrument": {"aperture_mm": 200}}


@pytest.mark.parametrize(
    ("ask", "words", "meaning"),
    [
        (ask_instrument.ask_finder, "it's a seven degree finder", ("optical", 7.0)),
        (ask_instrument.ask_finder, "my finder shows six and a half degrees", ("optical", 6.5)),
        (ask_instrument.ask_finder, "the finder shows five point five degrees", ("optical", 5.5)),
        (ask_observer.ask_how_dark_it_is, "my meter says twenty point five", (None, 20.5)),
        (ask_observer.ask_how_dark_it_is, "my sky meter shows twenty one point seven three", (None, 21.73)),
        (ask_observer.ask_how_dark_it_is, "my meter reads nineteen", (None, 19.0)),
        (ask_observer.ask_how_dark_it_is, "my meter says 20.5", (None, 20.5)),
    ],
)
def test_a_figure_told_instead_of_the_answer(ask: Callable[[], Steps[object]], words: str, meaning: object) -> None:
    """Who knows the figure tells that: the finder's view, the meter's reading."""
    script = ask()
    question = next(script)
    assert isinstance(question, Ask)
    heard = VOCABULARY.understand(words, question.expects)
    assert isinstance(heard, NotNow)
    assert any(heard.command in set(rule) for rule in question.also)
    with pytest.raises(StopIteration) as ended:
        script.send(Answer(heard.command, TIME, heard.slots))
    assert ended.value.value == meaning


def test_how_wide_the_finder_is() -> None:
    """Asked of one that magnifies alone, and read back, since halves and tenths sound alike; one heard wrong is asked for again."""
    answers = {
        "which-finder": "a small telescope",
        "how-wide-is-the-finder": ["five and a half degrees", "six and a half degrees"],
        "finder-width-heard": ["no", "yes"],
    }
    found, said = hold(ask_instrument.ask_finder(), typed(answers))
    assert found == ("optical", 6.5)
    assert "The finder shows six point five degrees. Is that right?" in [words for saying in said for words in words_of(saying)]
    _, said = hold(ask_instrument.ask_finder(), typed({"which-finder": "a red dot"}))
    assert len(said) == 1
    told = EquipmentTold(instrument=InstrumentTold(finder="optical", finder_field_deg=6.5))
    assert equipment_from(tables_of(told)).instrument.finder_field_deg == 6.5


@pytest.mark.parametrize("seed", range(60))
def test_any_answers_end_with_valid_equipment(seed: int) -> None:
    """Answers at random, with skips and noes among them: an end, words for all of it, and equipment that can be built."""
    told, _ = _random_interview(seed, skips=0.15)
    tables = tables_of(told)
    assert isinstance(equipment_from(tables, ignore=pytest.fail), Equipment)
    assert Site(**tables["site"]) == told.site if told.site else "site" not in tables


QUESTIONS: Mapping[str, tuple[Callable[[], Steps[object]], Mapping[str, object]]] = {
    "which-finder": (
        ask_instrument.ask_finder,
        {"a red dot": ("dot", None), "a small telescope": ("optical", None), "no finder": ("none", None)},
    ),
    "which-compass": (
        ask_observer.ask_compass,
        {"a loose needle": "needle", "a turning card": "card", "it shows true north": "true", "no compass": "none"},
    ),
    "who-chooses-the-stars": (
        ask_mount.ask_star_choice,
        {
            "it names them": "names",
            "from its list": "list",
            "any bright ones": "unnamed",
            "just a single star": "one",
            "the Moon or a planet": "body",
        },
    ),
    "which-stars-does-it-take": (
        ask_mount._ask_star_choice_else,
        {"any bright ones": "unnamed", "one star": "one", "Moon or planet": "body"},
    ),
    "which-north-does-the-phone-show": (ask_observer._ask_which_north, {"true north": "true", "magnetic": "card"}),
    "when-is-the-pose-taken": (
        ask_mount.ask_pose_time,
        {"before switching on": "before-power", "after the settings": "after-settings", "it does that by itself": "by-itself"},
    ),
    "does-it-turn-by-hand": (ask_mount.ask_turns_by_hand, {"yes": True, "no": False}),
    "which-key-confirms": (
        ask_mount.ask_confirm_key,
        {"enter": "enter", "the okay key": "okay", "select": "select", "confirm": "confirm", "two keys": None},
    ),
    "which-two-arrows-last": (
        ask_mount.ask_last_keys_by_the_manual,
        {
            "up and right": "up-right",
            "left and up": "up-left",
            "right and down": "down-right",
            "down and left": "down-left",
            "it doesn't say": None,
        },
    ),
    "do-you-see-the-milky-way": (ask_observer.ask_how_dark_it_is, {"yes": (True, None), "no": (False, None)}),
    "alone-or-with-people": (ask_observer.ask_company, {"I'm alone": False, "with people": True}),
    "in-full-or-short": (ask_observer.ask_fullness, {"in full": False, "keep it short": True}),
    "what-is-hard-for-you": (ask_observer.ask_limits, {"nothing else": (), "reaching up": ("reaching",)}),
    "what-is-in-the-way": (ask_horizon.ask_horizon, {"nothing in the way": ()}),
}


OF_TWO_KEYS = ("which-finder", "do-you-see-the-milky-way")
"""Questions whose answer is of two keys of the profile."""


@pytest.mark.parametrize("phrase", QUESTIONS)
def test_each_question_alone(phrase: str) -> None:
    """A question can be asked where an evening needs it: each answer has its value, a skip has none."""
    ask, meanings = QUESTIONS[phrase]
    for words, meaning in {**meanings, "skip this": (None, None) if phrase in OF_TWO_KEYS else None}.items():
        value, said = hold(ask(), typed({phrase: words}))
        assert value == meaning, words
        assert isinstance(said[0], Ask)
        assert (said[0].code(), said[0].facts) == (phrase, {})


def test_the_chapter_is_complete() -> None:
    """Every question has its help, what help offers is understood, and fixed sentences are short."""
    asked = {type(saying) for seed in range(10) for saying in _random_interview(seed)[1] if isinstance(saying, Ask)}
    assert asked <= EQUIPMENT.step_help.keys()
    assert EQUIPMENT.terse.keys() <= EQUIPMENT.phrases.keys()
    for rule, offered in EQUIPMENT.sayable.items():
        check_words(YouCanSay(rule))
        for words in offered:
            assert live(rule).parse(words) is not None, (rule, words)
    for key, entry in (*EQUIPMENT.phrases.items(), *EQUIPMENT.terse.items(), *EQUIPMENT.step_help.items()):
        for sentence in re.split(r"(?<=[.?!])\s+", entry if isinstance(entry, str) else ""):
            assert len(sentence.split()) <= LONGEST_SENTENCE_WORDS, (key, sentence)


def _random_interview(seed: int, skips: float = 0.0) -> tuple[EquipmentTold, list[Saying]]:
    """Return what comes of answers at random, that share of them skips, and all that was said."""
    choose = random.Random(seed)

    def answer(question: Ask[Answers]) -> str:
        if choose.random() < skips:
            return "skip this"
        rule = question.expects.rule()
        grammar = next(grammar for grammar in VOCABULARY.grammars if rule in grammar.public_rules)
        return any_phrase(grammar, rule, choose)

    return hold(ask_equipment.ask_about_equipment(CONTEXT), answer)


def test_at_the_beginning_of_an_evening_the_place_isn_t_asked_for_again() -> None:
    """Place and time were agreed on just before, so the telescope's questions leave the place out."""
    told, said = hold(ask_equipment.ask_about_telescope(CONTEXT), typed({}))
    assert told.site is None
    assert WhereAreYou not in {type(one) for one in said}
