"""Our grammars in the model's words: which words it has to know, the sentences it is primed with, and what its answers mean.

The library makes a model of word pairs from the sentences and hears any chain of them, so what it heard counts only if it is,
from end to end, one phrase of our grammar.
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import TypeAlias

from companion.errors import BadRequest, GrammarError
from companion.hearing.active import ActiveSet
from companion.hearing.grammar import Phrase
from companion.hearing.jsgf.ast import Reference, Rule, Word, walk
from companion.hearing.jsgf.graph import Place, Step, WordGraph
from companion.hearing.jsgf.words import keys_of
from companion.hearing.vosk.nearest import CLEARLY, CLEARLY_OF_FOUR, NEAR, NEAR_OF_FOUR, nearest
from companion.hearing.vosk.nearest_chain import nearest_chain

Knows = Callable[[str], bool]
"""Tells whether the model has a word."""

_ORDINARY = re.compile(r"[\w'.-]*[^\W_][\w'.-]*")
"""A word that is none of the model's own signs: the library ends the process when ``<eps>`` is in a grammar."""
_HANGUL = re.compile("[\uac00-\ud7a3 ]+")
_COMPARED = 600
"""What was heard is compared with no more phrases than these, one by one. Numbers and dates are more, and differ by a letter."""
_NAMED = 12
"""So many missing words are named."""
LIKELIEST_CHAIN = 0.75
"""What is asked back is less than that: among numbers what is nearest is often another."""
LEAST_ALONE = 0.6
"""What stands alone among a question's phrases is at least so likely: enough to be asked back."""
Ways: TypeAlias = tuple[list[str], ...]
"""The words of one utterance, as they were heard among other phrases or with less noise."""


@dataclass(frozen=True)
class Near:
    """A phrase that is near to what was heard."""

    phrase: Phrase
    likely: float = 1.0
    """What the likelihood that it was said is multiplied by, 0..1."""
    at_most: float = 1.0
    """How likely it is at most."""
    at_least: float = 0.0
    """How likely it is at least, whatever the sound says for it."""


@dataclass(frozen=True, eq=False)
class Prepared:
    """A set in the model's words."""

    active: ActiveSet
    garbage: str
    """The model's sign for a word it can't make out."""
    sentences: tuple[str, ...]
    """In the model's spelling; every pair of words that may follow each other is in one."""
    decoys: tuple[str, ...] = ()
    """What is listened for besides, so that it isn't taken for a phrase; never accepted unless it is one."""

    @property
    def grammar(self) -> str:
        """What the library takes: a JSON list, never empty."""
        return self._listed(self.sentences + self.decoys)

    @property
    def live_grammar(self) -> str:
        """The same without decoys."""
        return self._listed(self.sentences)

    def _listed(self, sentences: tuple[str, ...]) -> str:
        return json.dumps([*dict.fromkeys(sentences), self.garbage], ensure_ascii=False)

    @property
    def can_be_near(self) -> bool:
        """Whether what is spelled otherwise may be one of its phrases: not where nothing else is listened for, nor among all we know."""
        return bool(self.decoys) and not self.active.is_everything

    @cached_property
    def _compared(self) -> tuple[Phrase, ...]:
        """The phrases one by one; none where they are too many, such as places and dates."""
        return self.active.phrases(_COMPARED) if self.active.phrase_count <= _COMPARED else ()

    @cached_property
    def _graph(self) -> WordGraph:
        return WordGraph(grammar.rule(name) for grammar, name in self.active.sources)

    def nearest(self, heard: Ways, *, with_less_noise: bool = False) -> Near | None:
        """Return the phrase that is near to what was heard in several ways, and nearer than others; None where there is none.

        Among numbers and names the nearest counts, however near the next one is, and is never likely enough to be acted upon unasked.
        """
        if self._compared:
            found = nearest(heard, self._compared)
            bounds = (NEAR_OF_FOUR, CLEARLY_OF_FOUR) if with_less_noise else (NEAR, CLEARLY)
            if found is None or not (found.is_near(*bounds) or found.stands_alone):
                return None
            return Near(found.phrase, 1.0 - found.far, at_least=LEAST_ALONE if found.stands_alone else 0.0)
        chain = nearest_chain(heard, self._graph)
        phrase = None if chain is None else self.active.parse(chain[0])
        return None if chain is None or phrase is None else Near(phrase, at_most=LIKELIEST_CHAIN)

    def phrase(self, words: Sequence[str]) -> Phrase | None:
        """Return the phrase that recognised words are, all of them together, else None."""
        return None if self.garbage in words else self.active.parse(" ".join(words))


def prepared(active: ActiveSet, knows: Knows, garbage: str, decoys: tuple[str, ...] = ()) -> Prepared:
    """Put a set into the model's words. Raises GrammarError at the first place with a word the model lacks, and names them all."""
    spellings = _spellings(active, knows)
    sentences = tuple(dict.fromkeys(" ".join(spellings[text] for text in texts) for texts in _covering(active)))
    if not sentences:
        raise BadRequest("nothing can be said in this set of rules; choose others")
    return Prepared(active, garbage, sentences, decoys)


def spelling(text: str, knows: Knows) -> str | None:
    """Return a grammar's token in words the model has, else None.

    Tried in turn: as it is spelled, without its accents and apostrophes, its hyphens parting words; a word in Hangul, which is written
    as it sounds, as the fewest words that make it up. ``parse`` forgives all of these.
    """
    composed = unicodedata.normalize("NFC", text).replace("’", "'")
    bare = [unicodedata.normalize("NFC", key) for key in keys_of(text)]
    parted = composed.replace("-", " ").split()
    put_together = _put_together(composed.replace(" ", ""), knows) if _HANGUL.fullmatch(composed) else []
    for words in (composed.split(), put_together, parted, bare):
        if words and all(_ORDINARY.fullmatch(word) and knows(word) for word in words):
            return " ".join(words)
    return None


def _put_together(word: str, knows: Knows) -> list[str]:
    """Return the fewest words of the model that make up a word; none where they can't."""
    best: list[list[str] | None] = [[], *[None] * len(word)]
    for end in range(1, len(word) + 1):
        for begin in range(end):
            before = best[begin]
            if before is not None and knows(word[begin:end]) and (best[end] is None or len(before) + 1 < len(best[end] or ())):
                best[end] = [*before, word[begin:end]]
    return best[-1] or []


def _spellings(active: ActiveSet, knows: Knows) -> dict[str, str]:
    known: dict[str, str] = {}
    missing: dict[str, Rule] = {}
    for rule, word in _words(active):
        if word.text in known or word.text in missing:
            continue
        words = spelling(word.text, knows)
        if words is None:
            missing[word.text] = rule
        else:
            known[word.text] = words
    if missing:
        first = next(iter(missing.values()))
        listed = [f"'{text}' ({'' if rule.file == first.file else rule.file + ':'}{rule.line})" for text, rule in missing.items()]
        more = f" and {len(listed) - _NAMED} more" if len(listed) > _NAMED else ""
        complaint = f"the speech model doesn't know {', '.join(listed[:_NAMED])}{more}; use other words, or another model"
        raise GrammarError(complaint, file=first.file, line=first.line)
    return known


def _words(active: ActiveSet) -> Iterator[tuple[Rule, Word]]:
    """Yield the words of the rules and of those they refer to, each with its rule."""
    rules = dict.fromkeys(grammar.rule(name) for grammar, name in active.sources)
    waiting = deque(rules)
    while waiting:
        rule = waiting.popleft()
        for node, _ in walk(rule.body):
            if isinstance(node, Word):
                yield rule, node
            elif isinstance(node, Reference) and node.rule not in rules:
                rules[node.rule] = None
                waiting.append(node.rule)


def _covering(active: ActiveSet) -> Iterator[tuple[str, ...]]:
    """Yield phrases until each pair of tokens that may follow each other is in one: few even where phrases are countless."""
    graph = WordGraph(grammar.rule(name) for grammar, name in active.sources)
    before: dict[Place, tuple[str, ...]] = {graph.start: ()}
    steps: list[tuple[Place, Step]] = []
    waiting = deque([graph.start])
    while waiting:
        place = waiting.popleft()
        for step in graph.steps(place):
            steps.append((place, step))
            if step.place not in before:
                before[step.place] = (*before[place], step.text)
                waiting.append(step.place)
    behind = _ways_out(graph, before, steps)
    shown: set[tuple[str, str]] = set()
    for place, step in steps:
        endings: list[tuple[str, ...]] = [()] if graph.may_end(step.place) else []
        endings += [(after.text, *behind[after.place]) for after in graph.steps(step.place) if after.place in behind]
        for ending in endings:
            texts = (*before[place], step.text, *ending)
            pairs = set(pairwise(("", *texts, "")))
            if not pairs <= shown:
                shown |= pairs
                yield texts


def _ways_out(graph: WordGraph, places: dict[Place, tuple[str, ...]], steps: list[tuple[Place, Step]]) -> dict[Place, tuple[str, ...]]:
    """Return the shortest way from each place to the end of a phrase; places without one are left out."""
    arriving: dict[Place, list[tuple[Place, str]]] = {}
    for place, step in steps:
        arriving.setdefault(step.place, []).append((place, step.text))
    behind: dict[Place, tuple[str, ...]] = {place: () for place in places if graph.may_end(place)}
    waiting = deque(behind)
    while waiting:
        place = waiting.popleft()
        for earlier, text in arriving.get(place, []):
            if earlier not in behind:
                behind[earlier] = (text, *behind[place])
                waiting.append(earlier)
    return behind
