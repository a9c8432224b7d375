"""The table of names handed to the voices: sound in itself, and what it makes the voices say is understood."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from companion.audio import SPEECH_RATE_HZ
from companion.hearing import ActiveSet, WhisperEngine, parse_grammar
from companion.messages import Heard
from companion.speaking import Voice, open_voice, read_pronunciations
from companion.speaking.hibari_voice import HibariVoice

PACKAGE = Path(__file__).parents[2] / "companion"
TABLE = read_pronunciations(PACKAGE / "languages" / "en" / "pronunciation.csv")


def corrected_stars(count: int) -> list[str]:
    """Return the brightest of the catalogue's named stars whose whole name the table corrects."""
    corrected = {entry.word for entry in TABLE.entries if entry.phonemes}
    with (PACKAGE / "sky" / "data" / "stars.csv").open(encoding="utf-8", newline="") as file:
        stars = sorted((float(row["vmag"]), row["name"]) for row in csv.DictReader(file))
    return [name for _, name in stars if name in corrected][:count]


def understood(voice: Voice, names: list[str]) -> set[str]:
    """Return the names that the recogniser, listening for these alone, accepts as themselves when the voice says them."""
    choices = " | ".join(name.lower() for name in names)
    active = ActiveSet.every(parse_grammar(f"#JSGF V1.0;\ngrammar names;\npublic <name> = {choices};"))
    engine = WhisperEngine.load()
    heard = {name: engine.recognise(voice.render(f"{name}.").at_rate(SPEECH_RATE_HZ), active) for name in names}
    return {name for name, answer in heard.items() if isinstance(answer, Heard) and answer.phrase == name.lower()}


def test_every_word_is_there_once_and_every_phoneme_is_known() -> None:
    """No word is listed twice, and the neural voice has a sound for each character of the phonemes."""
    words = [entry.word.casefold() for entry in TABLE.entries]
    assert len(words) == len(set(words))
    voice = HibariVoice()
    voice.load()
    for entry in TABLE.entries:
        assert set(entry.phonemes) <= set(voice._engine.vocab), entry
        assert entry.respelling.isascii(), entry
        assert entry.phonemes or entry.respelling, entry


@pytest.mark.parametrize("word", ["Boötes", "Betelgeuse", "Ophiuchus", "Schedar", "Zubenelgenubi", "Canes", "Fomalhaut"])
def test_names_known_to_go_wrong_are_in_it(word: str) -> None:
    """Names that letter-to-sound rules get wrong are given in both spellings."""
    (entry,) = [entry for entry in TABLE.entries if entry.word == word]
    assert entry.phonemes
    assert entry.respelling


def test_the_table_corrects_what_is_said() -> None:
    """With the table the neural voice's phonemes for Boötes have three syllables, without it not."""
    voice = HibariVoice(pronunciations=TABLE)
    voice.load()
    assert voice._engine.phonemize(voice._marked_up("In Boötes.")) == ["ɪn bOˈOtiz."]
    assert voice._engine.phonemize("In Boötes.") != ["ɪn bOˈOtiz."]


@pytest.mark.slow
@pytest.mark.parametrize(("choice", "at_least"), [("hibari", 23), ("pyttsx3", 20)])
def test_corrected_star_names_are_understood(choice: str, at_least: int) -> None:
    """Of the 24 brightest stars whose names the table corrects, the recogniser accepts nearly all as themselves."""
    names = corrected_stars(24)
    right = understood(open_voice(choice, known=("hibari", "pyttsx3"), pronunciations=TABLE), names)
    assert len(right) >= at_least, sorted(set(names) - right)
