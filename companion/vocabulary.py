"""The words we listen for: the grammar files of a language, and which of their rules are live at a question."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from importlib import resources
from pathlib import Path

from companion.errors import GrammarError, MissingPart
from companion.hearing import ActiveSet, Grammar, Phrase, load_grammar, understand
from companion.languages import Language
from companion.messages import Heard, Hearing, NotNow, NotUnderstood
from companion.talk import every_rule
from companion.talk.answers import UniversalAnswer
from companion.talk.question_answers import NEVER_LIVE
from companion.talk.saying import Answers

_TO_ANY_QUESTION = UniversalAnswer.SKIP
_IN_OTHER_WORDS = "_otherwise"
"""Ends the name of the rule that holds the answers of another one in words that are not live."""


@dataclass(frozen=True)
class Vocabulary:
    """All grammars of one language, by rule."""

    grammars: tuple[Grammar, ...]
    empty_words: frozenset[str] = frozenset()
    """Words that mean nothing before or after an answer."""

    def active(self, expects: type[Answers]) -> ActiveSet:
        """Return what is live at a question that expects these answers: their phrases and the universal ones."""
        live = self._live_at.get(expects)
        if live is None:
            live = self._live_at[expects] = ActiveSet.of(self._place(expects), self._place(UniversalAnswer))
        return live

    def universal(self) -> tuple[Phrase, ...]:
        """Return the words that work at any time."""
        grammar, rule = self._place(UniversalAnswer)
        return grammar.phrases([rule])

    @property
    def everything(self) -> ActiveSet:
        """Every public rule of every file."""
        return ActiveSet.every(*self.grammars)

    @property
    def answers(self) -> ActiveSet:
        """The same without what may only be asked: what an ear that needs decoys listens for beside a live set."""
        asked = {rule.rule() for rule in NEVER_LIVE}
        return ActiveSet(tuple((grammar, rule) for grammar, rule in self.everything.sources if rule not in asked))

    def understand(self, line: str, expects: type[Answers]) -> Hearing:
        """Tell what a typed line says at a question that expects these answers: as it stands, else without its empty words."""
        active = self.active(expects)
        either_way = tuple(dict.fromkeys((line, self._without_empty_words(line))))
        for words in either_way:
            heard = understand(words, active)
            if isinstance(heard, NotUnderstood):
                heard = self._in_other_words(words, expects, confidence=1.0) or heard
            if not isinstance(heard, NotUnderstood):
                return heard
        elsewhere = (understand(words, active, self.everything) for words in either_way)
        return next((heard for heard in elsewhere if not isinstance(heard, NotUnderstood)), NotUnderstood())

    def settled(self, hearing: Hearing, expects: type[Answers]) -> Hearing:
        """Take a phrase that the second search found for an answer to a question, where it is one in other words."""
        if not isinstance(hearing, NotNow):
            return hearing
        return self._in_other_words(hearing.phrase, expects, hearing.confidence) or hearing

    def _in_other_words(self, words: str, expects: type[Answers], confidence: float) -> Heard | None:
        """Return the answer that words which are not live stand for, by the question's rule or the universal one."""
        phrase = self._otherwise(expects).parse(words)
        return None if phrase is None else Heard(phrase.words, phrase.command, phrase.slots, confidence, phrase.written)

    def _otherwise(self, expects: type[Answers]) -> ActiveSet:
        """Return the other words for answers to a question: what the grammars hold beside its rule and the universal one."""
        names = [f"{answers.rule()}{_IN_OTHER_WORDS}" for answers in (expects, UniversalAnswer)]
        return ActiveSet(tuple((grammar, name) for name in names for grammar in self.grammars if name in grammar.public_rules))

    def _without_empty_words(self, line: str) -> str:
        """Return a line less the empty words at its ends; the line itself where nothing else is in it."""
        words = line.split()
        bare = [word.strip(",.!?").lower() for word in words]
        first = next((place for place, word in enumerate(bare) if word not in self.empty_words), 0)
        last = next((place for place, word in reversed(list(enumerate(bare))) if word not in self.empty_words), len(bare) - 1)
        return " ".join(words[first : last + 1])

    @cached_property
    def _live_at(self) -> dict[type[Answers], ActiveSet]:
        """What was live before, by question: that no words have two meanings is looked into once."""
        return {}

    def _place(self, expects: type[Answers]) -> tuple[Grammar, str]:
        rule = expects.rule()
        return next((grammar, rule) for grammar in self.grammars if rule in grammar.public_rules)


def load_vocabulary(language: Language) -> Vocabulary:
    """Read the grammar files of a language. MissingPart when there are none, GrammarError where one is wrong.

    A grammar that others import only lends them its rules.
    """
    folder = Path(str(resources.files("companion.grammars"))) / language.code
    grammars = [load_grammar(file, language.writing) for file in sorted(folder.glob("*.jsgf"))]
    if not grammars:
        raise MissingPart(f"there are no grammars for '{language.code}'; add grammars/{language.code}")
    imported = {name for grammar in grammars for name in grammar.tree.imports}
    questions = tuple(grammar for grammar in grammars if grammar.name not in imported)
    _check_answers(questions, str(folder))
    return Vocabulary(questions, language.empty_words)


def _check_answers(grammars: Sequence[Grammar], folder: str) -> None:
    """Compare the tags of each rule with the answers that scripts deal with. Raises GrammarError at the first difference."""
    for answers in (*every_rule(), *NEVER_LIVE):
        grammar = next((grammar for grammar in grammars if answers.rule() in grammar.public_rules), None)
        if grammar is None:
            raise GrammarError(f"no file has the public rule <{answers.rule()}>; add it", file=folder, line=1)
        otherwise = f"{answers.rule()}{_IN_OTHER_WORDS}"
        others = (other.commands(otherwise) & answers.said_otherwise() for other in grammars if otherwise in other.public_rules)
        found = grammar.commands(answers.rule()).union(*others)
        wanted, found = set(map(str, answers)) - {_TO_ANY_QUESTION}, found - {_TO_ANY_QUESTION}
        if wanted != found:
            unknown = [f"{{{tag}}} means nothing to us" for tag in sorted(found - wanted)]
            lacking = [f"nothing is tagged {{{tag}}}" for tag in sorted(wanted - found)]
            where = f"its tags are the values of {answers.__name__} in companion/talk/answers"
            complaint = f"<{answers.rule()}>: {', '.join(unknown + lacking)}; {where}"
            raise GrammarError(complaint, file=grammar.file, line=grammar.line_of(answers.rule()))
    _check_other_words(grammars)


def _check_other_words(grammars: Sequence[Grammar]) -> None:
    """Compare what is said in other words with the answers it stands for. Raises GrammarError at the first that is none."""
    every: tuple[type[Answers], ...] = (*every_rule(), UniversalAnswer)
    rules = {answers.rule(): set(map(str, answers)) for answers in every}
    for grammar in grammars:
        for name in grammar.public_rules:
            if name.endswith(_IN_OTHER_WORDS):
                known = rules.get(name.removesuffix(_IN_OTHER_WORDS), set()) | set(map(str, UniversalAnswer))
                if unknown := sorted(grammar.commands(name) - known):
                    complaint = f"<{name}>: {{{unknown[0]}}} is no answer of <{name.removesuffix(_IN_OTHER_WORDS)}>"
                    raise GrammarError(complaint, file=grammar.file, line=grammar.line_of(name))
