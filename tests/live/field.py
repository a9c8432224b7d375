"""A companion at work on the virtual sound card, and somebody who answers it through the microphone once it has fallen silent."""

from __future__ import annotations

import contextlib
import json
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np

from companion.audio import Audio, write_wav
from tests.soundcard import SoundCard

INSTRUMENTED = Path(__file__).parent / "instrumented.py"
SILENT_SECONDS = 1.2
"""Without sound for so long, it waits for an answer."""
PATIENCE_SECONDS = 60.0
Event = dict[str, Any]


@dataclass
class Field:
    """One evening under way."""

    card: SoundCard
    process: subprocess.Popen[str]
    notes: Path
    complaints: Path
    """What it printed to standard error."""
    lines: list[tuple[float, str]] = field(default_factory=list)
    """What it printed, and when (monotonic)."""

    def events(self, what: str | None = None) -> list[Event]:
        """Return what was noted so far."""
        text = self.notes.read_text() if self.notes.exists() else ""
        known = [json.loads(line) for line in text.splitlines() if line.endswith("}")]
        return [event for event in known if what is None or event["what"] == what]

    @property
    def is_over(self) -> bool:
        """Whether the companion has ended."""
        return self.process.poll() is not None

    def wait_for_silence(self) -> None:
        """Wait until it has said what it has to say."""
        deadline = time.monotonic() + PATIENCE_SECONDS
        while not self.is_over and time.monotonic() < deadline:
            told = self.events("told")
            sounds = [event for event in self.events() if event["what"] in ("sound", "quiet")]
            last = sounds[-1] if sounds else None
            spoken = told and last and last["what"] == "quiet" and last["at"] > told[-1]["at"]
            if spoken and time.monotonic() - last["at"] > SILENT_SECONDS:
                return
            time.sleep(0.1)

    def play(self, wav: Path) -> list[Event]:
        """Play a sound into the microphone; return the decisions it led to within some seconds."""
        before = len(self.events("decided"))
        self.card.say_into_microphone(wav)
        deadline = time.monotonic() + 6.0
        while time.monotonic() < deadline and not self.is_over:
            decided = self.events("decided")[before:]
            if decided:
                return decided
            time.sleep(0.05)
        return self.events("decided")[before:]

    def said(self) -> list[tuple[float, str]]:
        """Return what it said, and when it was printed."""
        return [(at, line.removeprefix("it:").strip()) for at, line in list(self.lines) if line.startswith("it:")]

    def type(self, words: str) -> None:
        """Type a line."""
        if self.process.stdin is not None:
            self.process.stdin.write(words + "\n")
            self.process.stdin.flush()


@contextlib.contextmanager
def in_the_field(
    card: SoundCard, *options: str, noise_rms: float = 2e-3, leaking: bool = True, devices_known: bool = True
) -> Iterator[Field]:
    """Start the companion in a faintly hissing place, its own voice reaching the microphone as loud as it plays.

    Unless ``devices_known``, it must find out first which loudspeaker and microphone are the observer's.
    """
    if devices_known:
        card.remember()
    hiss = np.random.default_rng(7).standard_normal(16_000 * 60).astype(np.float32) * np.float32(noise_rms)
    write_wav(card.folder / "hiss.wav", Audio(hiss, 16_000))
    if leaking:
        card.leak()
    notes = card.folder / "notes.jsonl"
    command = [sys.executable, str(INSTRUMENTED), str(notes), "start", *options]
    pipe = subprocess.PIPE
    environment = card.environment | {"OPENBLAS_NUM_THREADS": "1"}
    with (
        _hissing(card),
        (card.folder / "complaints").open("w") as complaints,
        subprocess.Popen(command, env=environment, stdin=pipe, stdout=pipe, stderr=complaints, text=True) as process,
    ):
        field_ = Field(card, process, notes, card.folder / "complaints")
        reader = threading.Thread(target=_read, args=(field_,), daemon=True)
        reader.start()
        try:
            yield field_
        except BaseException:
            _tell_where_it_stands(field_)
            raise
        finally:
            if process.poll() is None:
                process.terminate()
            reader.join(5.0)


def _tell_where_it_stands(field_: Field) -> None:
    """Print what came last, and what each thread is at, for whoever reads why a test failed."""
    if not field_.is_over:
        field_.process.send_signal(signal.SIGUSR1)
        time.sleep(0.5)
    print(f"ended: {field_.process.poll()}")
    print(*(line for _, line in field_.lines[-20:]), *field_.events()[-20:], field_.complaints.read_text()[-8000:], sep="\n")


@contextlib.contextmanager
def _hissing(card: SoundCard) -> Iterator[None]:
    """Play the hiss into the microphone again and again."""
    over = threading.Event()

    def hiss() -> None:
        while not over.is_set():
            with subprocess.Popen(("paplay", "-d", "mic", str(card.folder / "hiss.wav")), env=card.environment) as player:
                while player.poll() is None:
                    if over.wait(0.2):
                        player.terminate()
                        return
            over.wait(0.2)

    thread = threading.Thread(target=hiss, daemon=True)
    thread.start()
    try:
        yield
    finally:
        over.set()
        thread.join(5.0)


def _read(field_: Field) -> None:
    if field_.process.stdout is not None:
        for line in field_.process.stdout:
            field_.lines.append((time.monotonic(), line.rstrip("\n")))


@dataclass(frozen=True)
class Delays:
    """How long things took, in seconds; each list has one figure an event."""

    to_earcon: list[float]
    """From the decision that an utterance is over to the first sample of the small sound at the loudspeaker."""
    to_speech: list[float]
    """From there to the first sample of the answer."""
    after_speech: list[float]
    """From the end of the voice to that first sample."""
    to_stop: list[float]
    """From the end of the voice that says "stop" while we speak to the decision."""
    to_silence: list[float]
    """From "stop" recognised while we speak to the last sample at the loudspeaker."""


def delays(events: list[Event]) -> Delays:
    """Read delays out of what was noted."""
    result = Delays([], [], [], [], [])
    for index, event in enumerate(events):
        if event["what"] != "decided" or event["action"] in ("ignore", "invite"):
            continue
        following = [later for later in events[index:] if later["at"] >= event["at"]]
        if event["action"] == "barge in":
            result.to_stop.append(event["at"] - event["voice_ended"])
            quiet = next((later for later in following if later["what"] == "quiet"), None)
            if quiet:
                result.to_silence.append(quiet["at"] + quiet["latency"] - event["at"])
            continue
        sounds = [later for later in following if later["what"] == "sound"]
        told = next((later for later in following if later["what"] == "told"), None)
        if not sounds or told is None:
            continue
        result.to_earcon.append(sounds[0]["at"] + sounds[0]["latency"] - event["at"])
        # The small sound for "understood" has two notes; the answer comes after both.
        notes_in_earcon = 2 if event["kind"] in ("Heard", "NotNow") else 1
        if len(sounds) > notes_in_earcon and sounds[notes_in_earcon]["at"] - event["at"] < 5:
            first = sounds[notes_in_earcon]["at"] + sounds[notes_in_earcon]["latency"]
            result.to_speech.append(first - event["at"])
            result.after_speech.append(first - event["voice_ended"])
    return result
