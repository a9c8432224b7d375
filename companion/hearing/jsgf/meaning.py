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

from companion.hearing.jsgf.ast import Choice, Node, Optional, Reference, Rule, Sequence, Tagged, Void, Word, children
from companion.hearing.jsgf.expand import Pieces, RuleSpan, TaggedSpan


@dataclass(frozen=True)
class Meaning:
    """What words come to."""

    command: str
    slots: tuple[tuple[str, str], ...]
    """Name and value, in the order said."""


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
        last = _last_tags(option)
        return frozenset(rule.name if tag is None else tag for tag in last)

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


def _last_tags(node: Node) -> frozenset[str | None]:
    """Return the plain tags that can be the last one in a node; None among them where it can be said without any."""
    match node:
        case Tagged(item=item, tag=tag):
            return frozenset({tag.value}) if tag.slot is None else _last_tags(item)
        case Optional(item=item):
            return _last_tags(item) | {None}
        case Choice(options=options):
            return frozenset().union(*(_last_tags(option) for option in options))
        case Sequence(items=items):
            last: frozenset[str | None] = frozenset({None})
            for item in items:
                said_here = _last_tags(item)
                last = (said_here - {None}) | (last if None in said_here else frozenset())
            return last
        case Void():
            return frozenset()
        case _:
            return frozenset({None})


def _branches(body: Node) -> list[Reference]:
    """Return the references that are a whole branch of a rule."""
    if isinstance(body, Choice):
        return [reference for option in body.options for reference in _branches(option)]
    return [body] if isinstance(body, Reference) else []
