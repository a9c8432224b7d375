"""The grammar files of English: what they share stands once, and what can be said is what it was."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.hearing import load_grammar
from companion.languages.en.heard_numbers import cardinal
from tests.english import VOCABULARY

ENGLISH = Path(__file__).parents[1] / "grammars" / "en"
GRAMMARS = {rule: grammar for grammar in VOCABULARY.grammars for rule in grammar.public_rules}

COUNTS = {
    "bearing": (4 * 12 * 12 + 7 * 12) * 5 * 2 + 2_490,
    "clock_time": 70_564,
    "calendar_date": 2_976,
    "coordinate": 1_095_600,
    "from_town": 52_513,
    "millimetres": 10 * 12 * 12 * (1 + 12 + 144) * 2 + 48_138,
    "few_millimetres": (10 * 12 + 59 * 13) * 2,
    "horizon": 45_363,
    "fists": 37,
    "miss": 3_727,
    "year": 30,
}
"""Ways to say something where number words are said. Those in parts are counted by hand: twelve words for a figure, ten for one that
isn't nought, no bearing of 360 degrees, no eyepiece of sixty millimetres. The rest stood before number words had a file of their own, or
was added since."""


@pytest.mark.parametrize("rule", COUNTS)
def test_number_rules_say_as_much_as_before(rule: str) -> None:
    """Importing number words neither adds a phrase nor loses one, and what can't be meant can't be said."""
    assert GRAMMARS[rule].phrase_count([rule]) == COUNTS[rule]


@pytest.mark.parametrize(
    ("said", "rule", "slot"),
    [("{} degrees north", "coordinate", "whole"), ("{} miles south", "from_town", "how_far"), ("{} millimetres", "few_millimetres", "few")],
)
def test_number_words_are_the_numbers(said: str, rule: str, slot: str) -> None:
    """Each number below a hundred is the sum of its tags, held against the spelling of numbers that typed figures get."""
    for number in range(1, 60 if rule == "few_millimetres" else 100):
        phrase = GRAMMARS[rule].parse(said.format(cardinal(number)), [rule])
        assert phrase is not None, number
        assert sum(int(tag) for tag in phrase.slots[slot].split()) == number


def test_what_is_imported_is_no_question() -> None:
    """A grammar that others import lends its rules and is not listened for: a lone "zero" answers nothing."""
    numerals = load_grammar(ENGLISH / "numerals.jsgf")
    numerals.check_examples()
    assert numerals.parse("zero") is not None
    assert "numerals" not in {grammar.name for grammar in VOCABULARY.grammars}
    assert VOCABULARY.everything.parse("zero") is None
