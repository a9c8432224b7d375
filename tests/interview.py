"""Holds a piece of a script with typed answers, and checks every word of it."""

from __future__ import annotations

import re
from collections.abc import Callable, Generator, Iterator, Mapping
from datetime import UTC, datetime
from functools import cache
from typing import Any

from companion.equipment import Observer
from companion.hearing import ActiveSet, understand
from companion.messages import Answer, Heard
from companion.sky import Moment, Site
from companion.talk.saying import Answers, Ask, Note, Say, Saying, Wanted
from tests.english import ENGLISH, VOCABULARY

SITE, TIME = Site(46.31, -67.52, zone="America/Moncton"), datetime(2026, 10, 15, 23, 0, tzinfo=UTC)
LONGEST_SENTENCE_WORDS = 20


@cache
def live(expects: type[Answers]) -> ActiveSet:
    """Return what is understood at a question; kept, since checking a large rule takes a while."""
    return VOCABULARY.active(expects)


def words_of(saying: Saying) -> list[str]:
    """Return what a saying may sound like, in full and in short."""
    return [ENGLISH.words(saying, Moment(SITE, TIME), Observer(terse=terse)) for terse in (False, True)]


def check_words(saying: Saying) -> None:
    """See that the words exist, have no figures in them, and no sentence is too long."""
    said = words_of(saying)
    assert said, saying
    for words in said:
        assert not re.search(r"\d|\bstop\b|say that again", words), words
        for sentence in re.split(r"(?<=[.?!])\s+", words):
            assert 0 < len(sentence.split()) <= LONGEST_SENTENCE_WORDS, sentence


def hold(script: Generator[Wanted, Answer, Any], answer: Callable[[Ask[Answers]], str]) -> tuple[Any, list[Saying]]:
    """Run a script with typed answers; return its result and all it said."""
    said: list[Saying] = []
    try:
        wanted = next(script)
        while True:
            if isinstance(wanted, Note):
                wanted = next(script)
                continue
            assert isinstance(wanted, Say | Ask)
            said.append(wanted)
            check_words(wanted)
            if isinstance(wanted, Say):
                wanted = next(script)
                continue
            assert len(said) < 500, "this interview has no end"
            words = answer(wanted)
            heard = understand(words, live(wanted.expects))
            assert isinstance(heard, Heard), (wanted, words)
            wanted = script.send(Answer(heard.command, TIME, heard.slots))
    except StopIteration as ended:
        return ended.value, said


def typed(answers: Mapping[str, str | list[str]]) -> Callable[[Ask[Answers]], str]:
    """Answer questions by their phrase, lists one after another; what is read back is right, all else is skipped."""
    left: dict[str, Iterator[str]] = {phrase: iter([line] if isinstance(line, str) else line) for phrase, line in answers.items()}

    def answer(question: Ask[Answers]) -> str:
        known = next(left.get(question.code(), iter(())), None)
        return known or ("yes" if question.code().endswith("-heard") else "skip this")

    return answer
