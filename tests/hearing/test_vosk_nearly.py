"""An answer that Vosk spells otherwise: taken where both hearings agree, never across a negation or another question's phrase."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from companion.audio import Audio
from companion.dialogue.doubt import SURE
from companion.hearing.active import ActiveSet
from companion.hearing.grammar import parse_grammar
from companion.hearing.vosk import VoskEngine
from companion.hearing.vosk.model import ModelDirectory
from companion.messages import Heard, NotUnderstood

GRAMMAR = parse_grammar(
    """#JSGF V1.0 UTF-8 ko;
grammar t;
public <fits> = 맞아요 {yes} | 한가운데예요 {centred};
public <other> = 다음 대상 {next} | 다 한 거예요 {done};
public <figures> = <figure> <figure> <figure> 도 {bearing} | 맞아요 {yes};
<figure> = 영 {0} | 일 {1} | 이 {2} | 삼 {3} | 사 {4} | 오 {5} | 육 {6} | 칠 {7} | 팔 {8} | 구 {9};
"""
)
FIGURES = ActiveSet.of((GRAMMAR, "figures"))
LIVE, EVERYTHING = ActiveSet.of((GRAMMAR, "fits")), ActiveSet.every(GRAMMAR)
BURST = np.concatenate([np.full(8_000, 1e-3), np.sin(np.arange(16_000) * 0.3) * 0.2, np.full(8_000, 1e-3)]).astype(np.float32)
"""A second of sound between two halves of near silence, at 16 kHz."""


@pytest.fixture
def engine() -> Callable[[str, str], VoskEngine]:
    """Return a maker of engines over a stand-in for the library, which hears one thing among all phrases and one among the live ones."""

    def made(among_all: str, live: str) -> VoskEngine:
        class Recogniser:
            def __init__(self, _model: object, _rate: float, grammar: str) -> None:
                self.grammar, self.seconds, self.begun_s = grammar, 0.0, 0.0

            def SetWords(self, _: bool) -> None: ...  # noqa: N802 - the library's name

            def SetGrammar(self, grammar: str) -> None:  # noqa: N802
                self.grammar, self.begun_s = grammar, self.seconds

            def AcceptWaveform(self, sound: bytes) -> bool:  # noqa: N802
                self.seconds += len(sound) / 32_000
                return False

            def FinalResult(self) -> str:  # noqa: N802
                words = (among_all if "대상" in self.grammar else live).split()
                times = [self.begun_s + 0.8 + number / len(words) for number in range(len(words) + 1)]
                found = [{"word": w, "conf": 1.0, "start": times[n], "end": times[n + 1]} for n, w in enumerate(words)]
                return json.dumps({"result": found})

        library = SimpleNamespace(Model=lambda _: SimpleNamespace(vosk_model_find_word=lambda _word: 1), KaldiRecognizer=Recogniser)
        ear = VoskEngine(library, ModelDirectory(Path("."), 16_000), negations=("안",))
        ear.set_decoys(EVERYTHING)
        return ear

    return made


@pytest.mark.parametrize(
    ("among_all", "live", "command"),
    [
        ("맞아요", "", "yes"),  # a phrase as it stands
        ("한가운데 이에요", "한가운데 이에요", "centred"),
        ("안 맞아요", "맞아요", None),  # the opposite
        ("다음 대상", "맞아요", None),  # another question's
        ("다 한 거 예", "맞아요", None),  # far from it
        ("한가운데 이에요", "[unk]", None),
    ],
)
def test_what_is_nearly_a_phrase(engine: Callable[[str, str], VoskEngine], among_all: str, live: str, command: str | None) -> None:
    """What is taken is less sure than what is heard exactly; all else is refused."""
    heard = engine(among_all, live).recognise(Audio(BURST, 16_000), LIVE)
    if command is None:
        assert isinstance(heard, NotUnderstood)
    else:
        assert isinstance(heard, Heard)
        assert heard.command == command
        exact = engine("한가운데예요", "").recognise(Audio(BURST, 16_000), LIVE)
        assert isinstance(exact, Heard)
        assert heard.confidence <= exact.confidence


def test_what_is_refused_is_heard_with_less_noise(engine: Callable[[str, str], VoskEngine]) -> None:
    """What two hearings agree on is heard twice; what they don't, twice more with less noise; what is another question's phrase, once."""
    for among_all, live, times in (("한가운데 이에요", "한가운데 이에요", 2), ("다 한 거 예", "맞아요", 4), ("다음 대상", "맞아요", 1)):
        ear, grammars = engine(among_all, live), []
        words = ear._words
        ear._words = lambda sound, grammar, words=words, grammars=grammars: grammars.append(grammar) or words(sound, grammar)  # type: ignore[method-assign]
        ear.recognise(Audio(BURST, 16_000), LIVE)
        assert len(grammars) == times, among_all


@pytest.mark.parametrize(
    ("among_all", "live", "phrase"),
    [
        ("상 오 육 도 요", "삼 오 육 도", "삼 오 육 도"),
        ("삼 오 이 육 도", "삼 오 이 육 도", "삼 오 육 도"),  # a short vowel that nobody said
        ("다음 주 토요일", "사 육 도", None),
        ("다음 대상", "사 이 오 도", None),  # another question's
        ("삼 오 육 두", "[unk]", None),
    ],
)
def test_among_countless_numbers_the_nearest_is_asked_back(
    engine: Callable[[str, str], VoskEngine], among_all: str, live: str, phrase: str | None
) -> None:
    """Numbers are too many to be compared one by one, and differ by a letter: what is nearest is taken, never surely."""
    heard = engine(among_all, live).recognise(Audio(BURST, 16_000), FIGURES)
    assert (heard.phrase if isinstance(heard, Heard) else None) == phrase
    assert not isinstance(heard, Heard) or heard.confidence < SURE
