"""From any place in a word graph, the tokens that may come next: one tree of tokens for each place, made when first reached."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import Enum, auto

from companion.hearing.builtin.forms import capitalised, glued_forms, may_go_on, span_forms
from companion.hearing.builtin.sounds import NO_SOUNDS, Sounds
from companion.hearing.builtin.tokens import Tokenizer
from companion.hearing.jsgf.graph import Place, WordGraph

_MOST_SPANS = 4_000
"""Runs of words looked at from one place at most; the longest numbers of a vast number rule are then only known in words."""
_MOST_KEPT = 3_000


class Before(Enum):
    """What was written before: it decides how words are joined on."""

    NOTHING = auto()
    WORD = auto()
    FIGURE = auto()


@dataclass(frozen=True)
class Exit:
    """Words whose writing ends at a branch."""

    words: str
    place: Place
    before: Before
    """How what follows is joined on."""


@dataclass(eq=False)
class Branch:
    """A point in a tree of tokens."""

    children: dict[int, Branch] = field(default_factory=dict)
    exits: list[Exit] = field(default_factory=list)


class Tries:
    """The trees of tokens of one word graph. Filled while it is used; not for several threads at once."""

    def __init__(self, graph: WordGraph, tokenizer: Tokenizer, sounds: Sounds = NO_SOUNDS) -> None:
        """Take a graph, the vocabulary to write it in, and what rare words sound like."""
        self.graph = graph
        self._tokenizer = tokenizer
        self._sounds = sounds
        self._made: dict[tuple[Place, Before], Branch] = {}

    def at(self, place: Place, before: Before) -> Branch:
        """Return the tree of what may be written next at a place."""
        made = self._made.get((place, before))
        if made is None:
            if len(self._made) >= _MOST_KEPT:
                self._made.clear()
            made = self._made[place, before] = self._make(place, before)
        return made

    def _make(self, place: Place, before: Before) -> Branch:
        root = Branch()
        waiting: deque[tuple[tuple[str, ...], str, Place]] = deque([((), "", place)])
        looked_at = 0
        while waiting and looked_at < _MOST_SPANS:
            written, said, here = waiting.popleft()
            for step in self.graph.steps(here):
                looked_at += 1
                words, text = (*written, *step.written.split()), f"{said} {step.text}".strip()
                for form in self._forms(words, not written, before):
                    self._insert(root, form, Exit(text, step.place, Before.FIGURE if form[-1].isdigit() else Before.WORD))
                if may_go_on(words) or self._sounds.may_go_on(words):
                    waiting.append((words, text, step.place))
        return root

    def _insert(self, root: Branch, form: str, end: Exit) -> None:
        branch = root
        for token in self._tokenizer.encode(form):
            branch = branch.children.setdefault(token, Branch())
        if end not in branch.exits:
            branch.exits.append(end)

    def _forms(self, words: tuple[str, ...], one_step: bool, before: Before) -> Iterable[str]:
        plain = ("".join(f" {word}" for word in words),) if one_step else ()
        for form in dict.fromkeys((*plain, *span_forms(words))):
            yield form
            if before is Before.NOTHING or self._is_name(form):
                yield capitalised(form)
        for form in self._sounds.forms(words):
            yield form
            yield capitalised(form)
        if before is Before.FIGURE:
            yield from glued_forms(words)

    def _is_name(self, form: str) -> bool:
        """Tell whether a word is more at home with a large letter: the vocabulary has it in fewer pieces."""
        large = capitalised(form)
        return large != form and len(self._tokenizer.encode(large)) < len(self._tokenizer.encode(form))
