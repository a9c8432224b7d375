"""``python -m tests.live.interruptions [MINUTES]``: words that interrupt us, false ones and real ones, in places that are synthesised.

For leaks of our voice of -20 to 0 dB, in a kitchen, in wind, and with neighbours who talk: how often we are silenced by nobody while we
speak, and how soon by somebody whose "stop" is 3 dB fainter than our echo. The place is 15 dB below our voice as it is played, or below
our echo with ``--below-echo``: else a "stop" at a leak of -20 dB is fainter than the kitchen. Each sentence has a clock of its own,
50 to 200 ppm fast or slow.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import count, product
from statistics import median

import numpy as np

from companion.audio import Audio
from companion.bench.kitchen import kitchen
from companion.bench.wind import wind
from companion.hearing import WhisperEngine
from companion.hearing.vad import SileroDetector
from companion.languages import load_language
from companion.languages.en.book import BOOK
from companion.live.turn_policy import SURE, Action
from companion.messages import Heard
from companion.speaking.hibari_voice import HibariVoice
from companion.talk.guidance_phrases import LeaveNow
from tests.english import VOCABULARY
from tests.hearing.night_noises import SENTENCES, talk
from tests.hearing.voices.__main__ import chatter
from tests.hearing.voices.synthesisers import say, voices
from tests.live.echoing_room import RATE_HZ, EchoingRoom, Interruption, rms_of_speech

TEXTS = [text for text in BOOK.phrases.values() if isinstance(text, str) and len(text) > 30]
LEAKS_DB = (-20.0, -10.0, 0.0)
PLACE_DB = -15.0
DRIFTS_PPM = (-200.0, -100.0, -50.0, 50.0, 100.0, 200.0)
OUR_OWN = "hibari:heart"
"""Nobody else speaks with our voice."""
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


def neighbours(count: int, random: np.random.Generator) -> np.ndarray:
    """Return two or three people who talk about something else, of RMS 1: everyday sentences by voices that may be tuned on."""
    sound = talk(count, random, _sentences(), int(random.integers(2, 4)))
    return np.asarray(sound / np.sqrt(np.mean(sound**2)))


@lru_cache(maxsize=1)
def _sentences() -> tuple[Audio, ...]:
    people = [voice for voice in voices("tuning") if voice != OUR_OWN]
    lines = [*SENTENCES, *(words for words, _ in chatter())]
    return tuple(say(people[number % len(people)], line) for number, line in enumerate(lines))


PLACES: dict[str, Callable[[int, np.random.Generator], np.ndarray]] = {"kitchen": kitchen, "wind": wind, "neighbours": neighbours}


class Trial:
    """A room at one leak."""

    def __init__(self, engine: WhisperEngine, place: str, leak_db: float, place_db: float, seed: int) -> None:
        """Take the ear, and how loud our echo and the place are beside our voice as it is played."""
        self._place = PLACES[place]
        self._place_db = place_db
        self._leak_db = leak_db
        self._rng = np.random.default_rng(seed)
        drift_ppm = float(self._rng.choice(DRIFTS_PPM))
        self._room = EchoingRoom(engine, SileroDetector(), VOCABULARY, LeaveNow(), removing=True, drift_ppm=drift_ppm)
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
        loud = level * 10 ** (self._place_db / 20)
        self.spoken_seconds += len(sound) / RATE_HZ
        return [
            Stop(utterance.hearing.phrase, utterance.hearing.confidence, self._room.time - ended, utterance.action is Action.BARGE_IN)
            for utterance in self._room.speak(
                text, sound, said, noise=lambda samples: loud * self._place(samples, self._rng), leak_db=self._leak_db
            )
            if isinstance(utterance.hearing, Heard) and utterance.ruling.interrupts
        ]


def report(minutes: float, stops: int, which: str, places: Sequence[str], *, below_echo: bool, seed: int = 0) -> Iterator[str]:
    """Yield two lines for each place and leak; another ``seed`` has other sentences, clocks and noise."""
    engine = WhisperEngine.load(writing=load_language().writing)
    speakers = voices(which)
    for number, (place, leak_db) in enumerate(product(places, LEAKS_DB)):
        place_db = PLACE_DB + (leak_db if below_echo else 0.0)
        false: list[Stop] = []
        seconds, first = 0.0, 100_000 * seed + 1000 * number
        clocks = count(first)
        while seconds < 60 * minutes:
            # Half a minute on each pair of clocks.
            alone = Trial(engine, place, leak_db, place_db, next(clocks))
            while alone.spoken_seconds < 30 and seconds + alone.spoken_seconds < 60 * minutes:
                false += alone.sentence()
            seconds += alone.spoken_seconds
        disturbed = [Trial(engine, place, leak_db, place_db, first + 500 + pair) for pair in range(4)]
        real = [disturbed[turn % 4].sentence(speakers[turn % len(speakers)]) for turn in range(stops)]
        taken = [stop for found in real for stop in found if stop.acted_upon and stop.words.startswith("stop")]
        soon = sum(stop.late_seconds <= SOON_SECONDS for stop in taken)
        acted_upon = [stop for stop in false if stop.acted_upon]
        yield (
            f"{place}, leak {leak_db:g} dB: {len(acted_upon)} false in {seconds / 60:.1f} min of our speech; of {stops} real ones "
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
    parser.add_argument("--places", nargs="+", choices=tuple(PLACES), default=tuple(PLACES))
    parser.add_argument("--below-echo", action="store_true", help="the place is 15 dB below our echo, not below what we play")
    parser.add_argument("--seed", type=int, default=0, help="of sentences, clocks and noise")
    options = parser.parse_args()
    lines = report(options.minutes, options.stops, options.voices, options.places, below_echo=options.below_echo, seed=options.seed)
    for line in lines:
        print(line, flush=True)


if __name__ == "__main__":
    main()
