"""A set of rules as a graph of words, unrolled only where one walks: for sets far too large to write out.

A state is what may still follow: a node of the tree and, behind it, the state after that node. Where several ways say the same
words, one walks them all at once, so a place in the graph is a set of states.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias

from companion.hearing.jsgf.ast import Choice, Node, Reference, Rule, Sequence, Tagged, Word


@dataclass(frozen=True, eq=False, slots=True)
class State:
    """What may still be said; the same is always the same object."""

    node: Node | None
    """What comes next; None at the end of the phrase."""
    after: State | None
    """What comes then."""
    number: int
    """In the order of discovery, so that walks are the same every time."""


Place: TypeAlias = frozenset[State]


@dataclass(frozen=True, eq=False, slots=True)
class Step:
    """One word, or one quoted token of several, that may be said next."""

    text: str
    """As phrases spell it."""
    written: str
    """With the file's capitals."""
    place: Place
    """Where one stands after it."""


@dataclass(frozen=True, eq=False, slots=True)
class _Following:
    """The words that may come next from a state, each with the state after it, and whether nothing need follow."""

    words: tuple[Word, ...]
    states: tuple[State, ...]
    may_end: bool


_NUMBERS_BITS = 40
"""A graph of so many states fits into no memory."""


class WordGraph:
    """The words that may follow each other in some rules."""

    def __init__(self, roots: Iterable[Rule]) -> None:
        """Take the rules."""
        self._known: dict[int, State] = {}
        """By the node's identity and the number of the state after it, as one figure: a hundred thousand pairs would take 8 MB more."""
        self._steps: dict[Place, tuple[Step, ...]] = {}
        self._next: dict[State, _Following] = {}
        self._end = State(None, None, 0)
        self.start: Place = frozenset(self._state(rule.body, self._end) for rule in roots)

    def steps(self, place: Place) -> tuple[Step, ...]:
        """Return what may be said next, each text once."""
        known = self._steps.get(place)
        if known is None:
            found: dict[str, tuple[Word, set[State]]] = {}
            for state in sorted(place, key=lambda state: state.number):
                following = self._following(state)
                for word, after in zip(following.words, following.states, strict=True):
                    found.setdefault(word.text, (word, set()))[1].add(after)
            known = tuple(Step(text, word.written, frozenset(states)) for text, (word, states) in found.items())
            self._steps[place] = known
        return known

    def may_end(self, place: Place) -> bool:
        """Tell whether a phrase may be complete here."""
        return any(self._following(state).may_end for state in place)

    def _following(self, start: State) -> _Following:
        known = self._next.get(start)
        if known is None:
            known = self._next[start] = self._follow(start)
        return known

    def _follow(self, start: State) -> _Following:
        words: list[Word] = []
        states: list[State] = []
        may_end = False
        seen = {start}
        waiting = [start]
        while waiting:
            state = waiting.pop()
            if state.node is None or state.after is None:
                may_end = True
            elif isinstance(state.node, Word):
                words.append(state.node)
                states.append(state.after)
            else:
                for other in self._open(state.node, state.after):
                    if other not in seen:
                        seen.add(other)
                        waiting.append(other)
        return _Following(tuple(words), tuple(states), may_end)

    def _open(self, node: Node, after: State) -> list[State]:
        match node:
            case Word():
                return []
            case Reference(item=item) | Tagged(item=item):
                return [self._state(item, after)]
            case Choice(options=options):
                return [self._state(option, after) for option in reversed(options)]
            case Sequence(items=items):
                for item in reversed(items):
                    after = self._state(item, after)
                return [after]

    def _state(self, node: Node, after: State) -> State:
        key = id(node) << _NUMBERS_BITS | after.number
        known = self._known.get(key)
        if known is None:
            known = self._known[key] = State(node, after, len(self._known) + 1)
        return known
