"""Catalogue numbers as they are said in English, which names in the sky are."""

from __future__ import annotations

import re

_TO_NINETEEN = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen",
    "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_VALUES = (
    {word: value for value, word in enumerate(_TO_NINETEEN)}
    | {word: value for value, word in zip(range(20, 100, 10), _TENS, strict=True)}
    | {"oh": 0}
)


def spelt_number(words: str) -> str | None:
    """Return the figures that number words say, None for other words.

    A cardinal up to 999 (``one hundred and three`` is 103) or figures and pairs one after the other (``five one three nine`` and
    ``fifty-one thirty-nine`` are 5139).
    """
    groups: list[int] = []
    room = 0  # what is smaller than this still belongs to the group before
    for word in filter(None, re.split(r"[\s-]+", words.strip())):
        if word == "hundred" and groups and 0 < groups[-1] < 10:
            groups[-1], room = groups[-1] * 100, 100
        elif word in _VALUES:
            value = _VALUES[word]
            if 0 < value < room:
                groups[-1] += value
            else:
                groups.append(value)
            room = 10 if value >= 20 else 0
        elif word != "and":
            return None
    return "".join(map(str, groups)) or None
