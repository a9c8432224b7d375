"""Tables of words that lie in a language's folder."""

from __future__ import annotations

import csv
from functools import lru_cache
from importlib.resources import files


class LookTable:
    """What a person sees of a showpiece, or of a feature of the Moon, at the eyepiece: one sentence each."""

    def __init__(self, code: str) -> None:
        """Read the two tables of a language."""
        self._objects = {row["object"]: row["sentence"] for row in rows(code, "what_to_look_for.csv")}
        features = rows(code, "what_to_look_for_on_the_moon.csv")
        self._features = {row["feature"]: (row["said"], row["sentence"]) for row in features}

    def of_object(self, key: str) -> str | None:
        """Return the sentence about an object by its catalogue number, else its name (``Showpiece.key``); None where there is none."""
        return self._objects.get(key)

    def of_feature(self, feature: str) -> tuple[str, str] | None:
        """Return what a feature of the Moon is called (its IAU name is Latin) and the sentence about it; None where there is none."""
        return self._features.get(feature)


@lru_cache
def look_table(code: str) -> LookTable:
    """Return a language's sentences of what is seen."""
    return LookTable(code)


def rows(code: str, file: str) -> list[dict[str, str]]:
    """Return the rows of a table in a language's folder."""
    return list(csv.DictReader((files(f"companion.languages.{code}") / file).read_text(encoding="utf-8").splitlines()))
