"""A room without devices in which we speak and somebody interrupts: what the microphone hears, heard as an evening hears it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import soxr

from companion.audio import SPEECH_RATE_HZ as RATE_HZ
from companion.hearing import Engine
from companion.hearing.endpoint import Endpointer
from companion.hearing.noise_floor import NoiseFloor
from companion.hearing.stream import Captured
from companion.hearing.vad import FRAME, VoiceDetector
from companion.languages import load_language
from companion.live.barge_in import BargeIn
from companion.live.echo_removal import EchoRemoval
from companion.live.listening import Listening
from companion.live.playback_reference import PlaybackReference
from companion.live.turn_history import TurnHistory
from companion.live.turn_policy import Action, TurnPolicy, Utterance
from companion.speaking.speaker import Speech
from companion.talk.saying import Answers, Ask
from companion.vocabulary import Vocabulary

DELAY_SECONDS = 0.18
"""From the loudspeaker's callback to the microphone's, buffers included."""
REFLECTIONS = ((0.0, 1.0), (0.0023, -0.4), (0.0091, 0.25), (0.0187, 0.12))
"""Seconds after the direct sound, and strength: a table, the ground, the observer."""


@dataclass(frozen=True)
class Interruption:
    """Somebody speaking while we do."""

    at_seconds: float
    samples: np.ndarray
    """Shape (n,), 16 kHz, as loud as it reaches the microphone."""


def rms_of_speech(samples: np.ndarray) -> float:
    """Return the RMS of the parts of speech that are not pauses."""
    power = np.mean(samples[: len(samples) // 320 * 320].reshape(-1, 320) ** 2, axis=1)
    return float(np.sqrt(power[power > 0.01 * power.max()].mean()))


def echo_of(played: np.ndarray) -> np.ndarray:
    """Return what of our speech reaches the microphone, shape as given."""
    heard = np.zeros_like(played)
    for seconds, strength in REFLECTIONS:
        late = round((DELAY_SECONDS + seconds) * RATE_HZ)
        heard[late:] += strength * played[: len(played) - late]
    return heard


def drifted(sound: np.ndarray, ppm: float) -> np.ndarray:
    """Return a sound as a clock that runs ahead by so many millionths takes it, shape as given."""
    if ppm == 0:
        return sound
    longer = soxr.resample(sound, 1e6, 1e6 + ppm)[: len(sound)]
    return np.pad(longer, (0, len(sound) - len(longer))).astype(np.float32)


class SidePlayed(PlaybackReference):
    """What was played, laid beside what was heard by whoever made both."""

    def __init__(self) -> None:
        """Begin with nothing played."""
        super().__init__()
        self.piece = np.zeros(0, np.float32)

    def beside(self, captured: Captured) -> np.ndarray:
        """Return the piece that belongs to what was captured."""
        return self.piece


class EchoingRoom:
    """Hears our own sentences, with or without taking them out, and what is said meanwhile."""

    def __init__(
        self,
        engine: Engine,
        detector: VoiceDetector,
        vocabulary: Vocabulary,
        question: Ask[Answers],
        *,
        removing: bool,
        drift_ppm: float = 0.0,
    ) -> None:
        """Take the ear; ``question`` is what we ask; the microphone's clock runs ahead of the loudspeaker's by ``drift_ppm``."""
        self._drift_ppm = drift_ppm
        self._history = TurnHistory()
        self._question = question
        self._played = SidePlayed()
        policy = TurnPolicy(self._history, vocabulary, BargeIn(vocabulary, load_language().words_in))
        echo = EchoRemoval(self._played) if removing else None
        self._listening = Listening(echo, Endpointer(detector), engine, policy, NoiseFloor())
        self._time = 0.0

    @property
    def time(self) -> float:
        """What the room's clock shows, in seconds."""
        return self._time

    def speak(
        self,
        text: str,
        sound: np.ndarray,
        said: Sequence[Interruption] = (),
        *,
        noise: Callable[[int], np.ndarray] | None = None,
        leak_db: float = 0.0,
        quiet_seconds: float = 2.0,
    ) -> Iterator[Utterance]:
        """Speak a text whose sound, shape (n,), is at 16 kHz; yield what is heard until a while after it.

        ``noise`` gives so many samples of the room, else there is faint hiss; ``leak_db`` is how loud our echo is beside what we play.
        """
        played = np.concatenate([sound, np.zeros(round(quiet_seconds * RATE_HZ))]).astype(np.float32)
        room = noise(len(played)) if noise else 1e-3 * np.random.default_rng(len(sound)).standard_normal(len(played))
        heard = 10 ** (leak_db / 20) * drifted(echo_of(played), self._drift_ppm) + room.astype(np.float32)
        for interruption in said:
            start = round(interruption.at_seconds * RATE_HZ)
            heard[start : start + len(interruption.samples)] += interruption.samples[: len(heard) - start]
        speech = Speech(text, begun=self._time)
        self._history.spoke(speech)
        self._history.asked(self._question, speech)
        over_at = self._time + len(sound) / RATE_HZ
        for start in range(0, len(played) - FRAME + 1, FRAME):
            self._time += FRAME / RATE_HZ
            if self._time >= over_at + 0.1:
                speech.over = over_at + 0.1
            self._played.piece = played[start : start + FRAME]
            for utterance in self._listening.feed(Captured(heard[start : start + FRAME].astype(np.float32), self._time)):
                yield utterance
                if utterance.action is Action.BARGE_IN:
                    # The rest of the sentence is not heard any more.
                    speech.over = self._time
                    return
