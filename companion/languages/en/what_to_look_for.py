"""What a person sees of a showpiece at the eyepiece: one sentence each."""

from __future__ import annotations

import csv
from functools import lru_cache
from importlib.resources import files


def what_to_look_for(key: str) -> str | None:
    """Return the sentence about an object by its catalogue number, else its name (``Showpiece.key``); None where there is none."""
    return _sentences().get(key)


@lru_cache(maxsize=1)
def _sentences() -> dict[str, str]:
    """Return all sentences by object."""
    table = (files("companion.languages.en") / "what_to_look_for.csv").read_text(encoding="utf-8")
    return {row["object"]: row["sentence"] for row in csv.DictReader(table.splitlines())}
