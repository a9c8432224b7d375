"""Which answers to one question sound alike: each of them is read back, or it wouldn't matter."""

from __future__ import annotations

from functools import cache
from itertools import combinations, pairwise

import pytest

from companion.dialogue.universal import universal_word
from companion.hearing import Phrase
from companion.hearing.whisper.strategies import MOST_PHRASES
from companion.languages import load_language
from companion.languages.en.easily_confused import MISHEARD
from companion.speaking.hibari_voice import HibariVoice
from companion.talk import every_rule
from companion.talk.answers import ONLY_ASK, YesNoAnswer
from companion.vocabulary import load_vocabulary

CLOSE = 1.5
"""One sound for an unlike one, and another for one of its kin: "five" and "four", "west" and "east"."""
VOWELS = frozenset("AIOTWYQaeiouæɐɑɒɔəɛɜɪʊʌᵊᵻ") - {"T"}
KIN = ("pbm", "fvw", "tdnTɾ", "θðsz", "ʃʒʤʧ", "kɡŋ", "mnŋ", "pbtdkɡ", "fvθðszʃʒh", "lɹjw")
"""Consonants made at one place or in one manner (International Phonetic Alphabet, chart of 2020). T is an American t between vowels."""
WEAK = frozenset("əhᵊᵻɪ")
"""Sounds that are easily lost."""


@cache
def exchanged(one: str, other: str) -> float:
    """Return what it costs to hear one sound for another."""
    if one == other:
        return 0.0
    if one in VOWELS or other in VOWELS:
        return 0.5 if one in VOWELS and other in VOWELS else 1.0
    return 0.5 if any(one in kin and other in kin for kin in KIN) else 1.0


def lost(sound: str) -> float:
    """Return what it costs to miss a sound."""
    return 0.5 if sound in WEAK else 1.0


def distance(one: str, other: str) -> float:
    """Return how far two strings of sounds lie apart (Levenshtein 1965, with these costs); more than ``CLOSE`` needn't be exact."""
    row = [0.0]
    for sound in other:
        row.append(row[-1] + lost(sound))
    for sound in one:
        above, row = row, [row[0] + lost(sound)]
        for (diagonal, straight), beside in zip(pairwise(above), other, strict=True):
            row.append(min(row[-1] + lost(beside), straight + lost(sound), diagonal + exchanged(sound, beside)))
        if min(row) > CLOSE:
            return CLOSE + 1
    return row[-1]


@cache
def near(one: str, other: str) -> bool:
    """Tell whether two strings of sounds are close; most needn't be compared for it, being too unlike in length."""
    return abs(len(one) - len(other)) <= 3 and distance(one, other) <= CLOSE


@pytest.fixture(scope="module")
def close() -> set[tuple[Phrase, Phrase]]:
    """Every two answers to one question that mean different things and sound alike."""
    vocabulary = load_vocabulary(load_language())
    sets = [live.phrases() for answers in every_rule() if (live := vocabulary.active(answers)).phrase_count <= MOST_PHRASES]
    voice = HibariVoice()
    voice.load()
    words = {word for phrases in sets for phrase in phrases for word in phrase.words.split()}
    sounds = {word: "".join(sign for sign in "".join(voice._engine.phonemize(word)) if sign not in "ˈˌː ") for word in words}
    said = {phrase.words: "".join(sounds[word] for word in phrase.words.split()) for phrases in sets for phrase in phrases}
    return {
        (one, other)
        for phrases in sets
        for one, other in combinations(phrases, 2)
        if near(said[one.words], said[other.words]) and not one.means_as(other)
    }


def matters(phrase: Phrase) -> bool:
    """Tell whether a phrase can be read back, and does anything that would be hard to take back."""
    word = universal_word(phrase.command)
    is_yes_or_no = phrase.command in set(YesNoAnswer) or phrase.words in load_language().yes_and_no
    return not is_yes_or_no and (phrase.command not in ONLY_ASK if word is None else word.changes)


def test_what_sounds_alike_is_read_back_and_nothing_else(close: set[tuple[Phrase, Phrase]]) -> None:
    """An answer that is as close as that to another one is reworded or read back; what was reworded is believed."""
    alike = {phrase.words for pair in close for phrase in pair if matters(phrase)}
    read_back = load_language().easily_confused
    assert not alike - read_back, f"reword them or put them in languages/en/easily_confused.py: {sorted(alike - read_back)}"
    assert not read_back - alike - MISHEARD, f"these sound like no other; take them out: {sorted(read_back - alike)}"


def test_known_confusions_are_close() -> None:
    """Aviation says "fower" and "fife" (ICAO Annex 10, volume II, 5.2.1.4) to keep them apart; "six" and "two" need no help."""
    assert distance("fɔɹ", "fIv") <= CLOSE < distance("sɪks", "tu")
    assert distance("fOəɹ", "fIf") > CLOSE
    assert distance("ist", "wɛst") <= CLOSE < distance("nɔɹθ", "sWθ")
