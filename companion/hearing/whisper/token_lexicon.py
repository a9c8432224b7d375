"""From any place in a word graph, the tokens that may come next: one tree of tokens for each place, made when first reached."""

from __future__ import annotations

from collections import OrderedDict, deque
from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import Enum, auto

from companion.hearing.jsgf.graph import Place, WordGraph
from companion.hearing.whisper.respellings import NO_RESPELLINGS, Respellings
from companion.hearing.whisper.tokens import Tokenizer
from companion.hearing.whisper.written_variants import capitalised
from companion.orthography import Orthography

_MOST_SPANS = 4_000
"""Runs of words looked at from one place at most; the longest numbers of a vast number rule are then only known in words."""
_MOST_BRANCHES = 60_000
"""Branches kept, some 20 MB: half an hour of other people's talk wanders through more and more of a large grammar."""


class Before(Enum):
    """What was written before: it decides how words are joined on."""

    NOTHING = auto()
    WORD = auto()
    FIGURE = auto()


@dataclass(frozen=True, slots=True)
class Exit:
    """Words whose writing ends at a branch."""

    words: str
    place: Place
    before: Before
    """How what follows is joined on."""


@dataclass(eq=False, slots=True)
class Branch:
    """A point in a tree of tokens."""

    children: dict[int, Branch] = field(default_factory=lambda: _NO_CHILDREN)
    """One for all where there are none: an empty dictionary takes as much as the rest of a branch."""
    exits: tuple[Exit, ...] = ()


_NO_CHILDREN: dict[int, Branch] = {}


class TokenLexicon:
    """The trees of tokens of one word graph. Made while it is used, those used last are kept; not for several threads at once."""

    def __init__(self, graph: WordGraph, tokenizer: Tokenizer, writing: Orthography, respellings: Respellings = NO_RESPELLINGS) -> None:
        """Take a graph, the vocabulary and the orthography to write it in, and what rare words sound like."""
        self.graph = graph
        self._tokenizer = tokenizer
        self._writing = writing
        self._respellings = respellings
        self._made: OrderedDict[tuple[Place, Before], tuple[Branch, int]] = OrderedDict()
        """Each tree with the number of its branches."""
        self._kept = self._grown = 0

    def at(self, place: Place, before: Before) -> Branch:
        """Return the tree of what may be written next at a place."""
        key = (place, before)
        if key in self._made:
            self._made.move_to_end(key)
            return self._made[key][0]
        self._grown = 0
        tree = self._make(place, before)
        self._made[key] = (tree, self._grown)
        self._kept += self._grown
        while self._kept > _MOST_BRANCHES and len(self._made) > 1:
            self._kept -= self._made.popitem(last=False)[1][1]
        return tree

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
                if self._writing.may_go_on(words) or self._respellings.may_go_on(words):
                    waiting.append((words, text, step.place))
        return root

    def _insert(self, root: Branch, form: str, end: Exit) -> None:
        branch = root
        for token in self._tokenizer.encode(form):
            below = branch.children.get(token)
            if below is None:
                below = Branch()
                if not branch.children:
                    branch.children = {}
                branch.children[token] = below
                self._grown += 1
            branch = below
        if end not in branch.exits:
            branch.exits = (*branch.exits, end)

    def _forms(self, words: tuple[str, ...], one_step: bool, before: Before) -> Iterable[str]:
        plain = ("".join(f" {word}" for word in words),) if one_step else ()
        for form in dict.fromkeys((*plain, *self._writing.span_forms(words))):
            yield form
            if before is Before.NOTHING or self._is_name(form):
                yield capitalised(form)
        for form in self._respellings.forms(words):
            yield form
            yield capitalised(form)
        if before is Before.FIGURE:
            yield from self._writing.glued_forms(words)

    def _is_name(self, form: str) -> bool:
        """Tell whether a word is more at home with a large letter: the vocabulary has it in fewer pieces."""
        large = capitalised(form)
        return large != form and len(self._tokenizer.encode(large)) < len(self._tokenizer.encode(form))
