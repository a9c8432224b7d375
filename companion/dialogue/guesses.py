"""What a typed line was only guessed to mean: answered where it only asks us something, asked back otherwise."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from typing import TypeAlias

from companion.dialogue.asides import Asides
from companion.dialogue.doubt import is_taken, only_asks
from companion.dialogue.floor import Floor
from companion.dialogue.questions import is_question
from companion.dialogue.reprompts import Reprompts
from companion.dialogue.tour import Touring
from companion.messages import Heard, Hearing, NotNow
from companion.talk.help_phrases import YouCanSay
from companion.talk.saying import Answers, Ask, Saying

Sayings: TypeAlias = tuple[Saying, ...]


class Guesses:
    """Takes guesses as far as they may be taken."""

    def __init__(
        self, floor: Floor, asides: Asides, touring: Touring, reprompts: Reprompts, hear: Callable[[Hearing, datetime], Sayings]
    ) -> None:
        """``hear`` answers what was heard for sure."""
        self._floor, self._asides, self._touring, self._reprompts, self._hear = floor, asides, touring, reprompts, hear

    def guessed(self, guess: Heard | NotNow, question: Ask[Answers], time: datetime) -> Sayings:
        """Answer a guess that only asks us something; ask any other back.

        A question of our own wants a plain answer, but what may pass it by may be a guess, too.
        """
        if self._asides and any(guess.command in set(rule) for rule in self._floor.instead):
            self._asides.close()
            question = self._floor.question
            guess = Heard(guess.phrase, guess.command, guess.slots, guess.confidence, guess.spelling, is_guess=True)
        plain = replace(guess, is_guess=False, confidence=1.0)
        if self._asides and isinstance(plain, NotNow) and is_question(plain):
            return self._hear(plain, time)
        if self._asides or self._touring or not is_taken(guess, question):
            return self._reprompts.not_understood(question)
        if only_asks(guess, question):
            return self._hear(plain, time)
        self._asides.ask_meant(guess.written, lambda then: self._hear(plain, then), lambda _: (YouCanSay(question.expects),))
        return (self._floor.question,)

    def either_meant(self, first: Heard | NotNow, second: Heard | NotNow, question: Ask[Answers], time: datetime) -> Sayings:
        """Ask which of two guesses is meant; the likelier one alone where the other can't be done now, or where it only asks."""
        if self._asides or self._touring or not is_taken(second, question) or only_asks(first, question):
            return self.guessed(first, question, time)
        if not is_taken(first, question):
            return self.guessed(second, question, time)
        self._asides.ask_which(
            first.written,
            second.written,
            lambda then: self._hear(replace(first, is_guess=False, confidence=1.0), then),
            lambda then: self._hear(replace(second, is_guess=False, confidence=1.0), then),
            lambda _: (YouCanSay(question.expects),),
        )
        return (self._floor.question,)
