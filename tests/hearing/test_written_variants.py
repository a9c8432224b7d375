"""How spoken words may be written: each rule by examples, and what the rules must not do."""

import pytest

from companion.hearing.whisper.respellings import Respellings
from companion.hearing.whisper.written_variants import whole_forms
from companion.languages.en.heard_numbers import cardinal, ordinal_of, value_of
from companion.languages.en.written_forms import ENGLISH_WRITING, glued_forms, may_go_on, span_forms


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("twelve ounce coffee", " 12-ounce coffee"),
        ("twelve ounce coffee", " 12 ounce coffee"),
        ("six thirty", " 6:30"),
        ("six thirty", " 6.30"),
        ("six oh five", " 6:05"),
        ("twenty twenty six", " 2026"),
        ("nineteen eighty five", " 1985"),
        ("five percent", " 5%"),
        ("one point five degrees", " 1.5°"),
        ("twenty first", " 21st"),
        ("the fifth of may", " the 5th of may"),
        ("one hundred and five", " 105"),
        ("two thousand", " 2,000"),
        ("a hundred and five", " 105"),
        ("a thousand two hundred", " 1,200"),
        ("twelve hundred and fifty", " 1250"),
        ("one two three", " 123"),
        ("one two three", " 1 2 3"),
        ("zero", " 0"),
        ("oh", " 0"),
        ("thirty five", " thirty-five"),
        ("five dollars", " $5"),
        ("it's centred", " it's centered"),
        ("center it", " centre it"),
        ("levelled", " leveled"),
        ("grey", " gray"),
        ("north east", " northeast"),
        ("north-east", " northeast"),
        ("north-east", " north east"),
        ("yes please", " yes, please"),
        ("okay", " OK"),
        ("doctor Miller", " Dr. Miller"),
        ("twelve ounces", " 12 oz"),
        ("ten a m", " 10 a.m."),
        ("ten p m", " 10 PM"),
        ("six thirty pm", " 6:30 p.m."),
        ("u s b cable", " USB cable"),
    ],
)
def test_ways_to_write(said: str, written: str) -> None:
    """The ways to write a phrase include the expected one, after the plain one."""
    forms = whole_forms(said, ENGLISH_WRITING)
    assert forms[0] == f" {said}"
    assert written in forms


@pytest.mark.parametrize("said", ["ready", "help", "carry on", "where is it", "I lost it", "entire diameter"])
def test_plain_words_have_one_form(said: str) -> None:
    """Where no rule applies there is nothing but the words."""
    assert whole_forms(said, ENGLISH_WRITING) == (f" {said}",)


def test_figures_and_number_words_are_not_mixed() -> None:
    """Within one phrase numbers are all figures or all words."""
    assert not [
        form for form in whole_forms("one two three four", ENGLISH_WRITING) if any(figure in form for figure in "1234") and "one" in form
    ]


def test_many_figures_stay_few_forms() -> None:
    """Ten digits in a row, which could be written in hundreds of ways, have a bounded number of forms."""
    assert len(whole_forms("one two three four five six seven eight nine zero", ENGLISH_WRITING)) <= 25


@pytest.mark.parametrize("number", [0, 7, 10, 19, 20, 21, 99, 100, 101, 110, 342, 999, 1000, 1001, 2026, 9999])
def test_numbers_there_and_back(number: int) -> None:
    """Words made from a number say that number."""
    assert value_of(cardinal(number).split()) == number


@pytest.mark.parametrize(
    "words", ["", "and", "hundred", "five hundred hundred", "twenty ten", "twenty zero", "one two", "and five", "thousand", "ready"]
)
def test_no_numbers(words: str) -> None:
    """What is no one number has no value."""
    assert value_of(words.split()) is None


@pytest.mark.parametrize(
    ("words", "place"), [("first", 1), ("twelfth", 12), ("twenty first", 21), ("thirtieth", 30), ("twenty", None), ("twenty tenth", None)]
)
def test_places(words: str, place: int | None) -> None:
    """Ordinal words say their place."""
    assert ordinal_of(words.split()) == place


@pytest.mark.parametrize("number", [-1, 10_000])
def test_cardinal_outside(number: int) -> None:
    """Numbers outside its range are refused."""
    with pytest.raises(ValueError, match="not in 0"):
        cardinal(number)


def test_sounds_of_words() -> None:
    """Words of the table may be written by ear, alone or several as one, inside a phrase too; others may not."""
    sounds = Respellings({"phact": ("Fact",), "yed prior": ("Edprior", "Yet Prior")})
    assert sounds.forms(("Yed", "Prior")) == (" Edprior", " Yet Prior")
    assert sounds.forms(("Yed",)) == ()
    assert sounds.may_go_on(("Yed",))
    assert not sounds.may_go_on(("Phact",))
    assert whole_forms("it says Phact", ENGLISH_WRITING, sounds) == (" it says Phact", " it says Fact")
    assert " see Edprior now" in whole_forms("see Yed Prior now", ENGLISH_WRITING, sounds)


def test_spans_for_the_graph() -> None:
    """What may be written as one, what may go on, and what sticks to a figure before it."""
    assert " 35" in span_forms(("thirty", "five"))
    assert span_forms(("go", "back")) == ()
    assert may_go_on(("one", "hundred"))
    assert not may_go_on(("one", "two", "three"))
    assert not may_go_on(("ounce",))
    assert glued_forms(("percent",)) == ("%", "-percent")
    assert glued_forms(("five", "six")) == ("56", "-56")
    assert glued_forms(("a", "m")) == ("am", "AM")
    assert may_go_on(("a",))
    assert not may_go_on(("a", "b", "c", "d"))
