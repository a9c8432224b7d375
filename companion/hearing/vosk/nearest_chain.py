"""The phrases nearest to what was heard where a set is too large to be written out: numbers, dates, places, names.

The set's graph is walked word by word, and at each word only the ways that still may be near are kept. Distances are those of
``nearest``: numbers differ by a letter or two, so that what is found here is likely rather than certain, and is for a question back.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from companion.hearing.jsgf.graph import Place, WordGraph
from companion.hearing.vosk.nearest import COSTS, letters

NEAR_CHAIN = 0.35
"""The mean distance of what is taken for a phrase. Of 52 figures, dates, times, places and names of three synthesised voices 24 were heard
before; as the nearest chain within 0.3 38 are right, 7 wrong, within 0.4 40 and 8; of 31 other sentences 2 and 4 are near one."""
_KEPT = 60
"""So many ways are kept at each word."""
_MOST_WORDS = 24
_Rows = tuple[NDArray[np.float64], ...]


@dataclass(frozen=True, eq=False)
class _Way:
    """A way into the graph."""

    words: tuple[str, ...]
    place: Place
    letters: int
    rows: _Rows
    """Of each hearing: what it costs to turn its first letters, 0 to all, into these words; shape (letters + 1,)."""
    least: float
    """The mean distance that it has at least."""


def nearest_chain(heard: Sequence[Sequence[str]], graph: WordGraph) -> tuple[str, float] | None:
    """Return the phrase nearest to words heard in several ways, and its mean distance, 0..``NEAR_CHAIN``; None where none is near.

    Nor is there one where nothing was heard in Hangul.
    """
    hearings = [letters("".join(words)) for words in heard]
    if not all(hearings):
        return None
    rows = tuple(np.arange(len(hearing) + 1, dtype=float) for hearing in hearings)
    ways = [_Way((), graph.start, 0, rows, 0.0)]
    found: dict[str, float] = {}
    for _ in range(_MOST_WORDS):
        ways = sorted((other for way in ways for other in _onward(way, hearings, graph)), key=lambda way: way.least)[:_KEPT]
        for way in ways:
            if graph.may_end(way.place):
                words = " ".join(way.words)
                found[words] = min(found.get(words, 1.0), _mean([row[-1] for row in way.rows], hearings, way.letters))
        if not ways:
            break
    far, words = min(((far, words) for words, far in found.items()), default=(1.0, ""))
    return (words, far) if far <= NEAR_CHAIN else None


def _onward(way: _Way, hearings: Sequence[str], graph: WordGraph) -> Iterator[_Way]:
    for step in graph.steps(way.place):
        said = letters(step.text)
        rows = tuple(_after(row, said, hearing) for row, hearing in zip(way.rows, hearings, strict=True))
        count = way.letters + len(said)
        yield _Way((*way.words, step.text), step.place, count, rows, _mean([row.min() for row in rows], hearings, count))


def _after(row: NDArray[np.float64], said: str, hearing: str) -> NDArray[np.float64]:
    """Return the row after more letters: each is heard as another, not at all, or beside others that nobody said."""
    places = np.arange(len(row))
    for letter in said:
        changes = np.array([0.0 if letter == other else COSTS.get(frozenset((letter, other)), 1.0) for other in hearing])
        fresh = row + 1.0
        fresh[1:] = np.minimum(fresh[1:], row[:-1] + changes)
        row = np.minimum.accumulate(fresh - places) + places
    return row


def _mean(distances: Sequence[float], hearings: Sequence[str], count: int) -> float:
    return float(np.mean([far / max(len(hearing), count, 1) for far, hearing in zip(distances, hearings, strict=True)]))
