"""Text -> the model's tokens: byte-level byte-pair encoding (Sennrich et al. 2016; bytes as letters after GPT-2)."""

from __future__ import annotations

import json
import re
import sys
from array import array
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import pairwise
from pathlib import Path

from companion.errors import MissingPart

_CHUNK = re.compile(r"'(?:s|t|re|ve|m|ll|d)| ?[^\W\d_]+| ?\d+| ?(?:[^\s\w]|_)+|\s+(?!\S)|\s+")
"""Contractions, words, figures and signs, each with the space before it."""
_NEVER = sys.maxsize
_MOST_TOKENS = 100_000


def _byte_letters() -> list[str]:
    """Return the letter that stands for each byte: itself where printable, else one from 256 up."""
    printable = {*range(ord("!"), ord("~") + 1), *range(ord("¡"), ord("¬") + 1), *range(ord("®"), ord("ÿ") + 1)}
    others = iter(range(256, 512))
    return [chr(byte if byte in printable else next(others)) for byte in range(256)]


class Tokenizer:
    """The vocabulary of one model."""

    start: int
    """Begins every transcript."""
    no_timestamps: int
    """Second in every transcript: no times are wanted."""
    end: int
    """Ends a transcript."""
    no_speech: int
    """Its probability after ``start`` is that of nobody speaking."""

    def __init__(self, directory: Path) -> None:
        """Read ``tokenizer.json``. Raises MissingPart when it is missing, damaged or of another kind."""
        path = directory / "tokenizer.json"
        try:
            tables = json.loads(path.read_text(encoding="utf-8"))
            self._numbers: dict[str, int] = {str(text): int(number) for text, number in tables["model"]["vocab"].items()}
            self._lefts = self._read_merges(tables["model"]["merges"])
            special = {str(token["content"]): int(token["id"]) for token in tables["added_tokens"]}
            self.start = special["<|startoftranscript|>"]
            self.no_timestamps = special["<|notimestamps|>"]
            self.end = special["<|endoftext|>"]
            self.no_speech = special.get("<|nospeech|>", special.get("<|nocaptions|>", -1))
            self._letters = _byte_letters()
            self._check()
        except OSError as error:
            raise MissingPart(f"{path} can't be read ({error.strerror}); give a whole CTranslate2 Whisper directory") from error
        except (ValueError, KeyError, TypeError, AttributeError, RecursionError, OverflowError) as error:
            raise MissingPart(f"{path} is not a Whisper tokenizer, or damaged ({error}); fetch it again") from error
        self._chunk = lru_cache(maxsize=20_000)(self._encode_chunk)

    def encode(self, text: str) -> tuple[int, ...]:
        """Return the tokens of a text; a word within a sentence is given with its leading space."""
        return tuple(number for chunk in _CHUNK.findall(text) for number in self._chunk(chunk))

    def texts(self, count: int) -> tuple[str, ...]:
        """Return the texts of the first so many tokens; of bytes that are no letter by themselves, a replacement character."""
        texts = {number: text for text, number in self._numbers.items() if number < count}
        values = {letter: value for value, letter in enumerate(self._letters)}
        return tuple(bytes(values[letter] for letter in texts.get(number, "")).decode("utf-8", errors="replace") for number in range(count))

    def decode(self, numbers: tuple[int, ...]) -> str:
        """Return the text of tokens; special ones have none. Slow: nothing that is heard needs it."""
        texts = {number: text for text, number in self._numbers.items() if number in numbers}
        letters = "".join(texts.get(number, "") for number in numbers)
        return bytes(self._letters.index(letter) for letter in letters).decode("utf-8", errors="replace")

    def _read_merges(self, merges: Iterable[str | Sequence[str]]) -> array[int]:
        """Return how many letters the left part has of what each token was put together from, 0 where it never was.

        Tokens are numbered as they were put together, so that the number itself tells the rank; pairs of texts would take ten megabytes.
        """
        if not set(self._numbers.values()) <= set(range(_MOST_TOKENS)):
            raise ValueError("a token's number is out of range")
        lefts = array("B", bytes(_MOST_TOKENS))
        last = -1
        for merge in merges:
            left, right = merge.split(" ") if isinstance(merge, str) else merge
            number = self._numbers[left + right]
            if number <= last:
                raise ValueError("its tokens aren't numbered as they were put together")
            lefts[number], last = len(left), number
        return lefts

    def _encode_chunk(self, chunk: str) -> tuple[int, ...]:
        parts = [self._letters[byte] for byte in chunk.encode()]
        while len(parts) > 1:
            rank, place = min((self._rank(left, right), at) for at, (left, right) in enumerate(pairwise(parts)))
            if rank == _NEVER:
                break
            parts[place : place + 2] = [parts[place] + parts[place + 1]]
        return tuple(self._numbers[part] for part in parts)

    def _rank(self, left: str, right: str) -> int:
        """Return how soon two parts were put together when the vocabulary was made, the commonest first."""
        number = self._numbers.get(left + right, -1)
        return number if number >= 0 and self._lefts[number] == len(left) else _NEVER

    def _check(self) -> None:
        missing = [letter for letter in self._letters if letter not in self._numbers]
        if missing:
            raise ValueError(f"{len(missing)} bytes have no token")
        if self.no_speech < 0:
            raise KeyError("<|nospeech|>")
