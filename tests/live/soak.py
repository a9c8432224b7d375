"""Hours of an evening in which nobody speaks to us: memory, processor share, and whether anything is taken for an answer.

    python -m tests.live virtual HOURS     without devices, as fast as the machine goes
    python -m tests.live real MINUTES      on the virtual sound card, in real time

What is heard: wind, rain, steps, a motor, other people's talk, and silence between. EncodedUtterance is counted from the fifth minute on.
"""

from __future__ import annotations

import contextlib
import subprocess
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio, write_wav
from companion.dialogue import read_journal
from companion.hearing import WhisperEngine
from companion.hearing.vad import FRAME, best_detector
from companion.languages import load_language
from companion.live import Ear
from companion.speaking.hibari_voice import HibariVoice
from tests.english import VOCABULARY
from tests.hearing.night_noises import SENTENCES, night
from tests.live.fakes import Night
from tests.live.field import in_the_field
from tests.soundcard import soundcard

SETTLED_SECONDS = 300.0
SILENCE_SHARE = 0.4
"""Between noises, in turn with them."""


@dataclass(frozen=True)
class Report:
    """What a soak showed."""

    seconds: float
    """Of the evening."""
    answers: list[str]
    """Commands that reached the journal: each changed something, and none was given."""
    heard: list[str]
    """What was taken for words of ours, with or without effect."""
    memory_mb: tuple[float, float]
    """Resident after the fifth minute, and at the end."""
    processor_share: float
    """Of one core."""

    @property
    def growth(self) -> float:
        """By which share memory grew."""
        return self.memory_mb[1] / self.memory_mb[0] - 1

    def __str__(self) -> str:
        """Return the report as lines."""
        return (
            f"{self.seconds / 60:.0f} minutes: {len(self.answers)} false answers {self.answers}, taken for words of ours {self.heard}\n"
            f"memory {self.memory_mb[0]:.0f} MB after five minutes, {self.memory_mb[1]:.0f} MB at the end ({self.growth:+.1%}); "
            f"{self.processor_share:.1%} of one core"
        )


def noise(seconds: float, seed: int) -> Iterator[np.ndarray]:
    """Yield samples of noise, talk and silence in turn, some 20 s each."""
    rng = np.random.default_rng(seed)
    voices = [HibariVoice(rate_wpm=rate) for rate in (140, 180)]
    spoken = [voice.render(sentence) for sentence in SENTENCES for voice in voices]
    left = seconds
    while left > 0:
        for _, sound in night(120.0, rng, spoken):
            yield sound
            pause = np.zeros(round(len(sound) * SILENCE_SHARE / (1 - SILENCE_SHARE)), np.float32)
            yield pause + np.float32(3e-4) * rng.standard_normal(len(pause)).astype(np.float32)
            left -= (len(sound) + len(pause)) / SPEECH_RATE_HZ


def in_frames(stretches: Iterator[np.ndarray], seconds: float, at: Callable[[float], None]) -> Iterator[np.ndarray]:
    """Yield frames for so long; ``at`` is told how many seconds have been given."""
    given = 0
    for stretch in stretches:
        for start in range(0, len(stretch) - FRAME + 1, FRAME):
            if given * FRAME / SPEECH_RATE_HZ >= seconds:
                return
            given += 1
            at(given * FRAME / SPEECH_RATE_HZ)
            yield stretch[start : start + FRAME]


def resident_mb(process: int | str = "self") -> float:
    """Return how much memory a process holds (Linux)."""
    status = Path(f"/proc/{process}/status").read_text()
    return int(next(line for line in status.splitlines() if line.startswith("VmRSS")).split()[1]) / 1024


def report_on(folder: Path, lines: list[str], seconds: float, memory: list[tuple[float, float]], processor: float) -> Report:
    """Put together what an evening left behind."""
    answers = [record["command"] for record in read_journal(folder / "evening.jsonl").records if record["kind"] == "answer"]
    heard = [line for line in lines if line.startswith("you:") and "not understood" not in line]
    settled = [mb for at, mb in memory if at >= min(SETTLED_SECONDS, seconds / 2)]
    return Report(seconds, answers, heard, (settled[0], settled[-1]), processor / seconds)


def virtual(seconds: float, seed: int = 1) -> Report:
    """Hold an evening without devices, on a clock of its own."""
    engine = WhisperEngine.load(writing=load_language().writing)
    ear = Ear(engine, best_detector(), VOCABULARY, load_language())
    memory: list[tuple[float, float]] = []

    def watch(at: float) -> None:
        if not memory or at - memory[-1][0] >= 30.0:
            memory.append((at, resident_mb()))

    with tempfile.TemporaryDirectory() as name:
        begun = time.process_time()
        evening = Night(Path(name), in_frames(noise(seconds, seed), seconds, watch), ear=ear)
        evening.hold()
        processor = time.process_time() - begun
        return report_on(Path(name), evening.shown, seconds, memory, processor)


def real(seconds: float, seed: int = 1) -> Report:
    """Hold an evening on the virtual sound card."""
    place = ("--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T20:00:00-03:00")
    with soundcard() as card, in_the_field(card, *place) as field:
        over = threading.Event()

        def play() -> None:
            for number, stretch in enumerate(noise(seconds, seed)):
                if over.is_set():
                    return
                write_wav(card.folder / f"noise{number % 2}.wav", Audio(stretch, SPEECH_RATE_HZ))
                with contextlib.suppress(subprocess.CalledProcessError):  # the card is put away while the last one plays
                    card.say_into_microphone(card.folder / f"noise{number % 2}.wav")

        threading.Thread(target=play, daemon=True).start()
        begun, memory = time.monotonic(), []
        while (at := time.monotonic() - begun) < seconds and not field.is_over:
            memory.append((at, resident_mb(field.process.pid)))
            time.sleep(5.0)
        ticks = Path(f"/proc/{field.process.pid}/stat").read_text().rsplit(")", 1)[1].split()
        processor = (int(ticks[11]) + int(ticks[12])) / 100
        over.set()
        return report_on(card.folder, [line for _, line in field.lines], seconds, memory, processor)
