"""``python -m tests.live.interruptions [MINUTES]``: words that interrupt us, false ones and real ones, over a synthesised kitchen.

For leaks of our voice of -20 to 0 dB: how often we are silenced by nobody while we speak, and how soon by somebody whose "stop" is 3 dB
fainter than our echo. The kitchen is 15 dB below our voice as it is played.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from statistics import median

import numpy as np

from companion.bench.kitchen import kitchen
from companion.hearing import WhisperEngine
from companion.hearing.vad import SileroDetector
from companion.languages import load_language
from companion.languages.en.book import BOOK
from companion.live.turn_policy import SURE, Action
from companion.messages import Heard
from companion.speaking.hibari_voice import HibariVoice
from companion.talk.guidance_phrases import LeaveNow
from tests.english import VOCABULARY
from tests.hearing.voices.synthesisers import say, voices
from tests.live.echoing_room import RATE_HZ, EchoingRoom, Interruption, rms_of_speech

TEXTS = [text for text in BOOK.phrases.values() if isinstance(text, str) and len(text) > 30]
LEAKS_DB = (-20.0, -10.0, 0.0)
KITCHEN_DB = -15.0
FAINTER_DB = -3.0
"""A real "stop", beside our echo."""
SOON_SECONDS = 0.3


@dataclass(frozen=True)
class Stop:
    """Something taken for a word that interrupts us, surely or not."""

    words: str
    confidence: float
    late_seconds: float
    """After the real word had ended; nan where there was none."""
    acted_upon: bool


class Trial:
    """A room at one leak."""

    def __init__(self, engine: WhisperEngine, leak_db: float, seed: int) -> None:
        """Take the ear."""
        self._room = EchoingRoom(engine, SileroDetector(), VOCABULARY, LeaveNow(), removing=True)
        self._leak_db = leak_db
        self._rng = np.random.default_rng(seed)
        self._ours = HibariVoice()
        self.spoken_seconds = 0.0

    def sentence(self, voice: str | None = None) -> list[Stop]:
        """Speak a sentence, perhaps with a "stop" of a voice in it, and return what was taken for such a word."""
        text = next(text for _ in TEXTS if "stop" not in (text := TEXTS[int(self._rng.integers(len(TEXTS)))]).lower())
        sound = self._ours.render(text).at_rate(RATE_HZ).samples
        level, began = rms_of_speech(sound), self._room.time
        said, ended = [], float("nan")
        if voice is not None:
            word = np.trim_zeros(say(voice, "stop").at_rate(RATE_HZ).samples)
            loudness = level * 10 ** ((self._leak_db + FAINTER_DB) / 20) / rms_of_speech(word)
            at = float(self._rng.uniform(0.3, max(0.4, len(sound) / RATE_HZ - 1.2)))
            said, ended = [Interruption(at, (word * loudness).astype(np.float32))], began + at + len(word) / RATE_HZ
        noise: Callable[[int], np.ndarray] = lambda count: level * 10 ** (KITCHEN_DB / 20) * kitchen(count, self._rng)  # noqa: E731
        self.spoken_seconds += len(sound) / RATE_HZ
        return [
            Stop(utterance.hearing.phrase, utterance.hearing.confidence, self._room.time - ended, utterance.action is Action.BARGE_IN)
            for utterance in self._room.speak(text, sound, said, noise=noise, leak_db=self._leak_db)
            if isinstance(utterance.hearing, Heard) and utterance.ruling.interrupts
        ]


def report(minutes: float, stops: int, which: str) -> Iterator[str]:
    """Yield a line for each leak."""
    engine = WhisperEngine.load(writing=load_language().writing)
    speakers = voices(which)
    for number, leak_db in enumerate(LEAKS_DB):
        alone = Trial(engine, leak_db, seed=number)
        false: list[Stop] = []
        while alone.spoken_seconds < 60 * minutes:
            false += alone.sentence()
        disturbed = Trial(engine, leak_db, seed=100 + number)
        real = [disturbed.sentence(speakers[turn % len(speakers)]) for turn in range(stops)]
        taken = [stop for found in real for stop in found if stop.acted_upon and stop.words.startswith("stop")]
        soon = sum(stop.late_seconds <= SOON_SECONDS for stop in taken)
        acted_upon = [stop for stop in false if stop.acted_upon]
        yield (
            f"leak {leak_db:g} dB: {len(acted_upon)} false in {alone.spoken_seconds / 60:.1f} min of our speech; of {stops} real ones "
            f"{len(taken)} taken, {soon} within {SOON_SECONDS} s (median {median([stop.late_seconds for stop in taken] or [0.0]):.2f} s)"
        )
        yield f"  false, sure from {SURE}: {[(stop.words, round(stop.confidence, 2)) for stop in false]}"
        yield f"  real: {sorted(round(max((stop.confidence for stop in found), default=0.0), 2) for found in real)}"


def main() -> None:
    """Print the report."""
    parser = argparse.ArgumentParser(prog="python -m tests.live.interruptions", description=__doc__)
    parser.add_argument("minutes", type=float, nargs="?", default=7.0)
    parser.add_argument("--stops", type=int, default=20)
    parser.add_argument("--voices", choices=("tuning", "never"), default="tuning")
    options = parser.parse_args()
    for line in report(options.minutes, options.stops, options.voices):
        print(line, flush=True)


if __name__ == "__main__":
    main()
