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

from collections.abc import Iterator
from dataclasses import dataclass

from companion.hearing.jsgf.ast import Choice, Node, Reference, Rule, Sequence, Tag, Tagged, Weight, Word, walk
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


_A_WORD = frozenset({_Way(None, is_heard=True)})


class Interpreter:
    """Remembers which rules carry values, and which references stand for their rule."""

    def __init__(self) -> None:
        """Know none yet."""
        self._valued: dict[Rule, bool] = {}
        self._branches: dict[Rule, frozenset[int]] = {}
        self._referred: dict[Rule, frozenset[_Way]] = {}

    def meaning(self, rule: Rule, pieces: Pieces) -> Meaning:
        """Return what a way through ``rule``, said for itself, means."""
        while len(pieces) == 1 and isinstance(span := pieces[0], TaggedSpan) and isinstance(span.tag, Weight):
            pieces = span.pieces
        if len(pieces) == 1 and isinstance(span := pieces[0], RuleSpan) and self._stands_for(span.reference, rule):
            return self.meaning(span.reference.rule, span.pieces)
        commands = [rule.name]
        slots: dict[str, list[str]] = {}
        self._gather(pieces, commands, slots, outermost=True)
        return Meaning(commands[-1], tuple((name, " ".join(values)) for name, values in slots.items()))

    def commands(self, rule: Rule) -> frozenset[str]:
        """Return every command that something said for ``rule`` can mean, by its tags alone: nothing is written out."""
        return self._commands_of(rule.body, rule)

    def _commands_of(self, branch: Node, rule: Rule) -> frozenset[str]:
        if isinstance(branch, Tagged) and isinstance(branch.tag, Weight):
            return self._commands_of(branch.item, rule)
        if isinstance(branch, Choice):
            return frozenset().union(*(self._commands_of(option, rule) for option in branch.options))
        if isinstance(branch, Reference) and self._stands_for(branch, rule):
            return self.commands(branch.rule)
        return frozenset(way.last_tag or rule.name for way in self._ways(branch) if way.is_heard)

    def _ways(self, node: Node) -> frozenset[_Way]:
        """Return how a node can be said, as far as commands go; empty where it can't be."""
        match node:
            case Word():
                return _A_WORD
            case Reference(rule=rule):
                if rule not in self._referred:
                    # Its tags fill a slot and name no command.
                    self._referred[rule] = frozenset(_Way(None, way.is_heard) for way in self._ways(rule.body))
                return self._referred[rule]
            case Tagged(item=item, tag=tag):
                tagged = tag.value if isinstance(tag, Tag) and tag.slot is None else None
                return frozenset(way.then(_Way(tagged, is_heard=False)) for way in self._ways(item))
            case Choice(options=options):
                return frozenset().union(*(self._ways(option) for option in options))
            case Sequence(items=items):
                ways = frozenset({_Way(None, is_heard=False)})
                for item in items:
                    nexts = self._ways(item)
                    ways = frozenset(one.then(other) for one in ways for other in nexts)
                return ways

    def _stands_for(self, reference: Reference, rule: Rule) -> bool:
        """Tell whether a reference is a whole branch of a public rule, and leads to another public one."""
        if rule not in self._branches:
            self._branches[rule] = frozenset(id(branch) for branch in _branches(rule.body))
        return rule.public and reference.rule.public and id(reference) in self._branches[rule]

    def _gather(self, pieces: Pieces, commands: list[str], slots: dict[str, list[str]], outermost: bool) -> None:
        for piece in pieces:
            match piece:
                case TaggedSpan(tag=Weight(), pieces=inner):
                    self._gather(inner, commands, slots, outermost)
                case TaggedSpan(tag=Tag() as tag, pieces=inner):
                    self._gather(inner, commands, slots, outermost)
                    if tag.slot is not None:
                        slots.setdefault(tag.slot, []).append(tag.value)
                    elif outermost:
                        commands.append(tag.value)
                case RuleSpan(reference=reference, pieces=inner):
                    if outermost and self._has_value(reference.rule) and (value := _value(inner)):
                        slots.setdefault(reference.rule.name, []).append(value)
                    self._gather(inner, commands, slots, outermost=False)

    def _has_value(self, rule: Rule) -> bool:
        if rule not in self._valued:
            self._valued[rule] = any(
                (isinstance(node, Tagged) and isinstance(node.tag, Tag) and node.tag.slot is None)
                or (isinstance(node, Reference) and self._has_value(node.rule))
                for node, _ in walk(rule.body)
            )
        return self._valued[rule]


def weight_of(pieces: Pieces) -> float:
    """Return how likely a way is beside the likeliest, 0..1: the product of the weights of what was chosen."""
    weight = 1.0
    for piece in pieces:
        if not isinstance(piece, Word):
            own = piece.tag.share if isinstance(piece, TaggedSpan) and isinstance(piece.tag, Weight) else 1.0
            weight *= own * weight_of(piece.pieces)
    return weight


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
            case TaggedSpan(tag=Tag(slot=None) as tag):
                values.append(tag.value)
            case TaggedSpan(pieces=inner) | RuleSpan(pieces=inner):
                values.append(_value(inner))
    return " ".join(value for value in values if value)


def _branches(body: Node) -> list[Reference]:
    """Return the references that are a whole branch of a rule."""
    if isinstance(body, Choice):
        return [reference for option in body.options for reference in _branches(option)]
    if isinstance(body, Tagged) and isinstance(body.tag, Weight):
        return _branches(body.item)
    return [body] if isinstance(body, Reference) else []
