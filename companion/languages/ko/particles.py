"""The particle that the sound before it asks for: 이 or 가, 을 or 를, 은 or 는, 과 or 와, 으로 or 로."""

from __future__ import annotations

import re

_LETTERS_CLOSED = "LMNR"
"""Latin letters whose Korean names end in a consonant: 엘, 엠, 엔, 알."""
_FIGURES_CLOSED = "013678"
"""Figures read with a consonant last: 영, 일, 삼, 육, 칠, 팔."""
_ENDS_IN_L = "LR178"
"""Of both, those that end in ㄹ, after which it is 로."""
_FIRST_SYLLABLE, _FINALS, _FINAL_L = 0xAC00, 28, 8


def with_particle(word: str, pair: str) -> str:
    """Return a word with the particle its last sound asks for; ``pair`` is the one after a consonant, then the other: "을/를".

    Closing marks behind the word are passed over. Of other scripts the letter is taken as it is read aloud in Korean.
    """
    after_consonant, after_vowel = pair.split("/")
    last = (re.findall(r"[^\W_]", word) or ["가"])[-1].upper()
    code = ord(last) - _FIRST_SYLLABLE
    if 0 <= code < 11172:
        closed, ends_in_l = code % _FINALS != 0, code % _FINALS == _FINAL_L
    else:
        closed, ends_in_l = last in _LETTERS_CLOSED + _FIGURES_CLOSED, last in _ENDS_IN_L
    closed = closed and not (ends_in_l and after_vowel == "로")
    return f"{word}{after_consonant if closed else after_vowel}"
