"""How people type a language: words that mean nothing, other ways to write the same, and several things said in one line."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from companion.orthography import Telling

_MARKS = ".,;:!?"
_BETWEEN_CLAUSES = re.compile(r"[,;:!?]\s*|\.\s+|\s[-–—]\s")


@dataclass(frozen=True)
class TypingHabits:
    """Those of one language. Words are in lower case."""

    empty_words: frozenset[str] = frozenset()
    """Words that mean nothing before or after an answer: "um", "please"."""
    openings: frozenset[str] = frozenset()
    """Words that answer by themselves, and are followed by more with or without a comma: "yes". Not "no": "no cables" is no answer."""
    contrary_words: frozenset[str] = frozenset()
    """Words that may turn an answer round: "but", "not"."""
    other_forms: Callable[[str], tuple[str, ...]] = lambda line: ()
    """Other ways to write a line, the nearest first."""

    any_name: str = ""
    """A name that the grammars know: it stands for one of the observer's own, which they don't."""
    gists: Callable[[str, str], Iterator[str]] = lambda line, rule: iter(())
    """The phrases that a line may stand for, by its words, where answers of a rule are expected; the likeliest first."""

    town_in: Callable[[str], str | None] = lambda line: None
    """The name of a town in a line that tells where somebody is; None where it names none."""
    telling: Telling | None = None
    """Which words tell what a line is about, so that it can be guessed; None where that isn't known of a language."""

    def ways(self, line: str) -> tuple[str, ...]:
        """Return the ways to take a line, likeliest first: as it stands, written otherwise, each without its empty words, too."""
        written = (line, *self.other_forms(line))
        return tuple(dict.fromkeys(way for form in written for way in (form, self._without_empty_words(form))))

    def clauses(self, line: str) -> tuple[str, ...]:
        """Return what a line says one after another: parted by marks, and after a word that answers by itself."""
        parted: list[str] = []
        for clause in _BETWEEN_CLAUSES.split(line):
            first, _, rest = self._without_empty_words(clause.strip()).partition(" ")
            parted += [first, rest] if rest and first.lower() in self.openings else [clause]
        return tuple(clause.strip() for clause in parted if clause.strip())

    def may_turn_it_round(self, clause: str) -> bool:
        """Say whether a clause that isn't understood may mean the contrary of one that is."""
        words = [word.strip(_MARKS) for word in clause.lower().replace("’", "'").split()]
        return not self.contrary_words.isdisjoint(words)

    def _without_empty_words(self, line: str) -> str:
        """Return a line less the empty words at its ends; the line itself where nothing else is in it."""
        words = line.split()
        full = [place for place, word in enumerate(words) if word.strip(_MARKS).lower() not in self.empty_words]
        return " ".join(words[full[0] : full[-1] + 1]) if full else line
