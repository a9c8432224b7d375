"""``python -m tests.live.false_halts [MINUTES]``: how often a mount that turns is halted by words that nobody meant for it.

Our own sentences reach the microphone at leaks of -20 to 0 dB, each with a clock of its own, over a synthesised kitchen or wind 15 dB
below them; then a chatter file is read out, and the places are heard alone. A halt is counted, and the mount turns on. With ``--shouts``
somebody says "stop", "halt" or "no no" in each stretch, into our sentence or in a silence, and it is told how many halted it how soon.

Time is virtual: the watch's own ear (``HaltEar``) hears file after file, and every look takes no time. So a busy machine falsifies
nothing, and nothing is told of what looks cost, of threads, of queues, or of a sound card's own delays: that tells ``stop_by_voice``.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from statistics import median

import numpy as np

from companion.audio import Audio
from companion.hearing import ActiveSet, WhisperEngine
from companion.hearing.vad import FRAME, SileroDetector
from companion.languages import load_language
from companion.live.barge_in import BargeIn
from companion.live.halt_watch import HaltEar
from companion.messages import Hearing
from companion.speaking.hibari_voice import HibariVoice
from tests.english import VOCABULARY
from tests.hearing.voices.__main__ import chatter
from tests.hearing.voices.synthesisers import say, voices
from tests.live.echoing_room import RATE_HZ, SidePlayed, drifted, echo_of, rms_of_speech
from tests.live.interruptions import DRIFTS_PPM, LEAKS_DB, PLACE_DB, PLACES, SOON_SECONDS, TEXTS
from tests.live.stop_by_voice import WORDS, bare

PAUSE_SECONDS = 1.0
LEVEL = 0.08
"""RMS of our voice as it is played, and of chatter as it is heard."""


@dataclass
class Noting:
    """A recogniser that keeps what it made of each look."""

    engine: WhisperEngine
    name: str = "noting"
    last: Hearing | None = None
    looks: int = 0

    def prepare(self, active: ActiveSet) -> None:
        """Get ready for a set."""
        self.engine.prepare(active)

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Tell what an utterance says."""
        return self.engine.recognise(audio, active)

    def glance(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Tell it, and keep it."""
        self.looks += 1
        self.last = self.engine.glance(audio, active)
        return self.last


class Turning:
    """A mount that turns, and hears a stretch of sound after another."""

    def __init__(self, engine: WhisperEngine) -> None:
        """Begin with nothing heard."""
        self.noting, self._side = Noting(engine), SidePlayed()
        self._ear = HaltEar(self.noting, SileroDetector(), BargeIn(VOCABULARY, load_language().words_in).while_turning, self._side)
        self.seconds = self._since = 0.0

    def hear(self, heard: np.ndarray, played: np.ndarray) -> Iterator[tuple[float, str]]:
        """Yield when it is halted, in seconds from the beginning of this stretch, and by what."""
        began = self.seconds
        for start in range(0, len(heard) - FRAME + 1, FRAME):
            self.seconds += FRAME / RATE_HZ
            self._side.piece = played[start : start + FRAME]
            self._ear.take(heard[start : start + FRAME, None], RATE_HZ, self.seconds)
            if self._ear.hears_halt(self._since):
                self._since = self.seconds
                last = self.noting.last
                yield self.seconds - began, f"{getattr(last, 'phrase', None) or 'something'} {getattr(last, 'confidence', 0.0):.2f}"


Piece = Callable[[int], tuple[np.ndarray, np.ndarray]]
"""From a number to what is heard and what is played meanwhile, shape (n,) each."""


def ours(place: str, leak_db: float, rng: np.random.Generator) -> Piece:
    """Return our own sentences."""
    voice = HibariVoice()

    def piece(number: int) -> tuple[np.ndarray, np.ndarray]:
        text = next(text for _ in TEXTS if "stop" not in (text := TEXTS[int(rng.integers(len(TEXTS)))]).lower())
        sound = voice.render(text).at_rate(RATE_HZ).samples
        sound = sound * (LEVEL / rms_of_speech(sound))
        played = np.pad(sound, (0, round(PAUSE_SECONDS * RATE_HZ))).astype(np.float32)
        heard = 10 ** (leak_db / 20) * drifted(echo_of(played), DRIFTS_PPM[number // 6 % len(DRIFTS_PPM)])
        return (heard + LEVEL * 10 ** (PLACE_DB / 20) * PLACES[place](len(played), rng)).astype(np.float32), played

    return piece


def others(rng: np.random.Generator, speakers: Sequence[str]) -> Piece:
    """Return chatter in a kitchen."""
    lines = [words for words, _ in chatter()]

    def piece(number: int) -> tuple[np.ndarray, np.ndarray]:
        sound = say(speakers[number % len(speakers)], lines[number % len(lines)]).at_rate(RATE_HZ).samples
        sound = np.pad(sound * (LEVEL / rms_of_speech(sound)), (0, round(PAUSE_SECONDS * RATE_HZ)))
        return (sound + LEVEL * 10 ** (PLACE_DB / 20) * PLACES["kitchen"](len(sound), rng)).astype(np.float32), np.zeros(
            len(sound), np.float32
        )

    return piece


def place_alone(place: str, rng: np.random.Generator) -> Piece:
    """Return a place where nobody speaks."""

    def piece(number: int) -> tuple[np.ndarray, np.ndarray]:
        sound = LEVEL * 10 ** (PLACE_DB / 20) * PLACES[place](10 * RATE_HZ, rng)
        return sound.astype(np.float32), np.zeros(len(sound), np.float32)

    return piece


def kinds(seed: int, speakers: Sequence[str]) -> Iterator[tuple[str, Piece]]:
    """Yield each kind of sound with its name."""
    for place in ("kitchen", "wind"):
        for leak_db in LEAKS_DB:
            yield f"our voice, {leak_db:g} dB, {place}", ours(place, leak_db, np.random.default_rng(seed))
    yield "chatter, kitchen", others(np.random.default_rng(seed), speakers)
    for place in ("kitchen", "wind", "neighbours"):
        yield f"{place} alone", place_alone(place, np.random.default_rng(seed))


def shouts(engine: WhisperEngine, name: str, piece: Piece, count: int, speakers: Sequence[str], level: float, seed: int) -> str:  # noqa: PLR0917
    """Return how many of so many words halted the mount, each said so loud (RMS) in a stretch of its own."""
    rng, mount, after, early, missed = np.random.default_rng(seed), Turning(engine), [], 0, []
    for number in range(count):
        heard, played = piece(number)
        voice, words = speakers[number % len(speakers)], WORDS[number % len(WORDS)]
        word = bare(words, voice).samples
        at = int(rng.uniform(0.3, max(0.4, len(heard) / RATE_HZ - PAUSE_SECONDS - 1.2)) * RATE_HZ)
        word = word[: len(heard) - at] * (level / rms_of_speech(word))
        heard[at : at + len(word)] += word
        begins, ends = at / RATE_HZ, (at + len(word)) / RATE_HZ
        halted = [when for when, _ in mount.hear(heard, played)]
        early += any(when < begins for when in halted)
        late = [when - ends for when in halted if when >= begins]
        after += late[:1]
        missed += [] if late else [f"{words}, {voice}"]
    soon = sum(one <= SOON_SECONDS for one in after)
    return (
        f"{name}: {len(after)} of {count} halted it, {soon} within {SOON_SECONDS} s, median {median(after or [0.0]):.2f} s, longest"
        f" {max(after, default=0.0):.2f} s; in {early} stretches something else did before"
        f"{f'; missed: {missed}' if set(speakers) <= set(voices('tuning')) else ''}"
    )


def main() -> None:
    """Print a line for each kind of sound."""
    parser = argparse.ArgumentParser(prog="python -m tests.live.false_halts", description=__doc__)
    parser.add_argument("minutes", type=float, nargs="?", default=5.0, help="of each kind")
    parser.add_argument("--seed", type=int, default=16)
    parser.add_argument("--only", default="", help="kinds whose name holds this")
    parser.add_argument("--voices", choices=("tuning", "never"), default="tuning")
    parser.add_argument("--shouts", type=int, default=0, help="say so many words into each kind of sound but chatter")
    parser.add_argument("--shout-db", type=float, default=-3.0, help="how loud they are beside our voice as it is played")
    options = parser.parse_args()
    engine = WhisperEngine.load(writing=load_language().writing)
    speakers = voices(options.voices)
    for name, piece in kinds(options.seed, speakers):
        if options.only not in name:
            continue
        if options.shouts:
            level = LEVEL * 10 ** (options.shout_db / 20)
            print(shouts(engine, name, piece, options.shouts, speakers, level, options.seed), flush=True)
            continue
        mount, found, number = Turning(engine), [], 0
        while mount.seconds < 60 * options.minutes:
            found += [what for _, what in mount.hear(*piece(number))]
            number += 1
        per_hour = len(found) / mount.seconds * 3600
        looks = mount.noting.looks / mount.seconds
        print(f"{name}: {len(found)} in {mount.seconds / 60:.1f} min ({per_hour:.0f} an hour), {looks:.1f} looks/s: {found}", flush=True)


if __name__ == "__main__":
    main()
