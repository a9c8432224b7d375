"""What a line is about, by the words that carry its meaning."""

from __future__ import annotations

from companion.hearing.content import ContentIndex
from companion.hearing.grammar import parse_grammar
from companion.languages.en.content_words import TELLING

GRAMMAR = parse_grammar(
    "#JSGF V1.0; grammar g; public <a> = (the legs are tight | all legs tight) {tight} | (it's level | is it level) {level}"
    " | [it's] two degrees (left | right) {off} | (can't see it) {unseen} | (I can see it) {seen} | the button is on the left {key};"
    "<thing> = the (knob | lid | tray); <state> = loose | missing | broken; public <b> = [all] <thing> [is | looks] <state> {thing};"
)
INDEX = ContentIndex(((GRAMMAR, "a"),), TELLING)


def _phrases(line: str, index: ContentIndex = INDEX) -> list[str]:
    return [guess.phrase for guess in index.guesses(line)]


def test_the_words_that_matter_are_enough() -> None:
    """In whatever order, with whatever endings and however many small words."""
    assert _phrases("well I think they are all tightened now, those legs of ours")[0] == "the legs are tight"
    assert INDEX.guesses("the legs are tight")[0].nearness == 1.0


def test_what_is_beside_it_makes_it_less_likely() -> None:
    """A line that is about more is less surely about this."""
    alone, beside = (INDEX.guesses(line)[0] for line in ("it looks level", "it looks level but the neighbour's rabbit has escaped"))
    assert alone.phrase == beside.phrase == "it's level"
    assert beside.nearness < alone.nearness


def test_a_question_is_taken_for_one() -> None:
    """What is asked and what is told may have the same words."""
    assert _phrases("is that thing level")[0] == "is it level"
    assert _phrases("that thing there is level")[0] == "it's level"


def test_no_figure_is_guessed() -> None:
    """A guessed figure would be one that nobody said."""
    assert "degrees" not in " ".join(_phrases("some degrees to the right"))


def test_a_direction_must_be_the_same() -> None:
    """A line that says down is never taken for left."""
    assert _phrases("where's that button on the left") == ["the button is on the left"]
    assert _phrases("where's that button down there") == []


def test_small_words_alone_mean_nothing() -> None:
    """And neither do words that nothing has."""
    assert _phrases("so what about it then") == []
    assert _phrases("seventeen sheep") == []


def test_what_is_put_together_from_parts() -> None:
    """However many ways there are to say a rule, each content is known once, by its shortest words."""
    index = ContentIndex(((GRAMMAR, "b"),), TELLING)
    assert len(index._ways) == 9
    assert _phrases("somebody must have lost that lid, I believe it has gone missing", index)[0] == "the lid missing"


def test_what_is_denied() -> None:
    """What is denied is rather taken for what denies."""
    assert _phrases("I cannot see it anywhere")[0:1] != ["I can see it"]
