"""The tree a grammar file becomes. Nodes are compared by identity: the same words at two places are two nodes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias


@dataclass(frozen=True, eq=False)
class Word:
    """One token of the file; a quoted token may hold several words."""

    text: str
    """Lower case, single spaces: what a phrase is spelled with."""
    keys: tuple[str, ...]
    """The same without case, accents, hyphens and apostrophes: what typed words are compared by."""
    written: str
    """As the file spells it, with its capitals: a hint how it is written in a sentence."""


@dataclass(frozen=True, eq=False)
class Sequence:
    """One after another."""

    items: tuple[Node, ...]
    """At least two."""


@dataclass(frozen=True, eq=False)
class Choice:
    """One of several."""

    options: tuple[Node, ...]
    """At least two."""


@dataclass(frozen=True, eq=False)
class Optional:
    """Said or left out."""

    item: Node


@dataclass(frozen=True, eq=False)
class Reference:
    """What another rule of the same grammar allows."""

    name: str
    line: int


@dataclass(frozen=True, eq=False)
class Tag:
    """What a part of a phrase means."""

    slot: str | None
    """The slot that ``{slot=value}`` fills; None for a plain ``{value}``."""
    value: str


@dataclass(frozen=True, eq=False)
class Tagged:
    """A part of a phrase with its tag."""

    item: Node
    tag: Tag


@dataclass(frozen=True, eq=False)
class Null:
    """``<NULL>``: always there, never heard."""


@dataclass(frozen=True, eq=False)
class Void:
    """``<VOID>``: cannot be said."""


Node: TypeAlias = Word | Sequence | Choice | Optional | Reference | Tagged | Null | Void


@dataclass(frozen=True)
class Example:
    """Words that a rule's comment promises it accepts (``@example``) or refuses (``@counterexample``)."""

    rule: str
    words: str
    line: int
    accepted: bool


@dataclass(frozen=True, eq=False)
class Rule:
    """One definition."""

    name: str
    public: bool
    body: Node
    line: int
    """Where it begins, from 1."""


@dataclass(frozen=True, eq=False)
class GrammarTree:
    """A whole file, checked: every reference is known and none runs in a circle."""

    name: str
    rules: Mapping[str, Rule]
    """In file order."""
    examples: tuple[Example, ...]
    sounds: Mapping[str, tuple[str, ...]]
    """By words as phrases spell them: how they may be written by ear, as the comments' ``@sounds`` tell."""


def children(node: Node) -> tuple[Node, ...]:
    """Return the parts of a node within its own rule."""
    match node:
        case Sequence(items=parts) | Choice(options=parts):
            return parts
        case Optional(item=part) | Tagged(item=part):
            return (part,)
        case _:
            return ()
