"""Typed words that no phrase has, put as the nearest that one has."""

from __future__ import annotations

from collections.abc import Collection
from difflib import get_close_matches

from companion.vocabulary.live_words import LiveWords

_SHORTEST_MISSPELT = 4
"""Shorter words are too near to too many."""
ALIKE_HERE, ALIKE, NEARLY_ALIKE = 0.7, 0.75, 0.85
"""How much of two words is the same where one is taken for the other: among what answers the question, among all, and where the line is
only guessed at. Judgement."""


class Spelling:
    """Spells a line in words we know."""

    def __init__(self, words: LiveWords) -> None:
        """Take the grammars."""
        self._words = words

    def spelt(self, line: str, words: Collection[str], alike: float) -> str:
        """Return a line with each word that nothing has put as the nearest among some."""
        return " ".join(self._nearest(word, words, alike) for word in line.split())

    def _nearest(self, word: str, words: Collection[str], alike: float) -> str:
        """Return the word among some that was most likely meant where nothing has this one."""
        bare = word.strip(".,;:!?").lower()
        if bare in self._words.known or len(bare) < _SHORTEST_MISSPELT:
            return word
        return next(iter(get_close_matches(bare, words, 1, alike)), word)
