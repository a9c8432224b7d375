"""What a typed line is about that nothing understands: by the gists of its language, else by the words that carry its meaning."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import cached_property

from companion.hearing.content import ContentIndex, Guess
from companion.languages.typing_habits import TypingHabits
from companion.messages import Heard, Hearing, NotNow, NotUnderstood
from companion.talk.answers import DENIED, UniversalAnswer
from companion.talk.night_answers import ShowMeAnswer
from companion.talk.question_answers import SkyQuestionAnswer, WordQuestionAnswer
from companion.talk.saying import Answers
from companion.vocabulary.live_words import LiveWords
from companion.vocabulary.spelling import NEARLY_ALIKE, Spelling

GUESSED = 0.5
"""How sure we are of what a line is taken for by its gist: less than is acted upon unasked. Judgement."""
_NEAR_ENOUGH = 0.6
"""How near a line must come to something for it to be guessed, and"""
_ASKED_BESIDE = 0.75
"""how much less likely a line that asks nothing is a question, or a wish to go elsewhere;"""
_DENIED = 0.9
"""how likely a line that denies an answer gives the contrary one. Tuned on 1113 answers in other words, each without all like it."""
_AS_LIKELY = 0.92
"""What comes so near to the likeliest is as likely: which of the two is meant is asked. Tuned on the same."""
_OF_NAMES = {SkyQuestionAnswer.rule(), ShowMeAnswer.rule()}


class Guessing:
    """Guesses what lines are about."""

    def __init__(self, words: LiveWords, typing: TypingHabits, spelling: Spelling) -> None:
        """Take the grammars and the language's habits; what is misspelt is put right first."""
        self._words, self._typing, self._spelling = words, typing, spelling

    def guessed(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]]) -> Hearing:
        """Take a line for what its words are most likely about: never for sure, so that whatever changes anything is asked back.

        Of two that are as likely neither is taken.
        """
        if (gist := self.by_its_gist(line, expects, instead)) is not None:
            return gist
        rules = (expects, *instead)
        near = [(guess, rule) for rule in rules for guess in self.guesses(line, rule)]
        if not near and (spelt := self._spelling.spelt(line, self._words.known, NEARLY_ALIKE)) != line:
            near = [(guess, rule) for rule in rules for guess in self.guesses(spelt, rule)]
        near.sort(key=lambda one: -one[0].nearness)
        meant: list[Heard | NotNow] = []
        for guess, rule in near:
            if meant and guess.nearness < _AS_LIKELY * near[0][0].nearness:
                break
            one = self._first_guess(((guess.phrase, rule),), expects)
            if one is not None and all((one.command, one.slots) != (other.command, other.slots) for other in meant):
                meant.append(one)
        if len(meant) == 1 or (meant and meant[0].command in set(expects) and meant[1].command in set(UniversalAnswer)):
            return meant[0]  # What answers the question comes before what may be said anywhere.
        return NotUnderstood(GUESSED, guesses=tuple(meant[:2])) if meant else NotUnderstood()

    def by_its_gist(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]]) -> Heard | NotNow | None:
        """Do the same by the gists alone; None where there is none."""
        phrases = ((phrase, rule) for rule in (expects, *instead) for phrase in self._typing.gists(line, rule.rule()))
        return self._first_guess(phrases, expects)

    def _first_guess(self, phrases: Iterable[tuple[str, type[Answers]]], expects: type[Answers]) -> Heard | NotNow | None:
        """Return the first of some phrases, each with the rule it is said by, that means something; ``NotNow`` if not by ``expects``."""
        guesses = ((self._as_guess(phrase, rule), rule) for phrase, rule in phrases)
        guess, rule = next((one for one in guesses if one[0] is not None), (None, expects))
        return guess if rule is expects or not isinstance(guess, Heard) else _beside(guess)

    def _as_guess(self, phrase: str, expects: type[Answers]) -> Heard | NotNow | None:
        """Return what a phrase of ours means here; None where it means nothing."""
        active = self._words.active(expects)
        answer = active.parse(phrase) or self._words.otherwise(expects).parse(phrase)
        if answer is not None and any(value.isdigit() for value in answer.slots.values()):
            return None  # Figures are told, never guessed.
        if answer is not None:
            return Heard(answer.words, answer.command, answer.slots, GUESSED, answer.written, is_guess=True)
        other = self._words.questions.parse(phrase) or self._words.elsewhere.parse(phrase)
        if other is None:
            return None
        return NotNow(other.words, other.command, other.slots, GUESSED, other.written, is_guess=True)

    def guesses(self, line: str, expects: type[Answers]) -> list[Guess]:
        """Return what a line comes near enough to, the nearest first: an answer, a question, a part to go to."""
        telling = self._typing.telling
        if telling is None:
            return []
        asks, index = telling.asks(line), self._answers_at(expects)
        # Who tells something with a word of the trade doesn't ask what that is, nor wants to go where it is used.
        goes = telling.goes(line)
        others = [
            guess
            for guess in self._asked_or_gone_to.guesses(line)
            if (asks or not self._asks_for_a_word(guess.phrase)) and (goes or self._words.elsewhere.parse(guess.phrase) is None)
        ]
        others = [replace(guess, nearness=(1.0 if asks else _ASKED_BESIDE) * guess.nearness) for guess in others]
        guesses = (*index.guesses(line), *self._denials(line, expects), *others)
        return sorted((guess for guess in guesses if guess.nearness >= _NEAR_ENOUGH), key=lambda guess: -guess.nearness)

    def _denials(self, line: str, expects: type[Answers]) -> Iterator[Guess]:
        """Yield what a line comes to that denies an answer: whose star "isn't in the finder" says "not yet"."""
        index, active = self._answers_at(expects), self._words.active(expects)
        for guess in index.denied(line):
            denied = active.parse(guess.phrase) or self._words.otherwise(expects).parse(guess.phrase)
            contrary = None if denied is None else DENIED.get(denied.command)
            words = None if contrary is None else index.plainest(contrary, denying=True)
            if words is not None:
                yield Guess(words, _DENIED * guess.nearness)

    def _answers_at(self, expects: type[Answers]) -> ContentIndex:
        """Return what may be guessed among the answers to a question."""
        assert self._typing.telling is not None
        if expects not in self._indexes:
            sources = (self._words.place(expects), self._words.place(UniversalAnswer), *self._words.otherwise(expects).sources)
            self._indexes[expects] = ContentIndex(sources, self._typing.telling)
        return self._indexes[expects]

    def _asks_for_a_word(self, phrase: str) -> bool:
        asked = self._words.questions.parse(phrase)
        return asked is not None and asked.command == WordQuestionAnswer.WHAT_IS

    @cached_property
    def _asked_or_gone_to(self) -> ContentIndex:
        """What may be guessed at any question. Names are looked for among a line's words (``gists``)."""
        assert self._typing.telling is not None
        sources = (*self._words.questions.sources, *self._words.elsewhere.sources)
        return ContentIndex(tuple(source for source in sources if source[1] not in _OF_NAMES), self._typing.telling)

    @cached_property
    def _indexes(self) -> dict[type[Answers], ContentIndex]:
        """What may be guessed among the answers, by question, where it was wanted before."""
        return {}


def _beside(heard: Heard) -> NotNow:
    """Return an answer of another rule than the question's as what it is: not the one that was expected."""
    return NotNow(heard.phrase, heard.command, heard.slots, heard.confidence, heard.spelling, is_guess=heard.is_guess)
