"""How long we talk during a set-up without trouble, from the starting pose to two stars confirmed, in our own voice at its usual rate."""

from __future__ import annotations

import pytest

from companion.documents.profile_tables import VoicePreference
from companion.factories import open_voice
from companion.languages import load_language
from companion.vocabulary import load_vocabulary
from tests.evenings.script import HERE, Script

STAGES = ("starting-pose", "power", "settings", "late-pose", "reference-stars")


@pytest.mark.slow
@pytest.mark.parametrize(("name", "most_seconds"), [("finder_after_dark", 210), ("few_words", 75)])
def test_speech_is_short(name: str, most_seconds: float) -> None:
    """Three and a half minutes in full, seventy-five seconds in few words: what the set-up may cost, set before it was measured."""
    voice = open_voice(VoicePreference(), load_language())
    said = []
    for line, turn in Script.read(HERE / f"{name}.txt").played(load_vocabulary(load_language())):
        if turn.stage in STAGES and line.startswith("it:"):
            said.append(line.removeprefix("it:  "))
    # The words that follow the last star's confirmation in the same turn belong to it.
    seconds = sum(voice.render(words).seconds for words in said)
    print(f"{name}: {seconds:.0f} s in {len(said)} turns, {sum(len(words.split()) for words in said)} words")
    assert seconds <= most_seconds
