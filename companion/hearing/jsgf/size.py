"""How much a rule can say, by arithmetic: nothing is written out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from companion.hearing.jsgf.ast import Choice, Node, Null, Optional, Reference, Rule, Sequence, Tagged, Void, Word

MOST = 10**18
"""Counts stop here: more than can ever be told apart, and a bound on the size of the numbers."""


@dataclass(frozen=True)
class Extent:
    """How much there is to say."""

    ways: int
    """Ways to say it, at most ``MOST``; the same words reached twice count twice. 0: it can't be said."""
    longest: int
    """Words in the longest way, at most ``MOST``."""


def extents(rules: Mapping[str, Rule]) -> dict[str, Extent]:
    """Return the extent of every rule of a checked grammar."""
    known: dict[str, Extent] = {}
    for rule in rules.values():
        _rule_extent(rule, rules, known)
    return known


def _rule_extent(rule: Rule, rules: Mapping[str, Rule], known: dict[str, Extent]) -> Extent:
    if rule.name not in known:
        known[rule.name] = _extent(rule.body, rules, known)
    return known[rule.name]


def _extent(node: Node, rules: Mapping[str, Rule], known: dict[str, Extent]) -> Extent:  # noqa: PLR0911 - one for each kind of node
    match node:
        case Word(text=text):
            return Extent(1, len(text.split()))
        case Null():
            return Extent(1, 0)
        case Void():
            return Extent(0, 0)
        case Reference(name=name):
            return _rule_extent(rules[name], rules, known)
        case Tagged(item=item):
            return _extent(item, rules, known)
        case Optional(item=item):
            inner = _extent(item, rules, known)
            return Extent(min(inner.ways + 1, MOST), inner.longest)
        case Choice(options=options):
            parts = [_extent(option, rules, known) for option in options]
            return Extent(min(sum(part.ways for part in parts), MOST), max(part.longest for part in parts))
        case Sequence(items=items):
            parts = [_extent(item, rules, known) for item in items]
            if any(part.ways == 0 for part in parts):
                return Extent(0, 0)
            ways = 1
            for part in parts:
                ways = min(ways * part.ways, MOST)
            return Extent(ways, min(sum(part.longest for part in parts), MOST))
