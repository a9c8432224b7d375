"""Whether a grammar is finite and flat enough to be worked on by recursion."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from companion.errors import GrammarError
from companion.hearing.jsgf.ast import Node, Reference, Rule, walk

DEEPEST = 100
"""Brackets and references within one another, taken together: far beyond any sentence, far below Python's stack."""


def references(body: Node) -> Iterator[Reference]:
    """Yield the references of a rule's body, in file order."""
    return (node for node, _ in walk(body) if isinstance(node, Reference))


def check_finite(rules: Iterable[Rule]) -> None:
    """Raise GrammarError for circles and too deep nesting; a walk with its own stack, visiting each reference once."""
    depths: dict[Rule, int] = {}
    for start in rules:
        path = {start: references(start.body)} if start not in depths else {}
        while path:
            rule = next(reversed(path))
            reference = next(path[rule], None)
            if reference is None:
                del path[rule]
                depths[rule] = _deepest(rule.body, depths)
                if depths[rule] > DEEPEST:
                    complaint = f"rule <{rule.name}> nests brackets and rules more than {DEEPEST} deep; flatten it"
                    raise GrammarError(complaint, file=rule.file, line=rule.line)
            elif reference.rule in path:
                complaint = f"rule <{reference.name}> leads back to itself; a grammar must be finite"
                raise GrammarError(complaint, file=rule.file, line=reference.line)
            elif reference.rule not in depths:
                path[reference.rule] = references(reference.item)


def _deepest(body: Node, depths: dict[Rule, int]) -> int:
    return max(depth + (depths[node.rule] if isinstance(node, Reference) else 0) for node, depth in walk(body))
