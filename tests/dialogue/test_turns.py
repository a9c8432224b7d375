"""The loop in which every conversation is held."""

from __future__ import annotations

from collections.abc import Iterator

from companion.dialogue import Turn, turns
from companion.messages import Hearing, Silence
from companion.talk.pose_phrases import LevelTheBase, SayWhenItIsOn
from companion.talk.saying import Answers, Ask
from companion.talk.targets_phrases import GoodNight

FIRST, SECOND = LevelTheBase(), SayWhenItIsOn()


def held(answers: Iterator[Hearing], replies: Iterator[Turn]) -> list[tuple[Hearing | None, Ask[Answers] | None, list[Ask[Answers]]]]:
    """Return what was heard, what was then asked, and the questions that had been put by then."""
    asked: list[Ask[Answers]] = []

    def hear(question: Ask[Answers]) -> Hearing | None:
        asked.append(question)
        return next(answers, None)

    first = Turn((FIRST,), FIRST, "level")
    return [(heard, turn.question, list(asked)) for heard, turn in turns(first, hear, lambda heard: next(replies))]


def test_each_turn_is_told_before_the_next_is_asked_for() -> None:
    """The first turn comes before anything is heard, every other with what it answers; the last one asks nothing, and ends it."""
    replies = iter([Turn((SECOND,), SECOND, "level"), Turn((GoodNight(),), None, "level")])
    assert held(iter([Silence()] * 3), replies) == [(None, FIRST, []), (Silence(), SECOND, [FIRST]), (Silence(), None, [FIRST, SECOND])]


def test_it_is_over_when_nobody_answers_any_more() -> None:
    """Without an answer the question stays open: what came last says so."""
    ((heard, question, _),) = held(iter([]), iter([]))
    assert heard is None
    assert question == FIRST
