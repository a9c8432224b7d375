"""Which words are live: what an ear listens for at a question, what stands for an answer in other words, and what is asked of us."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from companion.hearing import ActiveSet, Grammar, Phrase
from companion.messages import Heard, Hearing, NotNow
from companion.talk.answers import HaltAnswer, TownLettersAnswer, UniversalAnswer
from companion.talk.question_answers import NEVER_LIVE, QUESTION_RULES, GearAnswer, JumpAnswer, OneselfAnswer
from companion.talk.saying import Answers

_NEVER_HEARD = {TownLettersAnswer.rule(), GearAnswer.rule()}
"""Letters are said where they are asked for only, and what is told unasked of a telescope is typed: elsewhere they would be found in
whatever people say."""
IN_OTHER_WORDS = "_otherwise"
"""Ends the name of the rule that holds the answers of another one in words that are not live."""
TYPED = "_typed"
"""Ends the name of one that no ear listens for either: each further word costs a small model others."""


@dataclass(frozen=True)
class LiveWords:
    """All grammars of one language, by rule."""

    grammars: tuple[Grammar, ...]

    def active(self, expects: type[Answers]) -> ActiveSet:
        """Return what is live at a question that expects these answers: their phrases and the universal ones."""
        live = self._live_at.get(expects)
        if live is None:
            live = self._live_at[expects] = ActiveSet.of(self.place(expects), self.place(UniversalAnswer))
        return live

    def universal(self) -> tuple[Phrase, ...]:
        """Return the words that work at any time."""
        grammar, rule = self.place(UniversalAnswer)
        return grammar.phrases([rule])

    def halting(self) -> tuple[Phrase, ...]:
        """Return what else halts a mount that turns."""
        grammar, rule = self.place(HaltAnswer)
        return grammar.phrases([rule])

    @property
    def everything(self) -> ActiveSet:
        """Every public rule of every file that an ear may listen for. Where words stand in several, those of a live set decide."""
        sources = ActiveSet.every(*self.grammars).sources
        heard = [source for source in sources if not source[1].endswith(TYPED) and source[1] not in _NEVER_HEARD]
        return ActiveSet(tuple(sorted(heard, key=lambda source: source[1].endswith(IN_OTHER_WORDS))), is_everything=True)

    @property
    def answers(self) -> ActiveSet:
        """The same without what may only be asked: what an ear that needs decoys listens for beside a live set."""
        asked = {rule.rule() for rule in NEVER_LIVE}
        return ActiveSet(tuple((grammar, rule) for grammar, rule in self.everything.sources if rule not in asked))

    def settled(self, hearing: Hearing, expects: type[Answers]) -> Hearing:
        """Take a phrase that the second search found for an answer to a question, where it is one in other words."""
        if not isinstance(hearing, NotNow):
            return hearing
        here = self.in_other_words(hearing.phrase, expects, hearing.confidence)
        if here is not None or (asked := self.questions.parse(hearing.phrase)) is None:
            return here or hearing
        return NotNow(asked.words, asked.command, asked.slots, hearing.confidence, asked.written)

    def in_other_words(self, words: str, expects: type[Answers], confidence: float) -> Heard | None:
        """Return the answer that words which are not live stand for, by the question's rule or the universal one."""
        phrase = self.otherwise(expects).parse(words)
        return None if phrase is None else Heard(phrase.words, phrase.command, phrase.slots, confidence, phrase.written)

    def otherwise(self, expects: type[Answers]) -> ActiveSet:
        """Return the other words for answers to a question: what the grammars hold beside its rule and the universal one."""
        names = [f"{answers.rule()}{ending}" for answers in (expects, UniversalAnswer) for ending in (IN_OTHER_WORDS, TYPED)]
        return ActiveSet(tuple((grammar, name) for name in names for grammar in self.grammars if name in grammar.public_rules))

    def all_words(self, rule: type[Answers]) -> ActiveSet:
        """Return all the words for the answers of a rule, live or not."""
        return ActiveSet((self.place(rule), *self.otherwise(rule).sources))

    def place(self, expects: type[Answers]) -> tuple[Grammar, str]:
        """Return the grammar that has the rule of these answers, and its name."""
        rule = expects.rule()
        return next((grammar, rule) for grammar in self.grammars if rule in grammar.public_rules)

    @cached_property
    def questions(self) -> ActiveSet:
        """What asks us something, in the words that are only typed, too."""
        asking = {rule.rule() for rule in QUESTION_RULES}
        heard = [(grammar, rule) for grammar, rule in self.everything.sources if rule in asking]
        names = [f"{rule}{TYPED}" for rule in sorted(asking)]
        typed = [(grammar, name) for name in names for grammar in self.grammars if name in grammar.public_rules]
        return ActiveSet((*heard, *typed))

    @cached_property
    def gear(self) -> ActiveSet:
        """What is told of the telescope."""
        return ActiveSet((self.place(GearAnswer),))

    @cached_property
    def of_oneself(self) -> ActiveSet:
        """What is told of oneself in words that are only typed."""
        typed = f"{OneselfAnswer.rule()}{TYPED}"
        return ActiveSet(tuple((grammar, typed) for grammar in self.grammars if typed in grammar.public_rules))

    @cached_property
    def elsewhere(self) -> ActiveSet:
        """The parts to go to."""
        return ActiveSet((self.place(JumpAnswer),))

    @cached_property
    def known(self) -> frozenset[str]:
        """Every word that some phrase has."""
        return words_of(self.everything.sources)

    @cached_property
    def _live_at(self) -> dict[type[Answers], ActiveSet]:
        """What was live before, by question: that no words have two meanings is looked into once."""
        return {}


def words_of(sources: Iterable[tuple[Grammar, str]]) -> frozenset[str]:
    """Return every word of some rules, lower case."""
    return frozenset(word for grammar, rule in sources for word in grammar.words(rule))
