"""What a line is most likely about, where it is no phrase: by the words that carry its meaning, beside those of all that can be said.

What such words are is a language's business (``orthography.Telling``).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import chain
from math import log
from typing import TypeAlias

from companion.hearing.grammar import Grammar
from companion.hearing.jsgf.ast import Choice, Node, Reference, Sequence, Tagged, Word
from companion.orthography import Content, Telling

Contents: TypeAlias = Mapping[Content, str]
"""The contents of what can be said, each with the shortest words that have it."""
_NAMES = 150
"""A choice among more than this is a list of names or figures, which nobody guesses. Judgement."""
_MOST = 20_000
"""What can be put together in more ways than this isn't looked through. Judgement."""
_ASKED_OTHERWISE = 0.75
"""How much less likely a question stands for what is told, or the other way round. Tuned, as are the next three."""
_DENIED_OTHERWISE = 0.7
"""The same of what is denied."""
_SLIGHTLY = 0.3
"""What words that tell little count."""
_OF_THE_LINE = 0.5
"""How much it counts that the line is about nothing else: people say a thing in more words than it needs."""


@dataclass(frozen=True)
class Guess:
    """Something that can be said, and how near a line comes to it."""

    phrase: str
    nearness: float
    """0..1."""


@dataclass(frozen=True)
class ContentIndex:
    """What can be said by some rules, by its content."""

    sources: tuple[tuple[Grammar, str], ...]
    telling: Telling

    def guesses(self, line: str) -> list[Guess]:
        """Return what a line may stand for, the nearest first."""
        told = self.telling
        said, asks = told.of_line(line), told.asks(line)
        candidates = chain.from_iterable(self._with.get(one, ()) for one in sorted(said - told.decisive - told.slight - {told.negated}))
        found = [
            Guess(words, self._nearness(said, content) * (1.0 if asking == asks else _ASKED_OTHERWISE))
            for content, asking in dict.fromkeys(candidates)
            if content & told.decisive == said & told.decisive
            for words in (self._phrases[content, asking],)
        ]
        return sorted(found, key=lambda guess: (-guess.nearness, len(guess.phrase), guess.phrase))

    @cached_property
    def _phrases(self) -> Mapping[tuple[Content, bool], str]:
        """The shortest words of each content, those that ask something for themselves."""
        fold = _Fold(self.telling)
        found: dict[tuple[Content, bool], str] = {}
        for grammar, rule in self.sources:
            for words in fold.of(grammar.rule(rule).body).values():
                found.setdefault((self.telling.of_line(words), self.telling.asks(words)), words)
        return found

    @cached_property
    def _with(self) -> Mapping[str, list[tuple[Content, bool]]]:
        """Where each content occurs."""
        found: dict[str, list[tuple[Content, bool]]] = {}
        for key in self._phrases:
            for one in key[0]:
                found.setdefault(one, []).append(key)
        return found

    def _nearness(self, said: Content, content: Content) -> float:
        """Return the share of a phrase's content that the line has, less where the line has much beside it."""
        common = self._weight(said & content)
        share = common / self._weight(content) * (1 - _OF_THE_LINE + _OF_THE_LINE * common / self._weight(said))
        return share * (1.0 if (self.telling.negated in said) == (self.telling.negated in content) else _DENIED_OTHERWISE)

    def _weight(self, content: Iterable[str]) -> float:
        """Return how much a content tells: the rarer it is, the more."""
        rarity = ((one, log(1 + len(self._phrases) / max(1, self._counts[one]))) for one in content)
        return sum(weight * (_SLIGHTLY if one in self.telling.slight else 1.0) for one, weight in rarity)

    @cached_property
    def _counts(self) -> Counter[str]:
        return Counter(chain.from_iterable(content for content, _ in self._phrases))


class _Fold:
    """Folds rules into their contents, and remembers each: the ways to say a rule may be hundreds of thousands, its contents few."""

    def __init__(self, telling: Telling) -> None:
        self._telling = telling
        self._known: dict[int, Contents] = {}

    def of(self, node: Node) -> Contents:
        """Return the contents of a node; none where it is never guessed."""
        if id(node) not in self._known:
            self._known[id(node)] = self._find(node)
        return self._known[id(node)]

    def _find(self, node: Node) -> Contents:
        match node:
            case Word(text=text, written=written):
                parts = [self._telling.of_word(word) for word in text.split()]
                told = [part for part in parts if part is not None]
                asks = frozenset({"?"}) if self._telling.asks(text) else frozenset()
                return {asks.union(*told): written} if len(told) == len(parts) else {}
            case Reference(item=item) | Tagged(item=item):
                return self.of(item)
            case Choice(options=options):
                return {} if len(options) > _NAMES else _shortest(entry for option in options for entry in self.of(option).items())
            case Sequence(items=items):
                return self._joined([self.of(item) for item in items])

    @staticmethod
    def _joined(parts: list[Contents]) -> Contents:
        joined: Contents = {frozenset(): ""}
        for part in parts:
            if len(joined) * len(part) > _MOST:
                return {}
            together = ((before | after, f"{words} {more}".strip()) for before, words in joined.items() for after, more in part.items())
            joined = _shortest(together)
        return joined


def _shortest(entries: Iterable[tuple[Content, str]]) -> Contents:
    """Keep the shortest words of each content."""
    found: dict[Content, str] = {}
    for content, words in entries:
        if content not in found or len(words) < len(found[content]):
            found[content] = words
    return found
