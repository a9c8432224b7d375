"""The ways to write a whole phrase, put together from the ways its language has to write some of its words.

The recogniser asks for the probability of *text*, and the model writes "12-ounce" or "6:30" where a grammar says "twelve ounce"
or "six thirty". The answer is always the grammar's own words.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from companion.hearing.whisper.respellings import NO_RESPELLINGS, Respellings
from companion.orthography import Orthography

LONGEST_SPAN = 8
"""Words that are written as one at most ("one hundred and twenty three point five degrees")."""
_MOST_FORMS = 24
"""Ways to write one phrase at most; phrases full of figures have more, the rarest are left out."""
_MOST_PATHS = 400
"""Ways looked at before the best are kept."""


def whole_forms(written: str, writing: Orthography, respellings: Respellings = NO_RESPELLINGS) -> tuple[str, ...]:
    """Return the ways to write a phrase, each with its leading space, the plain one first; at most ``_MOST_FORMS``."""
    words = tuple(written.split())
    plain = "".join(f" {word}" for word in words)
    paths = sorted((path for path in islice(_paths(words, 0, writing, respellings), _MOST_PATHS) if not _is_mixed(path, writing)), key=len)
    return tuple(dict.fromkeys([plain, *("".join(path) for path in paths[:_MOST_FORMS])]))


def capitalised(text: str) -> str:
    """Return a form, which has a leading space, with its first letter large."""
    return text[:2].upper() + text[2:]


def _paths(words: tuple[str, ...], start: int, writing: Orthography, respellings: Respellings) -> Iterator[tuple[str, ...]]:
    """Yield the ways to write the words from ``start`` on, each as its parts."""
    if start == len(words):
        yield ()
        return
    commas = ("", ",") if start > 0 and writing.may_have_comma(words[start - 1], words[start]) else ("",)
    for count in range(min(LONGEST_SPAN, len(words) - start), 0, -1):
        span = words[start : start + count]
        for text in (*writing.span_forms(span), *respellings.forms(span)):
            for rest in _paths(words, start + count, writing, respellings):
                yield from ((comma + text, *rest) for comma in commas)


def _is_mixed(path: tuple[str, ...], writing: Orthography) -> bool:
    """Tell whether numbers stand there both in figures and in words; nobody writes that."""
    parts = [part.strip(" ,") for part in path]
    return any(part[:1].isdigit() for part in parts) and any(writing.is_number_word(part) for part in parts)
