"""Numbers as Korean grammars spell them: a word for each figure and each place, so that a recogniser can know every one."""

from __future__ import annotations

from companion.languages.ko.number_words import cardinal

_FIGURES, _PLACES = "영공일이삼사오육칠팔구", "십백천만"


def number_in_words(number: int) -> str:
    """Return 0..9999 in words: 121 is "백 이 십 일"."""
    return " ".join(cardinal(number).replace(" ", ""))


def is_number_word(word: str) -> bool:
    """Tell whether a word belongs to a number said in words."""
    return word in (*_FIGURES, *_PLACES, "점")
