"""The words of a language as the rest of the program asks for them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from companion.languages.typing_habits import TypingHabits
from companion.messages import Hearing
from companion.talk.saying import Answers
from companion.vocabulary.live_words import LiveWords
from companion.vocabulary.typed_lines import TypedLines


@dataclass(frozen=True)
class Vocabulary(LiveWords):
    """The words we listen for, and how people type them."""

    typing: TypingHabits
    """How people type the language."""
    own_names: tuple[str, ...] = ()
    """What the observer's own objects are called: known where they are typed."""

    def understand(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]] = ()) -> Hearing:
        """Tell what a typed line says at a question that expects these answers (``TypedLines.understand``)."""
        return self._typed_lines.understand(line, expects, instead)

    @cached_property
    def _typed_lines(self) -> TypedLines:
        return TypedLines(self, self.typing, self.own_names)
