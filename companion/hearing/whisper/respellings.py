"""What rare words sound like: other spellings of theirs that a transcriber may choose, as the grammars' comments tell."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType


class Respellings:
    """A table from words, which may be several, to how they may be written by ear."""

    def __init__(self, table: Mapping[str, tuple[str, ...]]) -> None:
        """Take the words, in lower case with single spaces, and their spellings, with capitals where a transcriber would set them."""
        self._table = table
        self._beginnings = {words[:at] for words in table for at, letter in enumerate(words) if letter == " "}

    def forms(self, words: Sequence[str]) -> tuple[str, ...]:
        """Return the ways to write words by ear, each with its leading space; empty for words that aren't in the table."""
        return tuple(f" {spelling}" for spelling in self._table.get(" ".join(words).lower(), ()))

    def may_go_on(self, words: Sequence[str]) -> bool:
        """Tell whether words of the table begin with these and go on."""
        return " ".join(words).lower() in self._beginnings


NO_RESPELLINGS = Respellings(MappingProxyType({}))
