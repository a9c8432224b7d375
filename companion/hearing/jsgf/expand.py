"""Ways through a rule: all of them, or the one that says given words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain, product
from typing import TypeAlias

from companion.hearing.jsgf.ast import Choice, Node, Reference, Rule, Sequence, Tag, Tagged, Weight, Word, walk


@dataclass(frozen=True, eq=False)
class TaggedSpan:
    """What was said in a tagged part."""

    tag: Tag | Weight
    pieces: Pieces


@dataclass(frozen=True, eq=False)
class RuleSpan:
    """What was said in another rule."""

    reference: Reference
    pieces: Pieces


Pieces: TypeAlias = tuple["Word | TaggedSpan | RuleSpan", ...]


def every_way(node: Node) -> Iterator[Pieces]:
    """Yield each way to say a node, in file order; as many as ``size`` counts."""
    return _Writer().ways(node)


class _Writer:
    """Writes a rule out; remembers which nodes can be said at all, so that no work is spent beside a ``<VOID>``."""

    def __init__(self) -> None:
        self._sayable: dict[int, bool] = {}

    def ways(self, node: Node) -> Iterator[Pieces]:
        match node:
            case Word():
                yield (node,)
            case Reference(item=item):
                for pieces in self.ways(item):
                    yield (RuleSpan(node, pieces),)
            case Tagged(item=item, tag=tag):
                for pieces in self.ways(item):
                    yield (TaggedSpan(tag, pieces),)
            case Choice(options=options):
                for option in options:
                    yield from self.ways(option)
            case Sequence(items=items) if self._can_say(node):
                for parts in product(*map(self.ways, items)):
                    yield tuple(chain.from_iterable(parts))

    def _can_say(self, node: Node) -> bool:
        if id(node) not in self._sayable:
            self._sayable[id(node)] = self._find_sayable(node)
        return self._sayable[id(node)]

    def _find_sayable(self, node: Node) -> bool:
        match node:
            case Word():
                return True
            case Reference(item=item) | Tagged(item=item):
                return self._can_say(item)
            case Choice(options=options):
                return any(self._can_say(option) for option in options)
            case Sequence(items=items):
                return all(self._can_say(item) for item in items)


def way_of(keys: tuple[str, ...], rule: Rule) -> Pieces | None:
    """Return the first way, in file order, in which a rule says exactly these bare words; None when it doesn't.

    Time grows with the size of the grammar times the square of the number of words, however many phrases there are.
    """
    return _Matcher(keys).way(rule.body)


class WordsUsed:
    """Remembers which bare words a rule is made of: a line that holds any other needs no search."""

    def __init__(self) -> None:
        """Know none yet."""
        self._known: dict[Rule, frozenset[str]] = {}

    def by(self, rule: Rule) -> frozenset[str]:
        """Return every bare word that can be said in a rule."""
        if rule not in self._known:
            used: set[str] = set()
            for node, _ in walk(rule.body):
                if isinstance(node, Word):
                    used.update(node.keys)
                elif isinstance(node, Reference):
                    used |= self.by(node.rule)
            self._known[rule] = frozenset(used)
        return self._known[rule]


class _Matcher:
    """One list of words against one grammar; remembers where each node can end."""

    def __init__(self, keys: tuple[str, ...]) -> None:
        self._keys = keys
        self._ends: dict[tuple[int, int], frozenset[int]] = {}

    def way(self, body: Node) -> Pieces | None:
        whole = len(self._keys)
        return self._pieces(body, 0, whole) if whole in self._ends_of(body, 0) else None

    def _ends_of(self, node: Node, start: int) -> frozenset[int]:
        known = self._ends.get((id(node), start))
        if known is None:
            known = self._ends[id(node), start] = self._find_ends(node, start)
        return known

    def _find_ends(self, node: Node, start: int) -> frozenset[int]:
        match node:
            case Word(keys=keys):
                end = start + len(keys)
                return frozenset([end]) if self._keys[start:end] == keys else frozenset()
            case Reference(item=item) | Tagged(item=item):
                return self._ends_of(item, start)
            case Choice(options=options):
                return frozenset().union(*(self._ends_of(option, start) for option in options))
            case Sequence(items=items):
                return self._reached(items, start)[-1]

    def _reached(self, items: tuple[Node, ...], start: int) -> list[frozenset[int]]:
        """Return where one can stand before the first item, after it, after the second, and so on."""
        reached = [frozenset([start])]
        for item in items:
            reached.append(frozenset().union(*(self._ends_of(item, place) for place in reached[-1])))
        return reached

    def _pieces(self, node: Node, start: int, end: int) -> Pieces:
        match node:
            case Word():
                return (node,)
            case Reference(item=item):
                return (RuleSpan(node, self._pieces(item, start, end)),)
            case Tagged(item=item, tag=tag):
                return (TaggedSpan(tag, self._pieces(item, start, end)),)
            case Choice(options=options):
                return self._pieces(next(option for option in options if end in self._ends_of(option, start)), start, end)
            case Sequence(items=items):
                return self._sequence_pieces(items, start, end)

    def _sequence_pieces(self, items: tuple[Node, ...], start: int, end: int) -> Pieces:
        """Walk back from the end: the last item takes as little as it can, so that the first ones take their fill."""
        reached = self._reached(items, start)
        parts: list[Pieces] = []
        for item, places in zip(reversed(items), reversed(reached[:-1]), strict=True):
            begin = max(place for place in places if end in self._ends_of(item, place))
            parts.append(self._pieces(item, begin, end))
            end = begin
        return tuple(piece for part in reversed(parts) for piece in part)
