"""How words are spelled and compared: phrases keep the grammar's spelling, typed words are forgiven theirs."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from companion.orthography import Orthography

_APOSTROPHES = re.compile("['’`´]")
_RUN = re.compile("[\u1100-\u1112][\u1161-\u1175][\u11a8-\u11c2]?|[^\\W_\u1100-\u11ff]+")
"""A run of letters and figures, or one Hangul syllable taken apart: where Korean has spaces is left to the writer."""
_POINT = re.compile(r"(?<=\d)\.(?=\d)")
_THOUSANDS = re.compile(r"(?<=\d),(?=\d{3}\b)")


def spelled(text: str) -> str:
    """Return the words in lower case with single spaces."""
    return " ".join(text.lower().split())


@lru_cache(maxsize=10_000)
def keys_of(text: str) -> tuple[str, ...]:
    """Return the bare words of a text: no case, accents or punctuation; hyphens part words, apostrophes don't."""
    plain = "".join(letter for letter in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(letter))
    return tuple(_RUN.findall(_APOSTROPHES.sub("", plain)))


def readings(text: str, writing: Orthography) -> tuple[tuple[str, ...], ...]:
    """Return the ways typed text may be meant, likeliest first: as it stands, figures as numbers, figures one by one."""
    whole = _THOUSANDS.sub("", text)
    typed = keys_of(whole)
    pointed = keys_of(_POINT.sub(f" {writing.point} ", whole))
    return tuple(
        dict.fromkeys(
            (typed, _as_numbers(pointed, writing), _as_numbers(typed, writing), _one_by_one(pointed, writing), _one_by_one(typed, writing))
        )
    )


def _as_numbers(keys: tuple[str, ...], writing: Orthography) -> tuple[str, ...]:
    return tuple(word for key in keys for word in (writing.cardinal(int(key)).split() if _is_figure(key) else [key]))


def _one_by_one(keys: tuple[str, ...], writing: Orthography) -> tuple[str, ...]:
    return tuple(word for key in keys for word in ([writing.cardinal(int(digit)) for digit in key] if _is_figure(key) else [key]))


def _is_figure(key: str) -> bool:
    return key.isascii() and key.isdigit() and len(key) <= 4
