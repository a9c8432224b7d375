"""What was told of a thing in the sky when somebody asked, so that it isn't told again where more about it is wanted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from companion.talk.night_phrases import MoreAboutIt
from companion.talk.question_phrases import HowFarItIs
from companion.talk.saying import Saying


class Told:
    """Remembers it for one evening. Only what is said changes: scripts and journal know nothing of it."""

    def __init__(self) -> None:
        """Begin with nothing told."""
        self._distances: set[str] = set()
        self._as_said: dict[Saying, Saying] = {}

    def note(self, sayings: Iterable[Saying]) -> None:
        """Take in what is said to a question."""
        self._distances.update(saying.name for saying in sayings if isinstance(saying, HowFarItIs))

    def answer(self, sayings: tuple[Saying, ...]) -> tuple[Saying, ...]:
        """Return what a script says without what was told already."""
        self._as_said = {
            saying: replace(saying, distance_told=True)
            for saying in sayings
            if isinstance(saying, MoreAboutIt) and saying.target in self._distances
        }
        return self.again(sayings)

    def again(self, sayings: tuple[Saying, ...]) -> tuple[Saying, ...]:
        """Return the same words as at the first time."""
        return tuple(self._as_said.get(saying, saying) for saying in sayings) if self._as_said else sayings
