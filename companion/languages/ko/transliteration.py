"""Latin letters for the Korean ear: each by its name, a word by its sound. What has a usual Korean name never comes here."""

from __future__ import annotations

import re
import unicodedata

from companion.languages.ko.number_words import cardinal

LETTERS = dict(
    zip(
        "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
        [
            "에이",
            "비",
            "시",
            "디",
            "이",
            "에프",
            "지",
            "에이치",
            "아이",
            "제이",
            "케이",
            "엘",
            "엠",
            "엔",
            "오",
            "피",
            "큐",
            "알",
            "에스",
            "티",
            "유",
            "브이",
            "더블유",
            "엑스",
            "와이",
            "제트",
        ],
        strict=True,
    )
)
"""The Korean names of the letters."""
GREEK = {
    "Alpha": "알파", "Beta": "베타", "Gamma": "감마", "Delta": "델타", "Epsilon": "엡실론", "Zeta": "제타", "Eta": "에타", "Theta": "세타",
    "Iota": "요타", "Kappa": "카파", "Lambda": "람다", "Mu": "뮤", "Nu": "뉴", "Xi": "크시", "Omicron": "오미크론", "Pi": "파이",
    "Rho": "로", "Sigma": "시그마", "Tau": "타우", "Upsilon": "입실론", "Phi": "피", "Chi": "키", "Psi": "프시", "Omega": "오메가",
}  # fmt: skip
_CONSONANTS = {
    "ch": "ㅊ", "sh": "ㅅ", "th": "ㅅ", "ph": "ㅍ", "kh": "ㅋ", "gh": "ㄱ", "zh": "ㅈ", "ck": "ㅋ", "qu": "ㅋ", "b": "ㅂ", "c": "ㅋ", "d": "ㄷ",
    "f": "ㅍ", "g": "ㄱ", "h": "ㅎ", "j": "ㅈ", "k": "ㅋ", "l": "ㄹ", "m": "ㅁ", "n": "ㄴ", "p": "ㅍ", "q": "ㅋ", "r": "ㄹ", "s": "ㅅ", "t": "ㅌ",
    "v": "ㅂ", "w": "ㅇ", "x": "ㅋ", "z": "ㅈ",
}  # fmt: skip
_VOWELS = {
    "a": "ㅏ",
    "e": "ㅔ",
    "i": "ㅣ",
    "o": "ㅗ",
    "u": "ㅜ",
    "y": "ㅣ",
    "ou": "ㅜ",
    "oo": "ㅜ",
    "ee": "ㅣ",
    "eo": "ㅓ",
    "eu": "ㅡ",
    "ae": "ㅐ",
}
_CLOSING = {"n": "ㄴ", "m": "ㅁ", "l": "ㄹ", "ng": "ㅇ"}
_SOUND = re.compile("ch|sh|th|ph|kh|gh|zh|ck|qu|ng|ou|oo|ee|eo|eu|ae|[a-z]")
_INITIALS, _MIDDLES = "ㄱㄲㄴㄷㄸㄹㅁㅂㅃㅅㅆㅇㅈㅉㅊㅋㅌㅍㅎ", "ㅏㅐㅑㅒㅓㅔㅕㅖㅗㅘㅙㅚㅛㅜㅝㅞㅟㅠㅡㅢㅣ"
_FINALS = {"": 0, "ㄴ": 4, "ㄹ": 8, "ㅁ": 16, "ㅇ": 21}


def letters(word: str) -> list[str]:
    """Return the names of a word's letters and figures, one by one."""
    return [LETTERS.get(sign) or cardinal(int(sign)) for sign in word.upper() if sign in LETTERS or sign.isdecimal()]


def in_hangul(text: str) -> str:
    """Return a text with what is in Latin letters written by its sound, and figures in words; Hangul stays as it is."""
    plain = "".join(sign for sign in unicodedata.normalize("NFD", text) if not "\u0300" <= sign <= "\u036f")
    plain = unicodedata.normalize("NFC", plain)
    plain = re.sub(r"\d+", lambda figures: cardinal(int(figures.group())), plain)
    plain = re.sub(r"[A-Za-z']+", lambda word: _sounded(word.group()), plain)
    return re.sub(r"\s+", " ", re.sub(r"[^\w\s,.]", " ", plain)).strip()


def _sounded(word: str) -> str:
    """Return a Latin word by its sound; capitals alone are spelt."""
    if word.isupper():
        return "".join(letters(word))
    sounds = _SOUND.findall(word.lower())
    said, opening = "", ""
    for place, sound in enumerate(sounds):
        following = sounds[place + 1] if place + 1 < len(sounds) else ""
        if sound in _VOWELS:
            said += _syllable(opening or "ㅇ", _VOWELS[sound])
            opening = ""
        elif sound == "l" and following in _VOWELS and (said or opening):
            # Between vowels, and after a consonant, it is heard long: "Oslo" is "오슬로".
            said += _syllable(opening, "ㅡ") if opening else ""
            said = _closed_by_l(said)
            opening = "ㄹ"
        elif sound in _CLOSING and following not in _VOWELS and said and not opening and _is_open(said[-1]):
            said = said[:-1] + chr(ord(said[-1]) + _FINALS[_CLOSING[sound]])
        elif sound == "ng":
            opening = "ㄱ"
        elif sound in _CONSONANTS:
            if opening:
                said += _syllable(opening, "ㅡ")
            opening = _CONSONANTS[sound]
    return said + (_syllable(opening, "ㅡ") if opening else "")


def _syllable(initial: str, middle: str) -> str:
    return chr(0xAC00 + (_INITIALS.index(initial) * 21 + _MIDDLES.index(middle)) * 28)


def _closed_by_l(said: str) -> str:
    return said[:-1] + chr(ord(said[-1]) + _FINALS["ㄹ"]) if _is_open(said[-1]) else said


def _is_open(syllable: str) -> bool:
    return (ord(syllable) - 0xAC00) % 28 == 0
