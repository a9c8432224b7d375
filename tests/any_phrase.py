"""Says something at random that a grammar's rule allows: for rules with too many phrases to write out."""

from __future__ import annotations

import random
from collections.abc import Iterator

from companion.hearing import Grammar
from companion.hearing.jsgf.ast import Choice, Node, Null, Optional, Reference, Sequence, Tagged, Void, Word


def any_phrase(grammar: Grammar, rule: str, choose: random.Random) -> str:
    """Return words that ``rule`` accepts, each choice in it equally likely."""
    return " ".join(_said(grammar.tree.rules[rule].body, grammar, choose))


def _said(node: Node, grammar: Grammar, choose: random.Random) -> Iterator[str]:
    match node:
        case Word(text=text):
            yield text
        case Sequence(items=items):
            for item in items:
                yield from _said(item, grammar, choose)
        case Choice(options=options):
            yield from _said(choose.choice([option for option in options if not isinstance(option, Void)]), grammar, choose)
        case Optional(item=item):
            if choose.random() < 0.5:
                yield from _said(item, grammar, choose)
        case Tagged(item=item):
            yield from _said(item, grammar, choose)
        case Reference(name=name):
            yield from _said(grammar.tree.rules[name].body, grammar, choose)
        case Null() | Void():
            return
