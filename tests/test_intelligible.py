"""A stranger understands what the first evening says: every sentence decoded openly by a listener that knows none of our words."""

from __future__ import annotations

import os
import random
import re
from contextlib import closing
from pathlib import Path

import pytest

from companion import sky
from companion.dialogue import Conversation
from companion.documents.profile_tables import VoicePreference
from companion.factories import open_voice
from companion.languages import load_language
from companion.messages import Heard
from companion.procedure import EVENING
from companion.rehearsal import load_scenario
from tests.open_ear import ANYTHING, word_errors, words_heard, words_of

WHOLE = os.environ.get("COMPANION_FULL_SWEEP") == "1"
FIRST_EVENING = Path(__file__).parent.parent / "audio_fixtures" / "first_evening"
_NAMED = {body.name for body in (*sky.named_stars(), *sky.deep_sky(), *sky.PLANETS) if body.name.replace(" ", "").isalpha()}
# A name of several words is looked for before one that begins it.
NAMES = re.compile(rf"\b({'|'.join(sorted(_NAMED, key=len, reverse=True))}|Moncton|Nairobi|Sydney|Kathmandu|Oslo|Cape|Acacia|Gum)\b")


def _first_evening() -> list[str]:
    """Return everything the first evening says."""
    scenario = load_scenario(FIRST_EVENING)
    conversation = Conversation(EVENING, scenario.site, load_language(), equipment=scenario.equipment)
    turns = [(conversation.begin(scenario.starts_at), scenario.starts_at)]
    said = []
    for recording in (None, *scenario.recordings):
        if recording is not None and recording.command is not None:
            heard = Heard(recording.words, recording.command, recording.slots)
            turns.append((conversation.hear(heard, recording.at), recording.at))
        turn, time = turns[-1]
        said += [conversation.words(saying, time) for saying in turn.sayings]
    return said


def _other_evenings() -> list[str]:
    """Return everything that the written evenings say."""
    lines = [line for path in (Path(__file__).parent / "evenings").glob("*.txt") for line in path.read_text("utf-8").splitlines()]
    return sorted(line.removeprefix("it:  ") for line in lines if line.startswith("it:"))


def _sentences(said: list[str]) -> list[str]:
    """Return the sentences of it, each once."""
    return list(dict.fromkeys(sentence for words in said for sentence in re.split(r"(?<=[.?!])\s+", words)))


def _understood(sentences: list[str], voice: str) -> tuple[int, int, list[tuple[str, list[str]]]]:
    """Return how many words are heard wrong, of how many, names put out of them, and the sentences with a wrong number."""
    errors = words = 0
    wrong_numbers = []
    with closing(open_voice(VoicePreference(voice), load_language())) as speaker:
        for sentence in sentences:
            if NAMES.sub("", sentence).strip(" .") == "":
                continue
            said = words_of(NAMES.sub(ANYTHING, sentence))
            heard = words_heard(speaker.render(sentence))
            errors += word_errors(said, heard)
            words += len(said)
            if [word for word in said if word.isdigit()] != [word for word in heard if word.isdigit()]:
                wrong_numbers.append((sentence, heard))
    print(f"{voice}: {errors} of {words} words wrong ({errors / words:.1%}), {len(wrong_numbers)} with a wrong number: {wrong_numbers}")
    return errors, words, wrong_numbers


@pytest.mark.parametrize(
    ("said", "heard", "errors"),
    [
        ("*: a double star", "ill beer you a double star", 0),
        ("*, N G C three: a nebula", "corinna nebula ngc 3 a nebula", 0),
        ("Cap the tube and the finder", "tap the tube in the finder", 2),
        ("Send the mount to *", "send them out to alpha rats", 2),
        ("Another word?", "in other words", 3),
    ],
)
def test_only_names_may_be_heard_as_anything(said: str, heard: str, errors: int) -> None:
    """A name may be heard as several words; all else that is put in, left out or changed counts."""
    assert word_errors(words_of(said), words_of(heard)) == errors


@pytest.mark.slow
@pytest.mark.parametrize(("voice", "most_errors"), [("hibari", 0.03), ("pyttsx3", 0.5)])
def test_a_stranger_understands_the_evening(voice: str, most_errors: float) -> None:
    """The default voice: at most 3 % of the words wrong and every number right. The other voice is counted, and must not be noise.

    A seeded third of the sentences, all with COMPANION_FULL_SWEEP=1. Names are checked in a closed set
    (tests/speaking/test_names_said.py). The listener shares its weights with the built-in recogniser, but decodes openly.
    """
    sentences = _sentences(_first_evening())
    chosen = sentences if WHOLE else random.Random(6).sample(sentences, len(sentences) // 3)
    errors, words, wrong_numbers = _understood(chosen, voice)
    assert words > 200
    assert errors / words <= most_errors
    if voice == "hibari":
        assert not wrong_numbers


@pytest.mark.slow
def test_a_stranger_understands_the_other_evenings() -> None:
    """Every number of the written evenings is heard right, and 97 % of the words: a seeded tenth, all with COMPANION_FULL_SWEEP=1."""
    sentences = _sentences(_other_evenings())
    chosen = sentences if WHOLE else random.Random(6).sample(sentences, len(sentences) // 10)
    errors, words, wrong_numbers = _understood(chosen, "hibari")
    assert errors / words <= 0.03
    assert not wrong_numbers
