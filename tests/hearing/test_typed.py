"""Typed words as an engine without a microphone."""

import pytest

from companion.hearing.active import ActiveSet
from companion.hearing.grammar import parse_grammar
from companion.hearing.typed import understand
from companion.messages import Heard, Hearing, NotNow, NotUnderstood, Silence

GRAMMAR = parse_grammar("#JSGF V1.0;\ngrammar t;\npublic <answer> = yes {yes} | no {no};\npublic <skip> = skip [it];")


@pytest.mark.parametrize(
    ("typed", "hearing"),
    [
        ("Yes.", Heard("yes", "yes")),
        ("skip it", NotNow("skip it", "skip")),
        ("perhaps", NotUnderstood()),
        ("", Silence()),
        (" \t", Silence()),
        ("?", NotUnderstood()),
    ],
)
def test_understand(typed: str, hearing: Hearing) -> None:
    """Each kind of line gets its own kind of answer."""
    assert understand(typed, ActiveSet.of((GRAMMAR, "answer")), ActiveSet.every(GRAMMAR)) == hearing


def test_without_everything() -> None:
    """Where nothing else is known, a phrase of another rule is just not understood."""
    assert understand("skip", ActiveSet.of((GRAMMAR, "answer"))) == NotUnderstood()
