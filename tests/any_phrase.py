"""Says something at random that a grammar's rule allows: for rules with too many phrases to write out."""

from __future__ import annotations

import random
from collections.abc import Iterator

from companion.hearing import Grammar
from companion.hearing.jsgf.ast import VOID, Choice, Node, Reference, Sequence, Tagged, Word


def any_phrase(grammar: Grammar, rule: str, choose: random.Random) -> str:
    """Return words that ``rule`` accepts, each choice in it equally likely."""
    return " ".join(_said(grammar.rule(rule).body, choose))


def _said(node: Node, choose: random.Random) -> Iterator[str]:
    match node:
        case Word(text=text):
            yield text
        case Sequence(items=items):
            for item in items:
                yield from _said(item, choose)
        case Choice(options=options):
            yield from _said(choose.choice([option for option in options if option is not VOID]), choose)
        case Tagged(item=item) | Reference(item=item):
            yield from _said(item, choose)
