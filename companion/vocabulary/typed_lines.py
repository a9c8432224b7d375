"""What a typed line says: as it stands, else in its parts, else a town, else misspelt, else what it is about.

A voice is never guessed at so: only what is typed comes here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from companion.languages.typing_habits import TypingHabits
from companion.messages import Heard, Hearing, NotNow, NotUnderstood
from companion.talk.answers import UniversalAnswer
from companion.talk.night_answers import ShowMeAnswer
from companion.talk.question_answers import NEVER_LIVE
from companion.talk.saying import Answers
from companion.vocabulary.clauses import Clauses
from companion.vocabulary.guessing import GUESSED, Guessing
from companion.vocabulary.live_words import LiveWords, words_of
from companion.vocabulary.spelling import ALIKE, ALIKE_HERE, Spelling
from companion.vocabulary.towns import Towns
from companion.vocabulary.written_words import WrittenWords

_LONGEST_GUESSED = 60
"""Of a line of more words nothing is guessed: nobody says one thing in so many, and looking them all up takes its time. Judgement."""


class TypedLines:
    """Understands lines, each way in its turn."""

    def __init__(self, words: LiveWords, typing: TypingHabits, own_names: Sequence[str]) -> None:
        """Take the grammars, how people type the language, and what the observer's own objects are called."""
        self._words, self._typing = words, typing
        self._written = WrittenWords(words, typing, own_names)
        self._spelling = Spelling(words)
        self._guessing = Guessing(words, typing, self._spelling)
        self._towns = Towns(words, typing, self._guessing)
        self._clauses = Clauses(words, typing, self._written, self._towns, self._guessing)

    def understand(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]] = ()) -> Hearing:
        """Tell what a typed line says at a question that expects these answers: as a whole, else in its parts, else what it is about.

        ``instead``: the rules whose answers are taken there, too. What is said of those comes as ``NotNow``, like all that is no answer
        of ``expects``.
        """
        if ShowMeAnswer in instead and (own := self._written.own_object(line)) is not None:
            return own
        heard = self._written.in_any_way(line, expects, instead)
        clauses = self._typing.clauses(line)
        if isinstance(heard, NotUnderstood) and len(clauses) > 1:
            heard = self._clauses.in_parts(clauses, expects, instead)
        if isinstance(heard, NotUnderstood) and len(line.split()) <= _LONGEST_GUESSED:
            return (
                self._towns.town_in(line, expects, instead)
                or self._misspelt(line, expects, instead)
                or self._guessing.guessed(line, expects, instead)
            )
        if not self._is_an_answer_elsewhere(heard, expects, instead):
            return heard
        return self._guessing.by_its_gist(line, expects, instead) or heard

    def _misspelt(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]]) -> Heard | NotNow | None:
        """Take a line with the words that nothing has spelt as the nearest that something has; None where that says nothing."""
        here = words_of((self._words.place(expects), *self._words.otherwise(expects).sources))
        for words, alike in ((here, ALIKE_HERE), (self._words.known, ALIKE)):
            spelt = self._spelling.spelt(line, words, alike)
            heard = NotUnderstood() if spelt == line else self._written.in_any_way(spelt, expects, instead)
            if isinstance(heard, Heard | NotNow):
                return replace(heard, confidence=GUESSED, is_guess=True)
        return None

    def _is_an_answer_elsewhere(self, heard: Hearing, expects: type[Answers], instead: Sequence[type[Answers]]) -> bool:
        """Say whether something would only be an answer to another question than the one that is open."""
        taken: tuple[type[Answers], ...] = (expects, UniversalAnswer, *instead, *NEVER_LIVE)
        return isinstance(heard, NotNow) and not any(heard.command in set(rule) for rule in taken)
