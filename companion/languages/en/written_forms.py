"""How a transcriber may write English: figures for numbers, other spellings, abbreviations, a comma here and there.

The recogniser asks for the probability of *text*, and the model writes "12-ounce" or "6:30" where a grammar says "twelve ounce"
or "six thirty". Each rule here offers further ways to write some words of a phrase; the answer is always the grammar's own words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from companion.languages.en.heard_numbers import DIGITS, NUMBER_WORDS, cardinal, ordinal_of, value_of
from companion.orthography import Orthography

_LONGEST_NUMBER = 8
"""Words that are written as one at most ("one hundred and twenty three point five degrees")."""

_MOST_LETTERS = 4
"""Letters written as one word at most ("a.m.", "NATO")."""

_AMERICAN = (
    ("centred", "centered"), ("centre", "center"), ("centring", "centering"), ("colour", "color"), ("grey", "gray"), ("metre", "meter"),
    ("litre", "liter"), ("favour", "favor"), ("neighbour", "neighbor"), ("harbour", "harbor"), ("labour", "labor"), ("honour", "honor"),
    ("behaviour", "behavior"), ("levelled", "leveled"), ("levelling", "leveling"), ("travell", "travel"), ("cancell", "cancel"),
    ("labell", "label"), ("signall", "signal"), ("modell", "model"), ("aluminium", "aluminum"), ("theatre", "theater"),
    ("programme", "program"), ("catalogue", "catalog"), ("dialogue", "dialog"), ("defence", "defense"), ("licence", "license"),
    ("practise", "practice"), ("organis", "organiz"), ("recognis", "recogniz"), ("realis", "realiz"), ("minimis", "minimiz"),
    ("maximis", "maximiz"), ("analys", "analyz"), ("fibre", "fiber"),
)  # fmt: skip
"""British spellings and American ones, as parts of words."""
_SHORT = {
    "okay": ("OK",), "ok": ("Okay",), "doctor": ("Dr.",), "mister": ("Mr.",), "missus": ("Mrs.",), "saint": ("St.",), "versus": ("vs.",),
    "am": ("a.m.", "AM"), "pm": ("p.m.", "PM"),
    "ounce": ("oz",), "ounces": ("oz",), "alright": ("all right",), "any more": ("anymore",), "all right": ("alright",),
    "cannot": ("can't", "can not"), "can not": ("cannot",), "gonna": ("going to",),
}  # fmt: skip
"""Abbreviations and double spellings of a word or two."""
_UNIT_SIGNS = {"percent": "%", "degree": "°", "degrees": "°", "per cent": "%"}
_CURRENCIES = {"dollar": "$", "dollars": "$", "pound": "£", "pounds": "£", "euro": "€", "euros": "€"}
_COMPASS = {"north", "south", "east", "west"}
_COMMA_AFTER = {"yes", "no", "please", "okay", "ok", "well", "oh", "hey", "hello", "hi", "right", "sorry", "thanks", "now", "so", "then"}
_COMMA_BEFORE = {"please", "thanks", "then", "and", "but", "or", "now", "too", "right"}


def may_have_comma(last: str, following: str) -> bool:
    """Tell whether a comma is likely between two words."""
    return last.lower() in _COMMA_AFTER or following.lower() in _COMMA_BEFORE


@lru_cache(maxsize=50_000)
def span_forms(words: tuple[str, ...]) -> tuple[str, ...]:
    """Return the ways to write words as one thing, each with its leading space; empty when they are none together."""
    lowered = tuple(word.lower() for word in words)
    forms = [f" {words[0]}", *_word_forms(words[0])] if len(words) == 1 else []
    joined = " ".join(lowered)
    forms += [f" {short}" for short in _SHORT.get(joined, ())]
    if len(words) == 2 and set(lowered) <= _COMPASS:
        forms += [f" {''.join(words)}", f" {'-'.join(words)}"]
    if len(words) > 1 and _are_letters(lowered):
        forms += [f" {''.join(lowered).upper()}", f" {''.join(lowered)}", f" {'.'.join(lowered)}."]
    if may_be_number(lowered[0]):
        forms += _number_forms(lowered)
    return tuple(dict.fromkeys(forms))


def may_be_number(word: str) -> bool:
    """Tell whether a number may begin with this word."""
    return word in NUMBER_WORDS or word == "a" or ordinal_of([word]) is not None


def may_go_on(words: Sequence[str]) -> bool:
    """Tell whether words that may be written as one may be so with more after them."""
    lowered = [word.lower() for word in words]
    if all(word in DIGITS for word in lowered):
        return len(words) < 3
    if all(word in NUMBER_WORDS for word in lowered) or (lowered[0] == "a" and set(lowered[1:]) <= NUMBER_WORDS):
        return len(words) < _LONGEST_NUMBER
    if _are_letters(lowered):
        return len(words) < _MOST_LETTERS
    return len(words) == 1 and (lowered[0] in _COMPASS or any(pair.startswith(f"{lowered[0]} ") for pair in _SHORT))


def _are_letters(words: Sequence[str]) -> bool:
    """Tell whether words are letters said one by one."""
    return all(len(word) == 1 and word.isalpha() for word in words)


def glued_forms(words: tuple[str, ...]) -> tuple[str, ...]:
    """Return the ways to write words without a space right after a figure: "-ounce", "%", and further figures."""
    lowered = tuple(word.lower() for word in words)
    if all(word in DIGITS for word in lowered):
        figures = "".join(str(DIGITS[word]) for word in lowered)
        return (figures, f"-{figures}")
    if _are_letters(lowered) or lowered in (("am",), ("pm",)):
        return ("".join(lowered), "".join(lowered).upper())
    sign = _UNIT_SIGNS.get(" ".join(lowered))
    return (*([sign] if sign else []), *([f"-{words[0]}"] if len(words) == 1 and lowered[0] not in NUMBER_WORDS else []))


def to_british(word: str) -> str:
    """Return an American spelling as the grammars spell it, any other word as it is."""
    return next((word.lower().replace(us, uk) for uk, us in _AMERICAN if us in word.lower() and uk not in word.lower()), word)


def _word_forms(word: str) -> Iterator[str]:
    lowered = word.lower()
    other = next((lowered.replace(*pair) for pair in _AMERICAN if pair[0] in lowered), None)
    other = other or next((lowered.replace(us, uk) for uk, us in _AMERICAN if lowered.startswith(us)), None)
    if other is not None:
        yield f" {other}"
    if "-" in word:
        yield f" {word.replace('-', '')}"
        yield f" {word.replace('-', ' ')}"


def _number_forms(words: tuple[str, ...]) -> Iterator[str]:
    """Yield the ways to write a number, alone or with the word that follows it."""
    yield from (f" {figures}" for figures in _figures(words))
    if len(words) >= 2:
        unit = words[-1]
        for figures in _figures(words[:-1]) if unit not in NUMBER_WORDS else ():
            yield f" {figures}-{unit}"
            if unit in _UNIT_SIGNS:
                yield f" {figures}{_UNIT_SIGNS[unit]}"
            if unit in _CURRENCIES:
                yield f" {_CURRENCIES[unit]}{figures}"


def _figures(words: tuple[str, ...]) -> Iterator[str]:
    number = value_of(words)
    if number is not None:
        yield str(number)
        if number >= 1000:
            yield f"{number:,}"
        if 20 < number < 100 and len(words) == 2:
            yield "-".join(words)
    place = ordinal_of(words)
    if place is not None:
        yield f"{place}{_ending(place)}"
        if len(words) == 2:
            yield "-".join(words)
    yield from _decimals(words)
    yield from _clock(words)
    if len(words) > 1 and all(word in DIGITS for word in words):
        digits = [str(DIGITS[word]) for word in words]
        yield "".join(digits)
        yield "-".join(digits)
        yield ", ".join(digits)
    elif words == ("oh",):
        yield "0"


def _decimals(words: tuple[str, ...]) -> Iterator[str]:
    for mark in ("point", "decimal"):
        if mark in words:
            at = words.index(mark)
            whole = value_of(words[:at]) if at else 0
            tail = words[at + 1 :]
            if whole is not None and tail and all(word in DIGITS for word in tail):
                yield f"{whole}.{''.join(str(DIGITS[word]) for word in tail)}"
            elif whole is not None and tail and (rest := value_of(tail)) is not None:
                yield f"{whole}.{rest}"


def _clock(words: tuple[str, ...]) -> Iterator[str]:
    """Yield a time or a year: two numbers below a hundred, one after the other ("six thirty", "twenty twenty six")."""
    for cut in range(1, len(words)):
        first, minutes = value_of(words[:cut]), words[cut:]
        if minutes[0] in ("oh", "zero") and len(minutes) == 2:
            second = DIGITS.get(minutes[1])
        else:
            second = value_of(minutes)
            second = None if second is not None and second < 10 else second
        if first is None or second is None or second > 99 or first > 99:
            continue
        if first < 25 and second < 60:
            yield f"{first}:{second:02d}"
            yield f"{first}.{second:02d}"
        if first >= 10:
            yield f"{first}{second:02d}"


def _ending(place: int) -> str:
    if place % 100 in (11, 12, 13):
        return "th"
    return {1: "st", 2: "nd", 3: "rd"}.get(place % 10, "th")


ENGLISH_WRITING = Orthography(
    cardinal=cardinal,
    point="point",
    span_forms=span_forms,
    glued_forms=glued_forms,
    may_go_on=may_go_on,
    may_have_comma=may_have_comma,
    is_number_word=lambda word: word in NUMBER_WORDS and word != "and",
)
