"""Every star, planet and the Moon, spoken by the companion's own voice and heard by its own ear."""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest

from companion.audio import Audio
from companion.hearing.active import ActiveSet
from companion.hearing.grammar import load_grammar
from companion.hearing.whisper import WhisperEngine
from companion.languages import en
from companion.messages import Heard
from companion.speaking.hibari_voice import HibariVoice
from companion.speaking.pronunciation import read_pronunciations

GRAMMARS = Path(__file__).parents[2] / "grammars" / "en"
PRONUNCIATIONS = Path(en.__file__).parent / "pronunciation.csv"
WHOLE = os.environ.get("COMPANION_FULL_SWEEP") == "1"
LEAST_RIGHT, MOST_WRONG = 0.97, 0.01
"""Of all 148 on this voice without noise 147 were right, none wrong, while spellings by ear were listed; by rules, since 26 November 2026,
14 of the tenth's 15, none wrong: all were not counted again."""
SAME_SOUND = {"Markeb": "Markab"}
"""Told apart by no ear."""


@pytest.mark.slow
def test_names_of_stars(engine: WhisperEngine) -> None:
    """Of "it says NAME" a seeded tenth is heard at the level all names reach; every name with COMPANION_FULL_SWEEP=1."""
    grammar = load_grammar(GRAMMARS / "star_names.jsgf")
    active = ActiveSet.of((grammar, "star_name"), (load_grammar(GRAMMARS / "universal.jsgf"), "universal"))
    names = sorted({phrase.slots["star"] for phrase in grammar.phrases() if "star" in phrase.slots})
    chosen = names if WHOLE else random.Random(1).sample(names, len(names) // 10 + 1)
    voice = HibariVoice(rate_wpm=152, pronunciations=read_pronunciations(PRONUNCIATIONS))
    answers = {name: _star(engine, voice.render(f"it says {name}"), active) for name in chosen}
    wrong = {name: star for name, star in answers.items() if star and SAME_SOUND.get(star, star) != SAME_SOUND.get(name, name)}
    refused = [name for name, star in answers.items() if not star]
    print(f"n = {len(chosen)}, wrong {wrong}, refused {refused}")
    allowed = round((1 - LEAST_RIGHT) * len(chosen))
    assert len(wrong) <= MOST_WRONG * len(names)
    assert len(wrong) + len(refused) <= max(1, allowed)


@pytest.mark.slow
def test_first_three_letters(engine: WhisperEngine) -> None:
    """Of "it begins with A, L, P" a seeded fifth is heard, 85 % right and one wrong at most."""
    grammar = load_grammar(GRAMMARS / "star_names.jsgf")
    active = ActiveSet.of((grammar, "star_name"), (load_grammar(GRAMMARS / "universal.jsgf"), "universal"))
    beginnings = sorted({phrase.slots["letters"] for phrase in grammar.phrases() if "letters" in phrase.slots})
    chosen = beginnings if WHOLE else random.Random(2).sample(beginnings, len(beginnings) // 5)
    voice = HibariVoice(rate_wpm=152)
    heard = {letters: engine.recognise(voice.render(f"it begins with {', '.join(letters)}"), active) for letters in chosen}
    answers = {letters: answer.slots.get("letters", answer.phrase) for letters, answer in heard.items() if isinstance(answer, Heard)}
    wrong = {letters: answer for letters, answer in answers.items() if answer != letters}
    print(f"n = {len(chosen)}, wrong {wrong}, refused {set(chosen) - set(answers)}")
    assert len(wrong) <= max(1, len(chosen) // 50)
    assert len(answers) - len(wrong) >= 0.85 * len(chosen)


def _star(engine: WhisperEngine, sound: Audio, active: ActiveSet) -> str:
    """Return the star heard, empty for none."""
    hearing = engine.recognise(sound, active)
    return hearing.slots.get("star", hearing.phrase) if isinstance(hearing, Heard) else ""
