"""Numbers in English words, and words in figures."""

from __future__ import annotations

from collections.abc import Sequence

_TEENS = ["ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
_UNITS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", *_TEENS]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_ORDINALS = (
    "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth sixteenth"
    " seventeenth eighteenth nineteenth twentieth"
)

DIGITS = {word: value for value, word in enumerate(_UNITS[:10])} | {"oh": 0, "niner": 9}
"""Words for single figures, as said one by one."""
SMALL = {word: value for value, word in enumerate(_UNITS)}
"""Zero to nineteen."""
TENS = {word: 20 + 10 * place for place, word in enumerate(_TENS)}
ORDINALS = {word: 1 + place for place, word in enumerate(_ORDINALS.split(" "))} | {"thirtieth": 30}
NUMBER_WORDS = SMALL.keys() | TENS.keys() | DIGITS.keys() | {"hundred", "thousand", "and", "point", "decimal"}
"""Every word a number may be said with."""


def cardinal(number: int) -> str:
    """Return 0..9999 in words without "and" or hyphens: 121 is "one hundred twenty one". Raises ValueError outside."""
    if not 0 <= number <= 9999:
        raise ValueError(f"{number} is not in 0..9999")
    if number < 20:
        return _UNITS[number]
    if number < 100:
        return _joined(_TENS[number // 10 - 2], number % 10)
    if number < 1000:
        return _joined(f"{_UNITS[number // 100]} hundred", number % 100)
    return _joined(f"{_UNITS[number // 1000]} thousand", number % 1000)


def value_of(words: Sequence[str]) -> int | None:
    """Return the number that words say, 0..999,999: "one hundred and five" is 105; None when they are no one number.

    "A hundred" is one hundred, "twelve hundred" one thousand two hundred.
    """
    if len(words) >= 2 and words[1] in ("hundred", "thousand"):
        words = ["one" if words[0] == "a" else words[0], *words[1:]]
        if words[1] == "hundred" and SMALL.get(words[0], 0) > 10:
            rest = _tail(words[2:])
            return SMALL[words[0]] * 100 + rest if rest is not None and rest < 100 else None
    if "thousand" in words:
        at = list(words).index("thousand")
        head, rest = _below_thousand(words[:at]), _tail(words[at + 1 :])
        return head * 1000 + rest if head and rest is not None else None
    return _below_thousand(words)


def _below_thousand(words: Sequence[str]) -> int | None:
    if len(words) >= 2 and words[1] == "hundred":
        head, rest = SMALL.get(words[0], 0), _tail(words[2:])
        return head * 100 + rest if 0 < head < 10 and rest is not None else None
    return _below_hundred(words)


def _tail(words: Sequence[str]) -> int | None:
    """Return what follows a hundred or a thousand: nothing, or a number, with "and" or without."""
    if not words:
        return 0
    rest = words[1:] if words[0] == "and" else words
    return _below_thousand(rest) or None


def _below_hundred(words: Sequence[str]) -> int | None:
    if len(words) == 1:
        return SMALL.get(words[0], TENS.get(words[0]))
    if len(words) == 2 and words[0] in TENS and 0 < DIGITS.get(words[1], 0) < 10 and words[1] in SMALL:
        return TENS[words[0]] + SMALL[words[1]]
    return None


def ordinal_of(words: Sequence[str]) -> int | None:
    """Return the place in a row that words say, 1..99: "twenty first" is 21; None when they say none."""
    if len(words) == 1:
        return ORDINALS.get(words[0])
    if len(words) == 2 and words[0] in TENS and ORDINALS.get(words[1], 10) < 10:
        return TENS[words[0]] + ORDINALS[words[1]]
    return None


def _joined(head: str, rest: int) -> str:
    return f"{head} {cardinal(rest)}" if rest else head
