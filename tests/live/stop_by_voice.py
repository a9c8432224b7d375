"""``python -m tests.live.stop_by_voice [ROUNDS]``: from the end of a "stop", "halt" or "no no" to the mount's stand, on the virtual card.

A companion by voice holds the tests' own mount on the line; the mount is sent turning from its own controls, somebody speaks, half of
the time into our own sentence, our voice reaching the microphone as loud as it plays. When the word ended is found by laying what was
played over a recording of what the microphone got; when the mount stood is told by the mount, by the same clock. All voices are
synthesised.
"""

from __future__ import annotations

import argparse
import subprocess
import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from statistics import median

import numpy as np

from companion.audio import Audio, write_wav
from tests.hearing.voices.synthesisers import say, voices
from tests.live.field import Field, in_the_field
from tests.mount.altaz_server import AltAzServer, altaz_server
from tests.mount.evening import SITE, right_clock
from tests.soundcard import SoundCard, soundcard, wait_until

WORDS = ("stop", "halt", "no no")
RATE_HZ = 16_000
CHUNK = RATE_HZ // 100
GIVEN_UP_AFTER_S, SILENT_S = 4.0, 3.0
_AUDIBLE = 0.05
"""Of a word's loudest sample: below it is its end's silence."""


@dataclass(frozen=True)
class Halt:
    """One word, and what it did."""

    word: str
    voice: str
    over_ours: bool
    """Whether we spoke when the word ended."""
    after_s: float | None
    """From the end of the word to the stand; None where it went on turning."""
    taken: tuple[tuple[str, float], ...] = ()
    """What was taken for a halt meanwhile, and how sure."""
    likeness: float = 0.0
    """How like the word what reached the microphone was, our voice and the hiss in it."""
    before: bool = False
    """Whether it stood before the word began: something else, as our own voice, was taken for one."""


class Microphone:
    """Keeps what the microphone gets, with the time of each hundredth of a second."""

    def __init__(self, recorder: subprocess.Popen[bytes]) -> None:
        """Take what records it as raw sound."""
        self._recorder = recorder
        self.chunks: list[tuple[float, np.ndarray]] = []
        threading.Thread(target=self._keep, daemon=True).start()

    def _keep(self) -> None:
        assert self._recorder.stdout is not None
        while len(raw := self._recorder.stdout.read(CHUNK * 2)) == CHUNK * 2:
            self.chunks.append((time.monotonic(), np.frombuffer(raw, np.int16).astype(np.float32) / 32768))

    def end_of(self, word: np.ndarray, since: float) -> tuple[float, float]:
        """Return when the end of a word arrived that was played after a moment, and how like it what arrived is; 1 is the same."""
        kept = [chunk for chunk in list(self.chunks) if chunk[0] >= since]
        sound = np.concatenate([samples for _, samples in kept])
        size = 1 << (len(sound) + len(word)).bit_length()
        likeness = np.fft.irfft(np.fft.rfft(sound, size) * np.conj(np.fft.rfft(word, size)), size)[: len(sound)]
        start = int(likeness.argmax())
        piece = sound[start : start + len(word)]
        return kept[min((start + len(word)) // CHUNK, len(kept) - 1)][0], float(np.corrcoef(piece, word[: len(piece)])[0, 1])


@contextmanager
def microphone(card: SoundCard) -> Iterator[Microphone]:
    """Record the microphone meanwhile."""
    command = ("parec", "-d", "mic.monitor", "--latency-msec=10", "--channels=1", f"--rate={RATE_HZ}", "--format=s16le", "--raw")
    with subprocess.Popen(command, env=card.environment, stdout=subprocess.PIPE) as recorder:
        try:
            yield Microphone(recorder)
        finally:
            recorder.terminate()


def bare(word: str, voice: str) -> Audio:
    """Return a word without the silence before and after it."""
    sound = say(voice, word).at_rate(RATE_HZ).samples
    loud = np.flatnonzero(np.abs(sound) > _AUDIBLE * np.abs(sound).max())
    return Audio((sound[loud[0] : loud[-1] + 1] / np.abs(sound).max() * 0.5).astype(np.float32), RATE_HZ)


def _wait_until_it_says_no_more(field: Field) -> None:
    """Wait for a silence that is longer than a busy machine takes between two sentences."""
    deadline = time.monotonic() + 60.0
    while time.monotonic() < deadline:
        sounds = [event for event in field.events() if event["what"] in ("sound", "quiet")]
        if sounds and sounds[-1]["what"] == "quiet" and time.monotonic() - sounds[-1]["at"] > SILENT_S:
            return
        time.sleep(0.1)


def one_halt(field: Field, heard: Microphone, server: AltAzServer, word: str, voice: str, *, over_ours: bool, hung: bool = False) -> Halt:
    """Send the mount turning, say the word, and see when it stands; ``hung``: it doesn't answer any more where it points."""
    if not over_ours:
        # Else it would ask again after a while.
        field.type("wait a moment")
    _wait_until_it_says_no_more(field)
    decided = len(field.events("decided"))
    if over_ours:
        # Typed before it turns: any key would halt it.
        sounded = len(field.events("sound"))
        field.type("say that again")
        deadline = time.monotonic() + 3.0
        while len(field.events("sound")) == sounded and time.monotonic() < deadline:
            time.sleep(0.05)
    server.mount.rate_deg_s = 0.2
    azimuth_deg, _ = server.mount.says()
    server.mount.slew((azimuth_deg + 170.0) % 360, 40.0)
    # The line reads a mount that stands once a second: until it has, nobody can know that it turns.
    time.sleep(1.5)
    sound = bare(word, voice)
    wav = field.card.folder / "word.wav"
    write_wav(wav, sound)
    if hung:
        server.hung.add("GET azimuth")
    began = time.monotonic()
    with subprocess.Popen(("paplay", "-d", "mic", "--latency-msec=20", str(wav)), env=field.card.environment):
        while server.mount.slewing and time.monotonic() - began < GIVEN_UP_AFTER_S:
            time.sleep(0.01)
    stood_at, taken = server.mount.stopped_at, not server.mount.slewing
    server.mount.halt()
    server.hung.clear()
    time.sleep(0.3)
    ended, likeness = heard.end_of(sound.samples, began)
    sounds = [event["what"] for event in field.events() if event["what"] in ("sound", "quiet") and event["at"] < ended]
    over_ours = sounds[-1:] == ["sound"]
    heard_as = tuple((event["phrase"] or event["kind"], event["confidence"] or 0.0) for event in field.events("decided")[decided:])
    if stood_at is not None and taken and stood_at < began:
        return Halt(word, voice, over_ours, None, heard_as, before=True)
    return Halt(word, voice, over_ours, stood_at - ended if taken and stood_at is not None else None, heard_as, round(likeness, 2))


def halts(rounds: int, speakers: Sequence[str], *, hung: bool = False) -> Iterator[Halt]:
    """Yield so many, words and voices in turn, every other one into our own sentence."""
    mount = {"clock_error_s": right_clock(), "latitude_deg": SITE.latitude_deg, "longitude_deg": SITE.longitude_deg}
    place = ("--lat", f"{SITE.latitude_deg}", "--lon", f"{SITE.longitude_deg}", "--at", "2026-11-14T20:30:00-04:00")
    with (
        altaz_server(**mount) as server,
        soundcard() as card,
        in_the_field(card, *place, "--mount", server.address) as field,
        microphone(card) as heard,
    ):
        wait_until(lambda: field.events("sound"))
        field.type("stop")
        for number in range(rounds):
            word, voice = WORDS[number % len(WORDS)], speakers[number % len(speakers)]
            yield one_halt(field, heard, server, word, voice, over_ours=number % 2 == 1, hung=hung)


def told(found: list[Halt]) -> str:
    """Return the figures as lines, missed words with who said them."""
    lines = []
    for what, over_ours in (("in silence", False), ("into our sentence", True)):
        every = [halt for halt in found if halt.over_ours is over_ours]
        these = [halt for halt in every if not halt.before]
        after = [halt.after_s for halt in these if halt.after_s is not None]
        if after:
            early = len(every) - len(these)
            lines.append(
                f"{what}: {len(after)} of {len(these)} halted, median {median(after):.2f} s, longest {max(after):.2f} s,"
                f" {early} halted before the word"
            )
        lines += [f"  missed: {halt.word}, {halt.voice}" for halt in these if halt.after_s is None]
    return "\n".join(lines)


def main() -> None:
    """Measure, and print the figures."""
    parser = argparse.ArgumentParser(prog="python -m tests.live.stop_by_voice", description=__doc__)
    parser.add_argument("rounds", type=int, nargs="?", default=50)
    parser.add_argument("--voices", choices=("tuning", "never"), default="tuning")
    parser.add_argument("--hung", action="store_true", help="the mount leaves a poll unanswered as the word is said")
    options = parser.parse_args()
    found = []
    for halt in halts(options.rounds, voices(options.voices), hung=options.hung):
        print(halt, flush=True)
        found.append(halt)
    print(told(found))


if __name__ == "__main__":
    main()
