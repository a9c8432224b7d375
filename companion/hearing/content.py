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
from companion.hearing.jsgf.ast import Choice, Node, Reference, Sequence, Tagged, Weight, Word
from companion.orthography import Content, Telling

Meaning: TypeAlias = tuple[str, ...]
"""The tags that words come to, in the order said: what has the same is the same answer."""
Contents: TypeAlias = Mapping[tuple[Content, Meaning], str]
"""The contents of what can be said, by what they mean, each with the shortest words that have it."""
_NAMES = 150
"""A choice among more than this is a list of names or figures, which nobody guesses. Judgement."""
_MOST = 20_000
"""What can be put together in more ways than this isn't looked through. Judgement."""
_ASKED_OTHERWISE = 0.6
"""How much less likely a question stands for what is told, or the other way round. Tuned, as are the next two."""
_DENIED_OTHERWISE = 0.5
"""The same of what is denied."""
_FIGURE_LEFT = 0.7
"""How much less likely it is that a line with a figure means what has none: the figure was what it told. Judgement."""
_SLIGHTLY = 0.3
"""What words that tell little count, and"""
_UNKNOWN = 0.5
"""those that nothing has: people say a thing in more words than it needs."""
_OF_THE_LINE = 0.7
"""How much it counts that the line is about nothing else,"""
_IN_THIS_WAY = 0.5
"""and how much of that, that this one way to say it has it all, and not only some other way to say the same."""


@dataclass(frozen=True)
class Guess:
    """Something that can be said, and how near a line comes to it."""

    phrase: str
    nearness: float
    """0..1."""
    meaning: Meaning = ()


@dataclass(frozen=True)
class _Saying:
    """A way to say something."""

    content: Content
    asks: bool
    meaning: Meaning
    words: str
    """The shortest with that content."""


@dataclass(frozen=True)
class ContentIndex:
    """What can be said by some rules, by its content.

    A word tells the more, the fewer meanings have it, however many ways there are to say each.
    """

    sources: tuple[tuple[Grammar, str], ...]
    telling: Telling

    def guesses(self, line: str) -> list[Guess]:
        """Return what a line may mean, the nearest first, each once."""
        return self._guesses(self.telling.of_line(line), asks=self.telling.asks(line))

    def denied(self, line: str) -> list[Guess]:
        """Return what a line may deny: what it would mean without its "not"; nothing where it has none, or asks."""
        said = self.telling.of_line(line)
        if self.telling.negated not in said or self.telling.asks(line):
            return []
        return self._guesses(said - {self.telling.negated}, asks=False)

    def plainest(self, command: str, *, denying: bool) -> str | None:
        """Return the shortest words for an answer, those that do nothing but deny where that is wanted and there are some."""
        ways = [way for way in self._ways if way.meaning == (command,)]
        plain = [way for way in ways if denying and way.content == {self.telling.negated} and not way.asks]
        return min((way.words for way in plain or ways), key=lambda words: (len(words), words), default=None)

    def _guesses(self, said: Content, *, asks: bool) -> list[Guess]:
        told = self.telling
        candidates = chain.from_iterable(self._with.get(one, ()) for one in sorted(said - told.decisive - told.slight - {told.negated}))
        nearest: dict[Meaning, Guess] = {}
        for way in dict.fromkeys(candidates):
            if way.content & told.decisive != said & told.decisive or self._is_contrary(said, way):
                continue
            nearness = self._nearness(said, way) * (1.0 if way.asks == asks else _ASKED_OTHERWISE)
            guess = Guess(way.words, nearness, way.meaning)
            nearest[way.meaning] = min(nearest.get(way.meaning, guess), guess, key=_likeliest_first)
        return sorted(nearest.values(), key=_likeliest_first)

    def _is_contrary(self, said: Content, way: _Saying) -> bool:
        """Say whether a way has the opposite of what was said, or a direction in its meaning that wasn't."""
        other = self.telling.opposites
        if said & self.telling.commanding != way.content & self.telling.commanding:
            return True
        turned = any(one in way.content and other[one] not in way.content for one in map(other.get, said - way.content) if one is not None)
        return turned or any(one in other and one not in said for one in way.meaning)

    @cached_property
    def _ways(self) -> tuple[_Saying, ...]:
        """Every content of each meaning, those that ask something for themselves."""
        fold = _Fold(self.telling)
        found: dict[tuple[Content, bool, Meaning], _Saying] = {}
        for grammar, rule in self.sources:
            for (_, meaning), words in fold.of(grammar.rule(rule).body).items():
                way = _Saying(self.telling.of_line(words), self.telling.asks(words), meaning or (rule,), words)
                found.setdefault((way.content, way.asks, way.meaning), way)
        return tuple(found.values())

    @cached_property
    def _with(self) -> Mapping[str, list[_Saying]]:
        """Where each content occurs."""
        found: dict[str, list[_Saying]] = {}
        for way in self._ways:
            for one in way.content:
                found.setdefault(one, []).append(way)
        return found

    def _nearness(self, said: Content, way: _Saying) -> float:
        """Return the share of a way's content that the line has, less where the line is about more than it, or than its meaning ever is."""
        common, whole = self._weight(said & way.content), self._weight(said)
        covered = _IN_THIS_WAY * common + (1 - _IN_THIS_WAY) * self._weight(said & self._of_meaning[way.meaning])
        share = common / self._weight(way.content) * (1 - _OF_THE_LINE + _OF_THE_LINE * covered / whole)
        share *= 1.0 if self.telling.figure not in said - way.content else _FIGURE_LEFT
        return share * (1.0 if (self.telling.negated in said) == (self.telling.negated in way.content) else _DENIED_OTHERWISE)

    def _weight(self, content: Iterable[str]) -> float:
        """Return how much a content tells: the fewer meanings have it, the more; less what none has."""
        meanings = len(self._of_meaning)
        return sum(log(1 + meanings / max(1, self._counts[one])) * self._share(one) for one in content)

    def _share(self, one: str) -> float:
        """Return what a content counts of what its rarity gives it."""
        if one in self.telling.slight:
            return _SLIGHTLY
        return 1.0 if one in self._counts else _UNKNOWN

    @cached_property
    def _of_meaning(self) -> Mapping[Meaning, set[str]]:
        """All that is ever said of each meaning."""
        found: dict[Meaning, set[str]] = {}
        for way in self._ways:
            found.setdefault(way.meaning, set()).update(way.content)
        return found

    @cached_property
    def _counts(self) -> Counter[str]:
        return Counter(chain.from_iterable(self._of_meaning.values()))


def _likeliest_first(guess: Guess) -> tuple[float, int, str]:
    return -guess.nearness, len(guess.phrase), guess.phrase


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
                return {(asks.union(*told), ()): written} if len(told) == len(parts) else {}
            case Reference(item=item):
                return self.of(item)
            case Tagged(item=item, tag=tag):
                means = () if isinstance(tag, Weight) else (tag.value if tag.slot is None else f"{tag.slot}={tag.value}",)
                return {(content, (*meaning, *means)): words for (content, meaning), words in self.of(item).items()}
            case Choice(options=options):
                return {} if len(options) > _NAMES else _shortest(entry for option in options for entry in self.of(option).items())
            case Sequence(items=items):
                return self._joined([self.of(item) for item in items])

    @staticmethod
    def _joined(parts: list[Contents]) -> Contents:
        joined: Contents = {(frozenset(), ()): ""}
        for part in parts:
            if len(joined) * len(part) > _MOST:
                return {}
            joined = _shortest(
                ((content | more, (*meaning, *further)), f"{words} {others}".strip())
                for (content, meaning), words in joined.items()
                for (more, further), others in part.items()
            )
        return joined


def _shortest(entries: Iterable[tuple[tuple[Content, Meaning], str]]) -> Contents:
    """Keep the shortest words of each content and meaning."""
    found: dict[tuple[Content, Meaning], str] = {}
    for key, words in entries:
        if key not in found or len(words) < len(found[key]):
            found[key] = words
    return found
