"""Korean help, looked up in the whole book: what can be said to the open question, and what this step is for."""

from __future__ import annotations

from companion.languages.phrase import Chapter, Scene
from companion.talk.help_phrases import HelpWithStep, YouCanSay
from companion.talk.saying import Answers, Ask

_MOST_WORDS = 16
"""With what stands around them, twenty."""


def help_from(book: Chapter) -> Chapter:
    """Return the phrases that help with every question of a book."""

    def you_can_say(scene: Scene, *, rule: type[Answers]) -> str:
        """Name the words that are understood here."""
        return f"이렇게 말할 수 있어요. {', 또는 '.join(_a_breath_of(book.sayable[rule]))}."

    def help_with_step(scene: Scene, *, question: type[Ask[Answers]]) -> str:
        """Explain the open question."""
        return book.step_help[question]

    return Chapter({YouCanSay: you_can_say, HelpWithStep: help_with_step})


def _a_breath_of(words: tuple[str, ...]) -> tuple[str, ...]:
    """Return as many of them, from the first on, as a sentence holds."""
    kept: tuple[str, ...] = ()
    for phrase in words:
        if sum(len(one.split()) + 1 for one in (*kept, phrase)) > _MOST_WORDS:
            break
        kept = (*kept, phrase)
    return kept
