"""Whole evenings, read as conversations: what is said to the companion gives exactly the replies that stand in the script."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from companion.dialogue import Turn
from companion.procedure import EVENING
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Ask
from tests.english import VOCABULARY
from tests.evenings.script import Script, scripts


@cache
def played(path: Path) -> tuple[Script, tuple[tuple[str, Turn], ...]]:
    """Return a script and both sides of the evening held with what is spoken in it."""
    script = Script.read(path)
    return script, tuple(script.played(VOCABULARY))


@pytest.mark.parametrize("path", scripts(), ids=lambda path: path.stem)
def test_the_evening_goes_as_written(path: Path) -> None:
    """Every reply is the one in the script, word for word."""
    script, lines = played(path)
    assert [line for line, _ in lines] == list(script.lines)


@pytest.mark.parametrize("path", scripts(), ids=lambda path: path.stem)
def test_what_must_be_heard_is_heard(path: Path) -> None:
    """What the header asks for is said, in that order; what it forbids is not; the evening comes to its end where it should."""
    script, lines = played(path)
    told = [(line, turn) for line, turn in lines if line.startswith("it:")]
    everything = "\n".join(line for line, _ in told)
    at = 0
    for words in script.facts["says"]:
        found = everything.find(words, at)
        assert found >= 0, f"{words!r} is not heard after {everything[max(0, at - 60) : at]!r}"
        at = found + len(words)
    for words in script.facts.get("never_says", []):
        assert words not in everything
    assert told[-1][1].finished == script.facts.get("ends", True)


def test_there_are_enough_evenings() -> None:
    """At least fourteen kinds of evening are written down."""
    assert len(scripts()) >= 14


@pytest.mark.parametrize("path", scripts(), ids=lambda path: path.stem)
def test_a_screen_reader_gets_whole_lines_and_the_question_last(path: Path) -> None:
    """What a pipe or a terminal of any width is sent: one line a turn, plain letters only, and what is asked stands at its end."""
    for line, turn in played(path)[1]:
        if line.startswith("it:"):
            assert line.isascii(), line
            assert line.isprintable(), line
            asked = [isinstance(saying, Ask | AskedAgain) for saying in turn.sayings]
            assert not any(asked[:-1]), line


def test_every_stage_is_among_them() -> None:
    """Each part of an evening is played in one script or another, so that what holds in all of them holds in every stage."""
    unplayed = {stage.name for stage in EVENING} - {turn.stage for path in scripts() for _, turn in played(path)[1]}
    # The finder's script again, where the tube can't be moved by hand: it has no sentence of its own.
    assert unplayed <= {"late-finder"}
