"""The tree a grammar file becomes. Nodes are compared by identity: the same words at two places are two nodes.

Five kinds are enough: ``[x]``, ``<NULL>`` and ``<VOID>`` are choices and sequences like any other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
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
    """One after another; of nothing, it is always there and never heard."""

    items: tuple[Node, ...]


@dataclass(frozen=True, eq=False)
class Choice:
    """One of several; of none, it can't be said."""

    options: tuple[Node, ...]


@dataclass(frozen=True, eq=False)
class Reference:
    """What another rule allows, of the same grammar or of one it imports."""

    name: str
    """As it is written here."""
    line: int
    scope: Mapping[str, Rule] = field(repr=False)
    """The rules that may be referred to here, by every name they have here."""

    @property
    def rule(self) -> Rule:
        """The rule meant."""
        return self.scope[self.name]

    @property
    def item(self) -> Node:
        """What it allows."""
        return self.rule.body


@dataclass(frozen=True, eq=False)
class Tag:
    """What a part of a phrase means."""

    slot: str | None
    """The slot that ``{slot=value}`` fills; None for a plain ``{value}``."""
    value: str


@dataclass(frozen=True, eq=False)
class Weight:
    """How likely one of several alternatives is beside the others, ``/0.5/``."""

    share: float
    """Of the likeliest of them, 0..1."""


@dataclass(frozen=True, eq=False)
class Tagged:
    """A part of a phrase with its tag, or its weight."""

    item: Node
    tag: Tag | Weight


Node: TypeAlias = Word | Sequence | Choice | Reference | Tagged

NULL, VOID = Sequence(()), Choice(())
"""``<NULL>`` and ``<VOID>``."""


def optional(item: Node) -> Node:
    """Return what may be said or left out."""
    return Choice((NULL, item))


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
    file: str
    """Where it stands."""
    line: int
    """Where it begins, from 1."""


@dataclass(frozen=True, eq=False)
class GrammarTree:
    """A whole file, checked: every reference is known and none runs in a circle."""

    name: str
    rules: Mapping[str, Rule]
    """Its own, in file order."""
    imports: frozenset[str]
    """The full names of the grammars it imports from."""
    examples: tuple[Example, ...]
    sounds: Mapping[str, tuple[str, ...]]
    """By words as phrases spell them: how they may be written by ear, as the comments' ``@sounds`` tell, here and where it imports."""


def walk(body: Node) -> Iterator[tuple[Node, int]]:
    """Yield every node of a rule's body with its depth there, from 1, in file order; what it refers to is not entered."""
    stack: list[tuple[Node, int]] = [(body, 1)]
    while stack:
        node, depth = stack.pop()
        yield node, depth
        parts: tuple[Node, ...] = ()
        match node:
            case Sequence(items=parts) | Choice(options=parts):
                pass
            case Tagged(item=part):
                parts = (part,)
        stack.extend((part, depth + 1) for part in reversed(parts))
