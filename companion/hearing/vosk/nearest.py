"""How far what was heard is from a phrase, in the letters of Hangul: the model's words are rarely spelled as our phrases are.

An ear for any speech hears "혼자 이에요" where "혼자예요" was said. What was heard twice, once among the phrases that are live and once
among all that people may say, is measured against each live phrase; the nearest one counts if it is near, and nearer than others.
``NEAR`` was chosen on answers to small questions and as many sentences of other ones, said by two synthesised voices, 85 of each: most
answers have less, of the others none had less than 0.3. What is still nothing is heard both ways once more with less noise
(``engine.py``), and all four are measured. On the same two voices, 10 answers each, with it are taken in silence 18 instead of 16 of 20,
in white hiss 22 dB below 12 instead of 10, in a kitchen 15 dB below 10 instead of 4, in wind 9 dB below 3 instead of none; wrong are two
as before, and of 120 other sentences none is taken. In sets too large to be compared a whole phrase heard among the live ones, and much
like what was heard among all, was as often another number as the right one: 3 to 3.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

from companion.hearing.grammar import Phrase

NEAR, CLEARLY = 0.25, 0.05
"""The mean distance, 0..1, of what is taken for a phrase, and by how much it must be nearer than any that means something else."""
NEAR_OF_FOUR, CLEARLY_OF_FOUR = 0.2, 0.08
"""The same where noise was taken out, too."""

NEAR_ALONE, ALONE, _LONG = 0.3, 0.2, 6
"""The distance of what is asked back though the sound speaks against it, by how much it must be nearer than all else, and how many letters
it has at least. Reckoned from what was heard of 44 answers of two voices in wind and a kitchen 15 dB below: 24 instead of 13 are right at
the first try, 31 instead of 20 within two, one wrong, and of 43 sentences of other questions none is taken; within 0.4 one and two are."""

_ALIKE: tuple[tuple[str, float], ...] = (
    *(("ㅔㅐ", 0.2), ("ㅖㅔ", 0.3), ("ㅕㅓ", 0.5), ("ㅛㅗ", 0.5), ("ㅑㅏ", 0.5), ("ㅠㅜ", 0.5), ("ㅡㅜㅓㅗ", 0.6), ("ㅣㅟㅢ", 0.6)),
    *(("ㄱㄲㅋ", 0.4), ("ㄷㄸㅌ", 0.4), ("ㅂㅃㅍ", 0.4), ("ㅅㅆ", 0.4), ("ㅈㅉㅊ", 0.4), ("ㄴㅁㅇ", 0.6)),
)
"""Sounds that are easily taken for one another, and what such a mistake counts beside 1. Judgement."""
_PARTED = {"ㅘ": "ㅗㅏ", "ㅙ": "ㅗㅐ", "ㅚ": "ㅗㅔ", "ㅝ": "ㅜㅓ", "ㅞ": "ㅗㅔ"}
_INITIALS, _VOWELS = "ㄱㄲㄴㄷㄸㄹㅁㅂㅃㅅㅆㅇㅈㅉㅊㅋㅌㅍㅎ", "ㅏㅐㅑㅒㅓㅔㅕㅖㅗㅘㅙㅚㅛㅜㅝㅞㅟㅠㅡㅢㅣ"
_FINALS = ("", *"ㄱ ㄲ ㄱㅅ ㄴ ㄴㅈ ㄴㅎ ㄷ ㄹ ㄹㄱ ㄹㅁ ㄹㅂ ㄹㅅ ㄹㅌ ㄹㅍ ㄹㅎ ㅁ ㅂ ㅂㅅ ㅅ ㅆ ㅇ ㅈ ㅊ ㅋ ㅌ ㅍ ㅎ".split())  # noqa: SIM905
COSTS = {frozenset(pair): cost for letters, cost in reversed(_ALIKE) for pair in combinations(letters, 2)}


@dataclass(frozen=True)
class Nearest:
    """The phrase nearest to what was heard."""

    phrase: Phrase
    far: float
    """Its mean distance, 0..1."""
    ahead: float
    """By how much it is nearer than any that means something else."""

    def is_near(self, near: float = NEAR, clearly: float = CLEARLY) -> bool:
        """Tell whether it is near, and nearer than others."""
        return self.far <= near and self.ahead >= clearly

    @property
    def stands_alone(self) -> bool:
        """Whether nothing else is so near by far: noise hardly spells a phrase of some length, whatever it does to the sound's evidence."""
        return self.is_near(NEAR_ALONE, ALONE) and len(letters(self.phrase.words)) >= _LONG


def nearest(heard: Iterable[Sequence[str]], phrases: Iterable[Phrase], within: float = NEAR_ALONE) -> Nearest | None:
    """Return the phrase that words heard in several ways most likely are, and its mean distance, 0..``within``; None where none is."""
    ways = [letters("".join(words)) for words in heard]
    best: dict[tuple[object, ...], tuple[float, Phrase]] = {}
    for phrase in phrases:
        meaning = (phrase.command, *sorted(phrase.slots.items()))
        bound = best[meaning][0] if meaning in best else within + ALONE
        spelled = letters(phrase.words)
        if not _may_be_near(ways, spelled, within + ALONE):
            continue
        far = sum(_far(one, spelled) for one in ways) / len(ways)
        if far < bound:
            best[meaning] = (far, phrase)
    ranked = sorted(best.values(), key=lambda found: found[0])
    if not ranked or ranked[0][0] > within:
        return None
    far, phrase = ranked[0]
    return Nearest(phrase, far, ranked[1][0] - far if len(ranked) > 1 else 1.0)


@lru_cache(maxsize=20_000)
def letters(text: str) -> str:
    """Return the letters of a text in Hangul as they sound: without the silent ㅇ that opens a syllable; all else is passed over."""
    return "".join(map(_letters_of, unicodedata.normalize("NFC", text)))


def _letters_of(syllable: str) -> str:
    code = ord(syllable) - 0xAC00
    if not 0 <= code < len(_INITIALS) * 588:
        return ""
    initial, vowel = _INITIALS[code // 588], _VOWELS[code // 28 % 21]
    return initial.replace("ㅇ", "") + str(_PARTED.get(vowel, vowel)) + _FINALS[code % 28]


def _may_be_near(ways: Sequence[str], phrase: str, near: float) -> bool:
    """Tell, by the lengths alone, whether the mean distance can be so small."""
    return sum(abs(len(one) - len(phrase)) / max(len(one), len(phrase), 1) for one in ways) <= near * len(ways)


def _far(one: str, other: str) -> float:
    """Return the share of letters that differ, 0..1: Levenshtein's distance with lower costs for what sounds alike."""
    row = [float(column) for column in range(len(other) + 1)]
    for number, letter in enumerate(one, start=1):
        above, row = row, [float(number)]
        for column, rival in enumerate(other, start=1):
            change = 0.0 if letter == rival else COSTS.get(frozenset((letter, rival)), 1.0)
            row.append(min(row[-1] + 1, above[column] + 1, above[column - 1] + change))
    return row[-1] / max(len(one), len(other), 1)
