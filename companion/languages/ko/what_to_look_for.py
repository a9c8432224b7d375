"""What a person sees of a showpiece, or of a feature of the Moon, at the eyepiece: one sentence each."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from functools import lru_cache
from importlib.resources import files

from companion.languages.ko.transliteration import in_hangul


def what_to_look_for(key: str) -> str | None:
    """Return the sentence about an object by its catalogue number, else its name ; None where there is none yet."""
    return _sentences().get(key)


def what_to_look_for_on_the_moon(feature: str) -> tuple[str, str]:
    """Return how a feature of the Moon is called (its IAU name is Latin) and the sentence about it, by its IAU name."""
    return _on_the_moon().get(feature) or (in_hangul(feature), "천천히 둘러보세요.")


@lru_cache(maxsize=1)
def _sentences() -> dict[str, str]:
    """Return all sentences by object."""
    return {row["object"]: row["sentence"] for row in _rows("what_to_look_for.csv")}


@lru_cache(maxsize=1)
def _on_the_moon() -> dict[str, tuple[str, str]]:
    """Return all spoken names and sentences by feature."""
    return {row["feature"]: (row["said"], row["sentence"]) for row in _rows("what_to_look_for_on_the_moon.csv")}


def _rows(file: str) -> Iterator[dict[str, str]]:
    """Yield the rows of one of this folder's tables."""
    yield from csv.DictReader((files("companion.languages.ko") / file).read_text(encoding="utf-8").splitlines())
