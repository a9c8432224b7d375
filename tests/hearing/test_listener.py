"""Stream to utterance: what is recognised when, against which set, and how often."""

from __future__ import annotations

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.active import ActiveSet
from companion.hearing.grammar import parse_grammar
from companion.hearing.listener import Listener, Live
from companion.hearing.noise_floor import NoiseFloor, level_db
from companion.hearing.vad import FRAME
from companion.messages import Heard, Hearing, NotNow, NotUnderstood

FRAME_SECONDS = FRAME / SPEECH_RATE_HZ
GRAMMAR = parse_grammar("#JSGF V1.0;\ngrammar g;\npublic <a> = yes;\npublic <b> = no;\n")
YES, BOTH = ActiveSet.of((GRAMMAR, "a")), ActiveSet.every(GRAMMAR)


class Scripted:
    """Both detector and recogniser: reads the probability of a voice off the frame, and always hears the same words."""

    name = "scripted"

    def __init__(self, words: str) -> None:
        """Take the words."""
        self._words = words
        self.asked: list[tuple[float, ActiveSet]] = []

    def probability(self, frame: np.ndarray) -> float:
        """Return the frame's first sample."""
        return float(frame[0])

    def prepare(self, active: ActiveSet) -> None:
        """Do nothing."""

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Hear the words where the set has them."""
        self.asked.append((audio.seconds, active))
        phrase = active.parse(self._words)
        return NotUnderstood() if phrase is None else Heard(phrase.words, phrase.command)


def stream(*parts: tuple[float, float]) -> np.ndarray:
    """Return frames of (seconds, probability) parts."""
    return np.concatenate([np.full(round(seconds / FRAME_SECONDS) * FRAME, level, np.float32) for seconds, level in parts])


@pytest.mark.parametrize(
    ("words", "everything", "hearing", "asked", "decided_after"),
    [
        ("yes", None, Heard("yes", "a"), [YES], 0.5),
        ("no", None, NotUnderstood(), [YES], 1.2),
        ("no", BOTH, NotNow("no", "b"), [YES, BOTH], 1.2),
        ("perhaps", BOTH, NotUnderstood(), [YES, BOTH], 1.2),
    ],
)
def test_what_is_recognised(
    words: str, everything: ActiveSet | None, hearing: Hearing, asked: list[ActiveSet], decided_after: float
) -> None:
    """Each utterance is recognised once, in the first half second of quiet, so that nothing is left to do when it is over."""
    ear = Scripted(words)
    listener = Listener(ear, ear, lambda began, ended: Live(YES, everything))
    sound = stream((1, 0), (0.5, 0.9), (2, 0))
    (heard,) = [
        utterance
        for start in range(0, len(sound), 700)
        for utterance in listener.feed(sound[start : start + 700], 100.0 + (start + 700) / SPEECH_RATE_HZ)
    ]
    assert heard.hearing == hearing
    assert [active for _, active in ear.asked] == asked
    assert heard.began == pytest.approx(101.0, abs=0.1)
    assert heard.voice_ended == pytest.approx(101.5, abs=0.1)
    assert heard.decided == pytest.approx(101.5 + decided_after, abs=0.1)


def test_what_is_live_depends_on_when_it_was_said() -> None:
    """The set is asked for with the times of the voice."""
    asked: list[tuple[float, float]] = []

    def live(began: float, ended: float) -> Live:
        asked.append((round(began, 1), round(ended, 1)))
        return Live(YES)

    ear = Scripted("yes")
    list(Listener(ear, ear, live).feed(stream((2, 0), (1, 0.9), (1, 0)), 4.0))
    assert asked == [(2.0, 3.0)]


def test_reset_forgets_an_utterance() -> None:
    """What was going on at a reset is not heard."""
    ear = Scripted("yes")
    listener = Listener(ear, ear, lambda began, ended: Live(YES))
    list(listener.feed(stream((1, 0.9)), 1.0))
    assert listener.hears_voice
    listener.reset()
    assert not listener.hears_voice
    assert list(listener.feed(stream((3, 0)), 4.0)) == []


def test_surroundings_are_what_is_heard_between() -> None:
    """Two seconds of quiet make a clip; voice, and half a second after it, make none; only a louder or quieter place is news again."""
    place, hiss = NoiseFloor(), np.random.default_rng(0)
    second = [(0.01 * hiss.standard_normal(SPEECH_RATE_HZ)).astype(np.float32) for _ in range(6)]
    assert place.level_db is None
    place.feed(second[0], voice=False)
    place.feed(second[1], voice=True)
    place.feed(second[2], voice=False)
    assert place.changed_clips() == []
    for sound in second[3:]:
        place.feed(sound, voice=False)
    (clip,) = place.changed_clips()
    assert clip.seconds == pytest.approx(2.0, abs=0.1)
    assert place.changed_clips() == []
    assert place.level_db == pytest.approx(-40.0, abs=0.2)  # RMS 0.01 of full scale
    for sound in second[2:4]:
        place.feed(sound, voice=False)
    assert place.changed_clips() == []
    for sound in second[2:6]:
        place.feed(sound * 2, voice=False)
    assert len(place.changed_clips()) == 4


def test_speech_to_noise_ratio_of_an_utterance() -> None:
    """A tone twice as strong as the noise (6 dB) is found to be that, a moment as strong as the noise is nothing."""
    place, rng = NoiseFloor(), np.random.default_rng(1)
    noise = (0.01 * rng.standard_normal(8 * SPEECH_RATE_HZ)).astype(np.float32)
    assert place.speech_to_noise_db(Audio(noise, SPEECH_RATE_HZ)) is None
    place.feed(noise, voice=False)
    tone = 0.02 * np.sqrt(2) * np.sin(2 * np.pi * 440 * np.arange(SPEECH_RATE_HZ) / SPEECH_RATE_HZ)
    said = Audio((noise[:SPEECH_RATE_HZ] + tone).astype(np.float32), SPEECH_RATE_HZ)
    assert place.speech_to_noise_db(said) == pytest.approx(20 * np.log10(2), abs=0.5)
    assert place.speech_to_noise_db(Audio(noise[: SPEECH_RATE_HZ // 2], SPEECH_RATE_HZ)) < -10
    assert level_db(np.zeros(100, np.float32)) == pytest.approx(-100.0)
