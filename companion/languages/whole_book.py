"""Phrases that look something up in the whole book of a language: what can be said here, and the open question put again."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping

from companion.languages.phrase import Chapter, Phrase, Scene
from companion.talk.help_phrases import HelpWithStep, YouCanSay
from companion.talk.question_phrases import AskedAgain, WhatIsMeant
from companion.talk.saying import Answers, Ask

_MOST_WORDS = 16
"""With what stands around them, twenty."""


def help_from(book: Chapter, offered: Callable[[tuple[str, ...]], str], *, words_between: int = 0) -> Chapter:
    """Return the phrases that help with every question of a book; ``offered`` words what can be said, ``words_between`` each two."""

    def a_breath_of(words: tuple[str, ...]) -> tuple[str, ...]:
        kept: tuple[str, ...] = ()
        for phrase in words:
            if sum(len(one.split()) + words_between for one in (*kept, phrase)) > _MOST_WORDS:
                break
            kept = (*kept, phrase)
        return kept

    def you_can_say(scene: Scene, *, rule: type[Answers]) -> str:
        """Name the words that are understood here, as many of them, from the first on, as a sentence holds."""
        return offered(a_breath_of(book.sayable[rule]))

    def help_with_step(scene: Scene, *, question: type[Ask[Answers]]) -> str:
        """Explain the open question."""
        return book.help_with(question, scene)

    return Chapter({YouCanSay: you_can_say, HelpWithStep: help_with_step})


def questions_from(
    book: Chapter,
    again: Mapping[type[Ask[Answers]], str],
    whole: Collection[type[Ask[Answers]]],
    explained: Callable[[str], str | None],
) -> Chapter:
    """Return the phrases that put every question of a book again, and explain it.

    ``again``: where the last sentence of the full words doesn't do; ``whole``: where all of them are needed. ``explained`` explains
    the first word of the trade among some words, None where there is none.
    """

    def asked_again(scene: Scene, *, question: Ask[Answers]) -> str:
        """Put the open question again: its short words, else its last sentence."""
        kind = type(question)
        if kind in again:
            return again[kind]
        if (other := book.without_own_eye(kind, scene)) is not None:
            return last_sentence(worded(other, scene, question))
        entry = book.terse.get(kind)
        words = worded(book.phrases[kind] if entry is None else entry, scene, question)
        return words if entry is not None or kind in whole else last_sentence(words)

    def what_is_meant(scene: Scene, *, question: Ask[Answers]) -> str:
        """Explain the first word of the trade in the question, else what the step is for."""
        return explained(worded(book.phrases[type(question)], scene, question)) or book.help_with(type(question), scene)

    return Chapter({AskedAgain: asked_again, WhatIsMeant: what_is_meant})


def worded(entry: Phrase, scene: Scene, question: Ask[Answers]) -> str:
    """Return a question's words."""
    return entry if isinstance(entry, str) else entry(scene, **question.facts)


def last_sentence(words: str) -> str:
    """Return the last of some sentences."""
    return re.split(r"(?<=[.?!])\s+", words)[-1]
