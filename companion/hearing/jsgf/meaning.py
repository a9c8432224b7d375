"""What a way through a rule means: a command and its slots.

* A plain tag ``{left}`` written in the public rule itself names the command; the last one said wins. Without one the command
  is the public rule's name.
* A branch of a public rule that is nothing but a reference to another public rule stands for that rule: its command, its slots.
* A rule that a public rule refers to, and that holds plain tags or refers to rules that do, is a slot named after it. The value is
  what was said there, each tagged part replaced by its tag: with ``<digit> = one {1} | two {2};`` and ``<angle> = <digit>
  point <digit>;`` the words "one point two" fill slot ``angle`` with "1 point 2". Rules inside a slot name no slots of their own.
* ``{side=left}``, wherever it stands, fills slot ``side`` and leaves the words alone.
* A slot filled twice holds both values, in the order said, with a space between.
* A rule without plain tags anywhere below it is mere shorthand for its words.

A tag belongs to the word, bracket or reference just before it, as in the Note: write ``(very large) {xl}``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from companion.hearing.jsgf.ast import Choice, Node, Null, Optional, Reference, Rule, Sequence, Tagged, Void, Word, children
from companion.hearing.jsgf.expand import Pieces, RuleSpan, TaggedSpan


@dataclass(frozen=True)
class Meaning:
    """What words come to."""

    command: str
    slots: tuple[tuple[str, str], ...]
    """Name and value, in the order said."""


@dataclass(frozen=True)
class _Way:
    """What matters of a way through part of a rule, for the command it comes to."""

    last_tag: str | None
    is_heard: bool
    """Whether any word is said: silence is no phrase."""

    def then(self, other: _Way) -> _Way:
        """Return this way and another after it."""
        return _Way(other.last_tag or self.last_tag, self.is_heard or other.is_heard)


_SILENT = _Way(None, is_heard=False)


class Interpreter:
    """Knows which rules of one grammar carry values, and which references stand for their rule."""

    def __init__(self, rules: Mapping[str, Rule]) -> None:
        """Take the rules of a checked grammar."""
        self._rules = rules
        self._valued: dict[str, bool] = {}
        self._stand_ins = {id(node) for rule in rules.values() if rule.public for node in _branches(rule.body)}

    def meaning(self, rule: Rule, pieces: Pieces) -> Meaning:
        """Return what a way through ``rule``, said for itself, means."""
        if len(pieces) == 1 and isinstance(span := pieces[0], RuleSpan) and self._stands_for(span.reference):
            return self.meaning(self._rules[span.reference.name], span.pieces)
        commands = [rule.name]
        slots: dict[str, list[str]] = {}
        self._gather(pieces, commands, slots, outermost=True)
        return Meaning(commands[-1], tuple((name, " ".join(values)) for name, values in slots.items()))

    def commands(self, rule: Rule) -> frozenset[str]:
        """Return every command that something said for ``rule`` can mean, by its tags alone: nothing is written out."""
        options = rule.body.options if isinstance(rule.body, Choice) else (rule.body,)
        return frozenset().union(*(self._commands_of(option, rule) for option in options))

    def _commands_of(self, option: Node, rule: Rule) -> frozenset[str]:
        if isinstance(option, Choice):
            return frozenset().union(*(self._commands_of(inner, rule) for inner in option.options))
        if isinstance(option, Reference) and self._stands_for(option):
            return self.commands(self._rules[option.name])
        return frozenset(way.last_tag or rule.name for way in self._ways(option) if way.is_heard)

    def _ways(self, node: Node) -> frozenset[_Way]:
        """Return how a node can be said, as far as commands go; empty where it can't be."""
        ways: frozenset[_Way] = frozenset()
        match node:
            case Word():
                ways = frozenset({_Way(None, is_heard=True)})
            case Null():
                ways = frozenset({_SILENT})
            case Tagged(item=item, tag=tag):
                tagged = tag.value if tag.slot is None else None
                ways = frozenset(way.then(_Way(tagged, is_heard=False)) for way in self._ways(item))
            case Optional(item=item):
                ways = self._ways(item) | {_SILENT}
            case Choice(options=options):
                ways = ways.union(*(self._ways(option) for option in options))
            case Sequence(items=items):
                ways = frozenset({_SILENT})
                for item in items:
                    ways = frozenset(one.then(other) for one in ways for other in self._ways(item))
            case Reference(name=name):
                # Its tags fill a slot and name no command.
                ways = frozenset(_Way(None, way.is_heard) for way in self._ways(self._rules[name].body))
            case Void():
                pass
        return ways

    def _stands_for(self, reference: Reference) -> bool:
        return id(reference) in self._stand_ins and self._rules[reference.name].public

    def _gather(self, pieces: Pieces, commands: list[str], slots: dict[str, list[str]], outermost: bool) -> None:
        for piece in pieces:
            match piece:
                case TaggedSpan(tag=tag, pieces=inner):
                    self._gather(inner, commands, slots, outermost)
                    if tag.slot is not None:
                        slots.setdefault(tag.slot, []).append(tag.value)
                    elif outermost:
                        commands.append(tag.value)
                case RuleSpan(reference=reference, pieces=inner):
                    if outermost and self._has_value(reference.name) and (value := _value(inner)):
                        slots.setdefault(reference.name, []).append(value)
                    self._gather(inner, commands, slots, outermost=False)

    def _has_value(self, name: str) -> bool:
        if name not in self._valued:
            self._valued[name] = self._is_valued(self._rules[name].body)
        return self._valued[name]

    def _is_valued(self, node: Node) -> bool:
        if isinstance(node, Tagged) and node.tag.slot is None:
            return True
        if isinstance(node, Reference):
            return self._has_value(node.name)
        return any(self._is_valued(child) for child in children(node))


def said(pieces: Pieces) -> Iterator[Word]:
    """Yield the words said, in order."""
    for piece in pieces:
        if isinstance(piece, Word):
            yield piece
        else:
            yield from said(piece.pieces)


def _value(pieces: Pieces) -> str:
    values = []
    for piece in pieces:
        match piece:
            case Word(text=text):
                values.append(text)
            case TaggedSpan(tag=tag) if tag.slot is None:
                values.append(tag.value)
            case TaggedSpan(pieces=inner) | RuleSpan(pieces=inner):
                values.append(_value(inner))
    return " ".join(value for value in values if value)


def _branches(body: Node) -> list[Reference]:
    """Return the references that are a whole branch of a rule."""
    if isinstance(body, Choice):
        return [reference for option in body.options for reference in _branches(option)]
    return [body] if isinstance(body, Reference) else []
