"""How to say words that a voice would guess wrong: a table of the word, its phonemes and its respelling."""

from __future__ import annotations

import csv
import os
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from companion.errors import MissingPart


@dataclass(frozen=True)
class Pronunciation:
    """One word or name and how to say it."""

    word: str
    """As it is written in a sentence; may hold spaces."""
    phonemes: str
    """In the alphabet of the hibari voice (``ʃˈɛdɑɹ``); empty: its own guess is right."""
    respelling: str
    """Spelt so that a letter-to-sound voice says it right (``shed-ar``); empty: its own guess is right."""


@dataclass(frozen=True)
class Pronunciations:
    """A table of pronunciations, applied to whole words in any case."""

    entries: tuple[Pronunciation, ...] = ()
    """Each word once."""

    @cached_property
    def _by_word(self) -> dict[str, Pronunciation]:
        return {entry.word.casefold(): entry for entry in self.entries}

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        longest_first = sorted((re.escape(entry.word) for entry in self.entries), key=len, reverse=True)
        return re.compile(rf"(?<!\w)(?:{'|'.join(longest_first)})(?!\w)", re.IGNORECASE)

    def rewrite(self, text: str, spell: Callable[[str, Pronunciation], str]) -> str:
        """Replace each word of the table found in ``text`` by ``spell(word as written, its entry)``; the longest match wins."""
        if not self.entries:
            return text
        return self._pattern.sub(lambda found: spell(found[0], self._by_word[found[0].casefold()]), text)

    def respell(self, text: str) -> str:
        """Return the text with every word of the table respelt."""
        return self.rewrite(text, lambda word, entry: entry.respelling or word)


NO_PRONUNCIATIONS = Pronunciations()


def read_pronunciations(path: str | os.PathLike[str]) -> Pronunciations:
    """Read a UTF-8 CSV table with the columns ``word, phonemes, respelling`` (others are ignored).

    Raises MissingPart when the file isn't there or lacks a column.
    """
    name = os.fspath(path)
    try:
        with Path(name).open(encoding="utf-8", newline="") as file:
            return pronunciations(csv.DictReader(file))
    except (OSError, KeyError, UnicodeDecodeError) as error:
        raise MissingPart(f"{name}: not a table of pronunciations ({error}); install the companion again") from error


def pronunciations(rows: Iterable[dict[str, str]]) -> Pronunciations:
    """Return the table made of these rows; raises KeyError when a row lacks a column."""
    return Pronunciations(tuple(Pronunciation(row["word"], row["phonemes"], row["respelling"]) for row in rows))
