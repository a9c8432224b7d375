"""The interview about place, telescope, mount and observer: each answer's meaning, and that any answers end with valid equipment."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Generator, Iterator, Mapping
from datetime import UTC, datetime
from typing import Any

import pytest
from any_phrase import any_phrase

from companion.equipment import Equipment, Eyepiece, Instrument, Mount, Observer, Obstruction
from companion.events import Answer, Ask, Heard, Note, Say
from companion.hearing import understand
from companion.procedure import your_equipment as interview
from companion.procedure.script import Context
from companion.procedure.spoken_figures import figure_of, fists_of
from companion.procedure.your_place import ask_coordinate
from companion.sky import Moment, Site
from companion.vocabulary import load_vocabulary
from companion.wording import words_for
from companion.wording.en_equipment import EQUIPMENT

VOCABULARY = load_vocabulary("en")
SITE, TIME = Site(46.31, -67.52, zone="America/Moncton"), datetime(2026, 10, 15, 23, 0, tzinfo=UTC)
CONTEXT = Context(SITE, TIME, {})
LONGEST_SENTENCE_WORDS = 20


def words_of(saying: Say | Ask) -> list[str]:
    """Return what a saying may sound like, in full and in short."""
    return [words_for(saying, Moment(SITE, TIME), Observer(terse=terse)) for terse in (False, True)]


def check_words(saying: Say | Ask) -> None:
    """See that the words exist, have no figures in them, and no sentence is too long."""
    said = words_of(saying)
    assert said, saying
    for words in said:
        assert not re.search(r"\d|\bstop\b|say that again", words), words
        for sentence in re.split(r"(?<=[.?!])\s+", words):
            assert 0 < len(sentence.split()) <= LONGEST_SENTENCE_WORDS, sentence


def hold(script: Generator[Say | Ask | Note, Answer, Any], answer: Callable[[Ask], str]) -> tuple[Any, list[Say | Ask]]:
    """Run a script with typed answers; return its result and all it said."""
    said: list[Say | Ask] = []
    try:
        wanted = next(script)
        while True:
            if isinstance(wanted, Note):
                wanted = next(script)
                continue
            said.append(wanted)
            check_words(wanted)
            if isinstance(wanted, Say):
                wanted = next(script)
                continue
            assert len(said) < 500, "this interview has no end"
            heard = understand(answer(wanted), VOCABULARY.active(wanted.expects))
            assert isinstance(heard, Heard), (wanted, answer(wanted))
            wanted = script.send(Answer(heard.command, TIME, heard.slots))
    except StopIteration as ended:
        return ended.value, said


def typed(answers: Mapping[str, str | list[str]]) -> Callable[[Ask], str]:
    """Answer questions by their phrase, lists one after another; what is read back is right, all else is skipped."""
    left: dict[str, Iterator[str]] = {phrase: iter([line] if isinstance(line, str) else line) for phrase, line in answers.items()}

    def answer(question: Ask) -> str:
        known = next(left.get(question.phrase, iter(())), None)
        return known or ("yes" if question.phrase.endswith("-heard") else "skip this")

    return answer


EVERYTHING: Mapping[str, str | list[str]] = {
    "where-are-you": "latitude and longitude",
    "your-latitude": "forty six degrees eighteen minutes north",
    "your-longitude": "sixty seven degrees thirty one minutes west",
    "aperture": "two hundred millimetres",
    "focal-length": "one two zero zero",
    "eyepiece": ["twenty five millimetres", "nine point seven"],
    "apparent-field": ["fifty two degrees", "skip this"],
    "another-eyepiece": ["yes", "no"],
    "has-it-a-diagonal": "yes",
    "which-finder": "a red dot",
    "which-compass": "my phone",
    "who-chooses-the-stars": "I choose from its list",
    "when-is-the-pose-taken": "after the settings",
    "does-it-turn-by-hand": "no",
    "which-key-confirms": "the enter key",
    "what-is-in-the-way": "trees in the west up to three fists",
    "anything-else-in-the-way": ["houses from the east to the north up to a fist and a half", "that's all"],
    "do-you-see-the-milky-way": "yes",
    "alone-or-with-people": "with other people",
    "what-is-hard-for-you": "kneeling down",
    "another-limit": ["faint stars", "nothing else"],
    "in-full-or-short": "keep it short",
}


def test_a_whole_interview() -> None:
    """Every question answered: the result is the tables of a profile, and their equipment is what was said."""
    result, _ = hold(interview.ask_about_equipment(CONTEXT), typed(EVERYTHING))
    assert result["site"] == pytest.approx({"latitude_deg": 46.3, "longitude_deg": -67 - 31 / 60, "zone": "America/Moncton"})
    assert interview.equipment_from(result) == Equipment(
        Instrument(200, 1200, (Eyepiece(25, 52), Eyepiece(9.7)), True, "dot"),
        Mount("list", "after-settings", False, "enter"),
        Observer("card", sees_milky_way=True, in_company=True, limits=frozenset({"kneeling", "faint-stars"}), terse=True),
        # The nearer way round is meant, whichever end is named first.
        (Obstruction(247.5, 292.5, 30, "trees"), Obstruction(0, 90, 15, "houses")),
    )


def test_everything_skipped() -> None:
    """Nothing is demanded: skipping every question says nothing, and is valid."""
    result, said = hold(interview.ask_about_equipment(CONTEXT), typed({}))
    assert result == {}
    assert interview.equipment_from(result) == Equipment()
    assert len([saying for saying in said if isinstance(saying, Ask)]) <= 17


@pytest.mark.parametrize("seed", range(60))
def test_any_answers_end_with_valid_equipment(seed: int) -> None:
    """Answers at random, with skips and noes among them: an end, words for all of it, and equipment that can be built."""
    choose = random.Random(seed)

    def answer(question: Ask) -> str:
        if choose.random() < 0.15:
            return "skip this"
        grammar = next(grammar for grammar in VOCABULARY.grammars if question.expects in grammar.public_rules)
        return any_phrase(grammar, question.expects, choose)

    result, _ = hold(interview.ask_about_equipment(CONTEXT), answer)
    assert isinstance(interview.equipment_from(result, ignore=pytest.fail), Equipment)
    if "site" in result:
        Site(**result["site"])


QUESTIONS: Mapping[str, tuple[Callable[[], Generator[Say | Ask | Note, Answer, Any]], Mapping[str, object]]] = {
    "which-finder": (interview.ask_finder, {"a red dot": "dot", "a small telescope": "optical", "no finder": None}),
    "which-compass": (
        interview.ask_compass,
        {"a loose needle": "needle", "a turning card": "card", "it shows true north": "true", "no compass": "none"},
    ),
    "who-chooses-the-stars": (
        interview.ask_star_choice,
        {
            "it names them": "names",
            "from its list": "list",
            "any bright ones": "unnamed",
            "just a single star": "one",
            "the Moon or a planet": "body",
        },
    ),
    "when-is-the-pose-taken": (
        interview.ask_pose_time,
        {"before switching on": "before-power", "after the settings": "after-settings", "it does that by itself": "by-itself"},
    ),
    "does-it-turn-by-hand": (interview.ask_turns_by_hand, {"yes": True, "no": False}),
    "which-key-confirms": (interview.ask_confirm_key, {"enter": "enter", "the okay key": "okay", "select": "select", "confirm": "confirm"}),
    "do-you-see-the-milky-way": (interview.ask_milky_way, {"yes": True, "no": False}),
    "alone-or-with-people": (interview.ask_company, {"I'm alone": False, "with people": True}),
    "in-full-or-short": (interview.ask_fullness, {"in full": False, "keep it short": True}),
    "what-is-hard-for-you": (interview.ask_limits, {"nothing else": [], "reaching up": ["reaching"]}),
    "what-is-in-the-way": (interview.ask_horizon, {"nothing in the way": []}),
}


@pytest.mark.parametrize("phrase", QUESTIONS)
def test_each_question_alone(phrase: str) -> None:
    """A question can be asked where an evening needs it: each answer has its value, a skip has none."""
    ask, meanings = QUESTIONS[phrase]
    for words, meaning in {**meanings, "skip this": None}.items():
        value, said = hold(ask(), typed({phrase: words}))
        assert value == meaning, words
        assert said[0] == Ask(phrase, expects=said[0].expects)  # type: ignore[union-attr]


def test_a_figure_heard_wrong_is_asked_again() -> None:
    """A no to the read-back asks again; after three tries it is left."""
    answers = {"focal-length": ["one two zero zero", "one four zero zero"], "focal-length-heard": ["no", "yes"]}
    result, said = hold(interview.ask_instrument(), typed(answers))
    assert result == {"focal_length_mm": 1400}
    assert "Focal length, one four zero zero millimetres. Is that right?" in [words for saying in said for words in words_of(saying)]
    result, said = hold(interview.ask_instrument(), typed({"focal-length": ["one two zero zero"] * 9, "focal-length-heard": ["no"] * 9}))
    assert result == {}
    assert [saying.phrase for saying in said].count("focal-length") == 3
    assert Say("figure-left") in said


def test_an_unlikely_figure_is_not_believed() -> None:
    """Eleven millimetres are no focal length of a telescope."""
    result, said = hold(interview.ask_instrument(), typed({"focal-length": ["eleven millimetres", "nine hundred"]}))
    assert result == {"focal_length_mm": 900}
    assert Say("unlikely-figure", {"figure": 11}) in said


@pytest.mark.parametrize(
    ("rule", "words", "figure"),
    [
        ("millimetres", "one two zero zero", 1200),
        ("millimetres", "oh nine zero", 90),
        ("millimetres", "twelve hundred", 1200),
        ("millimetres", "twelve hundred and fifty millimetres", 1250),
        ("millimetres", "a thousand", 1000),
        ("millimetres", "two thousand and thirty two", 2032),
        ("millimetres", "one thousand two hundred and five", 1205),
        ("millimetres", "one hundred and fourteen", 114),
        ("few_millimetres", "two five", 25),
        ("few_millimetres", "twenty five", 25),
        ("few_millimetres", "nine point seven millimetres", 9.7),
        ("few_millimetres", "thirty two point five", 32.5),
    ],
)
def test_figures(rule: str, words: str, figure: float) -> None:
    """Singly, in hundreds, in thousands, with tenths."""
    heard = understand(words, VOCABULARY.active(rule))
    assert isinstance(heard, Heard)
    assert figure_of(heard.slots) == pytest.approx(figure)


@pytest.mark.parametrize(
    ("words", "fists"),
    [
        ("half a fist", 0.5),
        ("a fist", 1),
        ("a fist and a half", 1.5),
        ("three and a half", 3.5),
        ("two and a half fists", 2.5),
        ("four", 4),
    ],
)
def test_fists(words: str, fists: float) -> None:
    """With halves, with and without the word."""
    heard = understand(words, VOCABULARY.active("fists"))
    assert isinstance(heard, Heard)
    assert fists_of(heard.slots) == fists


def test_heights_are_in_the_observers_own_fists() -> None:
    """Three fists of a small hand are fewer degrees."""
    parts, _ = hold(interview.ask_horizon(8.0), typed({"what-is-in-the-way": "hills in the south up to three fists"}))
    assert parts == [{"from_azimuth_deg": 157.5, "to_azimuth_deg": 202.5, "altitude_deg": 24.0, "what": "hills"}]


def test_an_obstruction_heard_wrong_is_left_out() -> None:
    """A no to the read-back drops that part only."""
    answers = {
        "what-is-in-the-way": ["trees in the north up to a fist"] * 2,
        "in-the-way-heard": ["no", "yes"],
        "anything-else-in-the-way": "that's all",
    }
    parts, said = hold(interview.ask_horizon(), typed(answers))
    assert len(parts) == 1
    assert "Trees in the north, up to a fist. Is that right?" in [words for saying in said for words in words_of(saying)]


@pytest.mark.parametrize(
    ("which", "words", "angle_deg", "read_back"),
    [
        ("latitude", "forty six degrees eighteen minutes north", 46.3, "Latitude four six degrees one eight minutes north. Is that right?"),
        ("latitude", "thirty three degrees south", -33, "Latitude three three degrees zero zero minutes south. Is that right?"),
        (
            "longitude",
            "one hundred and forty nine degrees thirty minutes east",
            149.5,
            "Longitude one four nine degrees three zero minutes east. Is that right?",
        ),
        ("longitude", "sixty seven degrees west", -67, "Longitude six seven degrees zero zero minutes west. Is that right?"),
    ],
)
def test_coordinates(which: str, words: str, angle_deg: float, read_back: str) -> None:
    """Heard in degrees and minutes, read back singly."""
    value, said = hold(ask_coordinate(which), typed({f"your-{which}": words}))
    assert value == pytest.approx(angle_deg)
    assert read_back in [words for saying in said for words in words_of(saying)]


@pytest.mark.parametrize(("which", "words"), [("latitude", "ninety one degrees north"), ("latitude", "sixty seven degrees west")])
def test_no_such_coordinate(which: str, words: str) -> None:
    """What can't be one is said, and asked again; then left."""
    value, said = hold(ask_coordinate(which), typed({f"your-{which}": [words] * 9}))
    assert value is None
    assert [saying.phrase for saying in said].count("no-such-coordinate") == 3


def test_the_chapter_is_complete() -> None:
    """Every question has its help, what help offers is understood, and fixed sentences are short."""
    asked = {saying.phrase for seed in range(30) for saying in _random_interview(seed) if isinstance(saying, Ask)}
    assert asked <= EQUIPMENT.step_help.keys()
    assert EQUIPMENT.terse.keys() <= EQUIPMENT.phrases.keys()
    for rule, offered in EQUIPMENT.sayable.items():
        check_words(Say("you-can-say", {"rule": rule}))
        for words in offered:
            assert VOCABULARY.active(rule).parse(words) is not None, (rule, words)
    for key, entry in (*EQUIPMENT.phrases.items(), *EQUIPMENT.terse.items(), *EQUIPMENT.step_help.items()):
        for sentence in re.split(r"(?<=[.?!])\s+", entry if isinstance(entry, str) else ""):
            assert len(sentence.split()) <= LONGEST_SENTENCE_WORDS, (key, sentence)


def _random_interview(seed: int) -> list[Say | Ask]:
    choose = random.Random(seed)

    def answer(question: Ask) -> str:
        grammar = next(grammar for grammar in VOCABULARY.grammars if question.expects in grammar.public_rules)
        return any_phrase(grammar, question.expects, choose)

    return hold(interview.ask_about_equipment(CONTEXT), answer)[1]
