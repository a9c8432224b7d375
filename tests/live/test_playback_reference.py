"""Our own voice in the microphone: it never triggers anything, and others can still interrupt it."""

from __future__ import annotations

import os

import numpy as np
import pytest

from companion.hearing import WhisperEngine
from companion.hearing.stream import Captured
from companion.hearing.vad import SileroDetector
from companion.languages import load_language
from companion.languages.en.book import BOOK
from companion.live.echo_removal import EchoRemoval
from companion.live.playback_reference import PlaybackReference
from companion.live.turn_policy import Action
from companion.messages import Heard
from companion.speaking.hibari_voice import HibariVoice
from companion.speaking.pyttsx3_voice import Pyttsx3Voice
from companion.talk.guidance_phrases import LeaveNow
from tests.english import VOCABULARY
from tests.live.echoing_room import EchoingRoom, Interruption, SidePlayed, echo_of, rms_of_speech

WHOLE = os.environ.get("COMPANION_FULL_SWEEP") == "1"
SECONDS = 600.0 if WHOLE else 60.0
TEXTS = [text for text in BOOK.phrases.values() if isinstance(text, str) and len(text) > 30]
INTERRUPTIONS = ("stop", "stop talking", "say that again", "repeat that")
RATE_HZ = 16_000
PASSED_OVER = (Action.IGNORE, Action.INVITE)


@pytest.fixture(scope="module")
def engine() -> WhisperEngine:
    """Load the recogniser once."""
    return WhisperEngine.load(writing=load_language().writing)


@pytest.mark.slow
@pytest.mark.parametrize("removing", [True, False], ids=["with the echo taken out", "with the whole echo"])
def test_our_own_speech_triggers_nothing(engine: WhisperEngine, removing: bool) -> None:
    """A seeded minute of our own sentences, as loud as we play them, or ten with COMPANION_FULL_SWEEP=1: nothing is taken for a word."""
    room = EchoingRoom(engine, SileroDetector(), VOCABULARY, LeaveNow(), removing=removing)
    voice, rng, spoken, false = HibariVoice(), np.random.default_rng(26), 0.0, []
    while spoken < SECONDS:
        text = TEXTS[int(rng.integers(len(TEXTS)))]
        sound = voice.render(text).at_rate(RATE_HZ).samples
        spoken += len(sound) / RATE_HZ
        false += [(text, utterance.hearing) for utterance in room.speak(text, sound) if utterance.action not in PASSED_OVER]
    print(f"{spoken:.0f} s of our own speech, taken for words: {false}")
    assert false == []


@pytest.mark.slow
def test_we_can_be_interrupted_as_loudly_as_we_speak(engine: WhisperEngine) -> None:
    """Of words as loud as our echo, in four voices at random moments, most silence or repeat us: 46 of 48 when this was measured last."""
    room = EchoingRoom(engine, SileroDetector(), VOCABULARY, LeaveNow(), removing=True)
    rng, ours = np.random.default_rng(1), HibariVoice()
    voices = [Pyttsx3Voice("en-us"), Pyttsx3Voice("en-gb"), HibariVoice(), Pyttsx3Voice("en-us+f3")]
    taken = tried = 0
    for words in INTERRUPTIONS:
        command = "stop" if words.startswith("stop") else "say-again"
        for voice in voices:
            said = np.trim_zeros(voice.render(words).at_rate(RATE_HZ).samples)
            for _ in range(3 if WHOLE else 1):
                text = next(text for _ in TEXTS if words not in (text := TEXTS[int(rng.integers(len(TEXTS)))]).lower())
                sound = ours.render(text).at_rate(RATE_HZ).samples
                at = float(rng.uniform(0.3, max(0.4, len(sound) / RATE_HZ - 1.2)))
                interruption = Interruption(at, (said / rms_of_speech(said) * rms_of_speech(sound)).astype(np.float32))
                hearings = [u.hearing for u in room.speak(text, sound, [interruption]) if u.action is Action.BARGE_IN]
                taken += any(isinstance(hearing, Heard) and hearing.command == command for hearing in hearings)
                tried += 1
    print(f"{taken} of {tried} interruptions taken")
    assert taken >= 0.6 * tried


def test_what_was_played_lies_beside_what_was_heard(monkeypatch: pytest.MonkeyPatch) -> None:
    """Blocks at the loudspeaker's rate come out at 16 kHz, without gaps, as many as were heard, a constant time ahead."""
    now = [50.0]
    monkeypatch.setattr("companion.live.playback_reference.time.monotonic", lambda: now[0])
    own, ramp, rate_hz, beside = PlaybackReference(), np.linspace(0, 1, 48_000 * 3).astype(np.float32), 48_000, []
    for number in range(100):
        now[0] = 50.0 + number * 0.02
        own.took(ramp[number * 960 : (number + 1) * 960], rate_hz)
        beside.append(own.beside(Captured(np.zeros(320, np.float32), now[0])))
    together = np.concatenate(beside)
    assert len(together) == 100 * 320
    steps = np.diff(together[20_000:])  # by then it knows how unevenly the blocks come
    assert np.allclose(steps, steps.mean(), rtol=0.1)  # the ramp goes on without a jump
    behind = ramp[100 * 960 - 1] - together[-1]
    assert behind / (ramp[1] - ramp[0]) / rate_hz == pytest.approx(0.05, abs=0.03)


def test_echo_removal_takes_out_what_lies_beside() -> None:
    """Captured sound in, the same at the same times out; the echo in it is fainter by 10 dB and more once it is known."""
    played = SidePlayed()
    removal, rng = EchoRemoval(played), np.random.default_rng(3)
    ours = (0.1 * rng.standard_normal(4 * RATE_HZ)).astype(np.float32)
    heard, out, count = echo_of(ours).astype(np.float32), [], 0
    for start in range(0, len(ours), 512):
        played.piece = ours[start : start + 512]
        clean, _ = removal.part(Captured(heard[start : start + 512], 7.0 + (start + 512) / RATE_HZ))
        count += len(clean.samples)
        assert clean.at == pytest.approx(7.0 + count / RATE_HZ)
        out.append(clean.samples)
    known = slice(2 * RATE_HZ, None)
    assert np.mean(np.concatenate(out)[known] ** 2) < 0.1 * np.mean(heard[known] ** 2)


def test_before_anything_was_played_there_is_silence() -> None:
    """With nothing known the same number of zeros comes out."""
    assert not PlaybackReference().beside(Captured(np.ones(100, np.float32), 1.0)).any()
