"""Korean said by a neural voice that was made for Japanese: Hangul is written as it sounds, so its phonemes follow by rule."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from companion.audio import Audio
from tests.hearing.voices import synthesisers

_INITIALS, _MIDDLES = "ㄱㄲㄴㄷㄸㄹㅁㅂㅃㅅㅆㅇㅈㅉㅊㅋㅌㅍㅎ", "ㅏㅐㅑㅒㅓㅔㅕㅖㅗㅘㅙㅚㅛㅜㅝㅞㅟㅠㅡㅢㅣ"
_FINALS = [
    "",
    "ㄱ",
    "ㄲ",
    "ㄱㅅ",
    "ㄴ",
    "ㄴㅈ",
    "ㄴㅎ",
    "ㄷ",
    "ㄹ",
    "ㄹㄱ",
    "ㄹㅁ",
    "ㄹㅂ",
    "ㄹㅅ",
    "ㄹㅌ",
    "ㄹㅍ",
    "ㄹㅎ",
    "ㅁ",
    "ㅂ",
    "ㅂㅅ",
    "ㅅ",
    "ㅆ",
    "ㅇ",
    "ㅈ",
    "ㅊ",
    "ㅋ",
    "ㅌ",
    "ㅍ",
    "ㅎ",
]
_VOWELS = dict(
    zip(
        _MIDDLES,
        ["a", "ɛ", "ja", "jɛ", "ʌ", "e", "jʌ", "je", "o", "wa", "wɛ", "we", "jo", "u", "wʌ", "we", "wi", "ju", "ɯ", "ɰi", "i"],
        strict=True,
    )
)
_OPENING = dict(
    zip(_INITIALS, ["k", "k", "n", "t", "t", "ɾ", "m", "p", "p", "s", "s", "", "ʨ", "ʨ", "ʨʰ", "kʰ", "tʰ", "pʰ", "h"], strict=True)
)
_VOICED = {"ㄱ": "ɡ", "ㄷ": "d", "ㅂ": "b", "ㅈ": "ʥ"}
_CLOSING = {"ㄱ": "k", "ㄷ": "t", "ㅂ": "p", "ㄴ": "n", "ㅁ": "m", "ㅇ": "ŋ", "ㄹ": "l"}
_CLOSED = {
    **dict.fromkeys("ㄱㄲㅋ", "ㄱ"),
    **dict.fromkeys("ㄷㅅㅆㅈㅊㅌㅎ", "ㄷ"),
    **dict.fromkeys("ㅂㅍ", "ㅂ"),
    **{sign: sign for sign in "ㄴㄹㅁㅇ"},
}
_NASAL = {"ㄱ": "ㅇ", "ㄷ": "ㄴ", "ㅂ": "ㅁ"}
_TENSE = {"ㄱ": "ㄲ", "ㄷ": "ㄸ", "ㅂ": "ㅃ", "ㅅ": "ㅆ", "ㅈ": "ㅉ"}
_BREATHED = {"ㄱ": "ㅋ", "ㄷ": "ㅌ", "ㅂ": "ㅍ", "ㅈ": "ㅊ"}
_SOFTENED = {"ㄷ": "ㅈ", "ㅌ": "ㅊ"}


def phonemes(text: str) -> str:
    """Return the phonemes of Korean words, the sounds that meet at syllables' borders changed as the standard pronunciation has it."""
    return " ".join(filter(None, map(_sounded, text.split())))


def say(speaker: str, text: str, pace: float) -> Audio:
    """Return Korean words as one of the Japanese speakers says them."""
    session, vocabulary, speakers = synthesisers._kokoro_model()
    tokens = [vocabulary[sign] for sign in phonemes(text) + "." if sign in vocabulary]
    given = {
        "tokens": np.array([[0, *tokens, 0]], np.int64),
        "style": speakers[speaker][len(tokens) - 1].reshape(1, -1).astype(np.float32),
        "speed": np.array([pace], np.float32),
    }
    return Audio(np.asarray(session.run(None, given)[0], np.float32).ravel(), synthesisers._KOKORO_RATE_HZ)


def _sounded(word: str) -> str:
    syllables = [_parts(ord(letter) - 0xAC00) for letter in word if "가" <= letter <= "힣"]
    for one, other in pairwise(syllables):
        if one[2]:
            _meet(one, other)
    said, before = "", ""
    for place, (initial, middle, final) in enumerate(syllables):
        closed = _CLOSED[{"ㄹㄱ": "ㄱ", "ㄹㅁ": "ㅁ"}.get(final, final[0])] if final else ""
        opening = _VOICED[initial] if initial in _VOICED and place and before in ("", "ㄴ", "ㅁ", "ㅇ", "ㄹ") else _OPENING[initial]
        if initial == "ㄹ" and before == "ㄹ":
            opening = "l"
        if initial in "ㅅㅆ" and middle in "ㅣㅑㅕㅛㅠㅟ":
            opening = "ɕ"
        said += opening + _VOWELS[middle] + _CLOSING.get(closed, "")
        before = closed
    return said


def _parts(code: int) -> list[str]:
    return [_INITIALS[code // 588], _MIDDLES[code // 28 % 21], _FINALS[code % 28]]


def _meet(one: list[str], other: list[str]) -> None:
    """Change the sounds at the border of two syllables, of which the first is closed."""
    final, initial = one[2], other[0]
    if initial == "ㅇ":
        if final != "ㅇ":
            _carry_over(one, other)
        return
    if final[-1] == "ㅎ" and initial in (*_BREATHED, "ㅅ"):
        one[2], other[0] = final[:-1], _BREATHED.get(initial, "ㅆ")
        return
    closed = _CLOSED[{"ㄹㄱ": "ㄱ", "ㄹㅁ": "ㅁ", "ㄹㅍ": "ㅂ"}.get(final, final[0])]
    if initial == "ㅎ" and closed in _BREATHED:
        one[2], other[0] = "", _BREATHED["ㅈ" if final[-1] == "ㅈ" else closed]
        return
    if closed in _NASAL and initial in "ㄴㅁㄹ":
        closed, other[0] = _NASAL[closed], "ㄴ" if initial == "ㄹ" else initial
    elif closed in _NASAL:
        other[0] = _TENSE.get(initial, initial)
    elif {closed, initial} == {"ㄴ", "ㄹ"}:
        closed, other[0] = "ㄹ", "ㄹ"
    elif initial == "ㄹ" and closed in "ㅁㅇ":
        other[0] = "ㄴ"
    one[2] = closed


def _carry_over(one: list[str], other: list[str]) -> None:
    """Say the last consonant with the vowel that follows."""
    final = one[2].removesuffix("ㅎ")
    if not final:
        one[2] = ""
        return
    rest, last = final[:-1], final[-1]
    if other[1] == "ㅣ":
        last = _SOFTENED.get(last, last)
    one[2], other[0] = rest, "ㅆ" if rest and last == "ㅅ" else last
