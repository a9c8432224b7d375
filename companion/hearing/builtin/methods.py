"""The two ways to recognise a set: score every phrase where they are few, search through the word graph where they are many."""

from __future__ import annotations

import threading
import weakref
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from companion.hearing.active import ActiveSet
from companion.hearing.builtin.beam import Beam, Finished
from companion.hearing.builtin.confidence import TASTE, judge, judge_found
from companion.hearing.builtin.layout import Layout, lay_out, spread
from companion.hearing.builtin.network import Memory, Network
from companion.hearing.builtin.scorer import Scorer, Taste
from companion.hearing.builtin.sounds import Sounds
from companion.hearing.builtin.tokens import Tokenizer
from companion.hearing.builtin.tries import Tries
from companion.hearing.grammar import Phrase
from companion.hearing.jsgf.graph import WordGraph

MOST_PHRASES = 120
MOST_NODES = 600
"""Larger sets are searched: laying out costs about 0.5 ms a node and utterance, a search 0.2 to 0.6 s whatever the size."""
_SHORTLIST = 6
_ECHO = 5.0
"""A text that is so much less likely than its own first words is those words, said once. In synthesised hand measures in noise of 9 dB
the beginning alone was likelier by 7 to 17 where nothing followed, by -7 to 3 where something did."""
_BACKGROUNDS = 2
"""Of the sounds without speech, so many are used for the shortlist, which is measured anew each time."""


class Model:
    """A network with all that works on it."""

    def __init__(self, network: Network, tokenizer: Tokenizer) -> None:
        """Take a network and its vocabulary."""
        self.network = network
        self.tokenizer = tokenizer
        self.scorer = Scorer(network, tokenizer)
        self.beam = Beam(network, tokenizer)


@dataclass(frozen=True, eq=False)
class Background:
    """Sounds without speech, as the network remembers them: about 3 MB each, so only the engine holds on to one."""

    memories: tuple[Memory, ...]


@dataclass(frozen=True)
class Answer:
    """What one set makes of an utterance."""

    phrase: Phrase
    confidence: float
    """Probability 0..1 that the phrase was said."""


class Method(Protocol):
    """How one set is recognised."""

    @property
    def is_measured(self) -> bool:
        """Whether the background has been looked at."""
        ...

    def measure(self, background: Background) -> None:
        """Take sounds without speech into account; the same ones again cost nothing."""
        ...

    def answer(self, memories: Sequence[Memory], background: Background) -> Answer | None:
        """Return the best phrase for an utterance, given as heard at one or several speeds; None when nothing fits at all."""
        ...


class Scored:
    """A set written out as one tree of tokens, every phrase scored."""

    def __init__(self, phrases: tuple[Phrase, ...], layout: Layout, model: Model) -> None:
        """Take what ``of`` laid out."""
        self._phrases = phrases
        self._layout = layout
        self._model = model
        self._measured: tuple[weakref.ref[Background], Taste] | None = None

    @classmethod
    def of(cls, active: ActiveSet, model: Model) -> Scored | None:
        """Lay a set out, unless it is too large or there is nothing in it."""
        if active.phrase_count > MOST_PHRASES:
            return None
        phrases = active.phrases()
        if not phrases:
            return None
        layout = spread(phrases, model.tokenizer, Sounds(active.sounds))
        return cls(phrases, layout, model) if len(layout.tokens) <= MOST_NODES else None

    @property
    def is_measured(self) -> bool:
        """Whether the phrases' taste is known."""
        return self._measured is not None

    def measure(self, background: Background) -> None:
        """Learn how much each phrase is to the model's taste."""
        if self._measured is None or self._measured[0]() is not background:
            self._measured = (weakref.ref(background), self._model.scorer.null(self._layout, background.memories))

    def answer(self, memories: Sequence[Memory], background: Background) -> Answer | None:
        """Return the best phrase, by the taste measured last: measuring anew is for quieter moments."""
        taste = self._measured[1].share(TASTE, TASTE) if self._measured else Taste.none(self._layout)
        readings = [self._model.scorer.read(self._layout, taste, memory) for memory in memories]
        verdict = judge(self._layout, taste.fits, readings)
        return Answer(self._phrases[verdict.phrase], verdict.confidence)


class Searched:
    """A set of any size, searched; the best few texts found are then scored as a set of their own."""

    def __init__(self, active: ActiveSet, model: Model) -> None:
        """Take a set; nothing is written out."""
        self._active = active
        self._model = model
        graph = WordGraph([(grammar.tree.rules, rule) for grammar, rule in active.sources])
        self._tries = Tries(graph, model.tokenizer, Sounds(active.sounds))
        self._one_at_a_time = threading.Lock()
        self._last: tuple[Memory, tuple[Finished, ...]] | None = None

    @property
    def is_measured(self) -> bool:
        """Nothing can be measured before texts are found."""
        return True

    def measure(self, background: Background) -> None:
        """Do nothing: the texts that will be found are measured then."""

    def answer(self, memories: Sequence[Memory], background: Background) -> Answer | None:
        """Return the best phrase found."""
        texts = without_echoes(self._found_in(memories[0]))[:_SHORTLIST]
        if not texts:
            return None
        scorer = self._model.scorer
        layout = lay_out([(place, text.tokens) for place, text in enumerate(texts)], self._model.tokenizer)
        null = scorer.null(layout, background.memories[:_BACKGROUNDS])
        readings = [scorer.read(layout, null.share(0.0, TASTE), memory) for memory in memories]
        phrases = [self._active.parse(text.words) for text in texts]
        meanings = [phrase and (phrase.command, tuple(sorted(phrase.slots.items()))) for phrase in phrases]
        verdict = judge_found(layout, null.fits, readings, meanings)
        phrase = phrases[verdict.phrase]
        return Answer(phrase, verdict.confidence) if phrase is not None else None

    def _found_in(self, memory: Memory) -> tuple[Finished, ...]:
        """Search an utterance, unless it is the one of last time (heard again at other speeds)."""
        with self._one_at_a_time:
            if self._last is None or self._last[0] is not memory:
                self._last = (memory, self._model.beam.search(self._tries, memory))
            return self._last[1]


def without_echoes(texts: Sequence[Finished]) -> list[Finished]:
    """Leave out texts that go on after the words said: a model that writes likes to say them again."""
    return [
        text
        for text in texts
        if not any(text.words.startswith(f"{start.words} ") and start.log_probability - text.log_probability > _ECHO for start in texts)
    ]
