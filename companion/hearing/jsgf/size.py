"""How much a rule can say, by arithmetic: nothing is written out."""

from __future__ import annotations

from dataclasses import dataclass

from companion.hearing.jsgf.ast import Choice, Node, Reference, Rule, Sequence, Tagged, Word

MOST = 10**18
"""Counts stop here: more than can ever be told apart, and a bound on the size of the numbers."""


@dataclass(frozen=True)
class Extent:
    """How much there is to say."""

    ways: int
    """Ways to say it, at most ``MOST``; the same words reached twice count twice. 0: it can't be said."""
    longest: int
    """Words in the longest way, at most ``MOST``."""


class Sizes:
    """Extents of nodes, each rule's worked out once."""

    def __init__(self) -> None:
        """Know none yet."""
        self._known: dict[Rule, Extent] = {}

    def of(self, rule: Rule) -> Extent:
        """Return the extent of a rule of a checked grammar."""
        if rule not in self._known:
            self._known[rule] = self._extent(rule.body)
        return self._known[rule]

    def _extent(self, node: Node) -> Extent:
        match node:
            case Word(text=text):
                return Extent(1, len(text.split()))
            case Reference(rule=rule):
                return self.of(rule)
            case Tagged(item=item):
                return self._extent(item)
            case Choice(options=options):
                parts = [self._extent(option) for option in options]
                return Extent(min(sum(part.ways for part in parts), MOST), max((part.longest for part in parts), default=0))
            case Sequence(items=items):
                parts = [self._extent(item) for item in items]
                ways = 1
                for part in parts:
                    ways = min(ways * part.ways, MOST)
                return Extent(ways, min(sum(part.longest for part in parts), MOST) if ways else 0)
