"""Runs ``companion`` with its arguments, and writes when things happened to the file named first, one JSON object a line.

Times are ``time.monotonic()``. ``sound`` is the first audible block after silence, handed to the device; it is heard ``latency`` later.
"""

from __future__ import annotations

import faulthandler
import json
import signal
import sys
import threading
import time
from collections import deque
from pathlib import Path
from typing import Any

import numpy as np

from companion.cli import main
from companion.hearing import WhisperEngine
from companion.live.teller import Teller
from companion.live.voice_answers import VoiceAnswers
from companion.speaking.player import Player
from companion.speaking.speaker import Speaker

AUDIBLE = 0.003
"""The lead-in's hiss stays below."""


class Notes:
    """Collects events in memory, since an audio callback must not write; a thread of its own writes them, ten times a second."""

    def __init__(self, file: Path) -> None:
        """Begin with no events."""
        self.file = file
        self.events: deque[dict[str, Any]] = deque()
        threading.Thread(target=self._write_on, daemon=True).start()

    def add(self, what: str, **facts: Any) -> None:
        """Note an event."""
        self.events.append({"what": what, "at": time.monotonic(), **facts})

    def write(self) -> None:
        """Write what was noted since."""
        with self.file.open("a") as file:
            while self.events:
                file.write(json.dumps(self.events.popleft()) + "\n")

    def _write_on(self) -> None:
        while True:
            time.sleep(0.1)
            self.write()


def instrument(notes: Notes) -> None:
    """Wrap what is to be timed."""
    fill, act_upon, tell = Player._fill, VoiceAnswers._acted_upon, Teller.tell
    hush = Speaker.hush
    recognise = WhisperEngine.recognise
    loud = [False]

    def noted_fill(self: Player, outdata: Any, frames: int, when: Any, status: Any) -> None:
        fill(self, outdata, frames, when, status)
        audible = bool(np.abs(outdata).max() > AUDIBLE)
        if audible != loud[0]:
            loud[0] = audible
            # The first blocks are asked for while the stream is still being opened.
            stream = getattr(self, "_stream", None)
            notes.add("sound" if audible else "quiet", latency=0.0 if stream is None else stream.latency)

    def noted_action(self: VoiceAnswers, utterance: Any) -> Any:
        hearing, action, voice_ended = utterance.hearing, utterance.action, utterance.segment.voice_ended
        facts = {"phrase": getattr(hearing, "phrase", None), "confidence": getattr(hearing, "confidence", None)}
        kind = type(hearing).__name__
        notes.add("decided", kind=kind, action=action.value, ours=self._speaker.is_speaking, voice_ended=voice_ended, **facts)
        return act_upon(self, utterance)

    def noted_recognise(self: WhisperEngine, audio: Any, active: Any) -> Any:
        begun = time.monotonic()
        hearing = recognise(self, audio, active)
        notes.add("recognised", seconds=time.monotonic() - begun, phrases=active.phrase_count, audio_seconds=audio.seconds)
        return hearing

    def noted_tell(self: Teller, turn: Any, **other: Any) -> None:
        begun = time.monotonic()
        tell(self, turn, **other)
        notes.add("told", stage=turn.stage, asks=turn.question and turn.question.expects.rule(), seconds=time.monotonic() - begun)

    def noted_hush(self: Speaker) -> None:
        if self.is_speaking:
            notes.add("hushed")
        hush(self)

    WhisperEngine.recognise = noted_recognise  # type: ignore[method-assign]
    VoiceAnswers._acted_upon = noted_action  # type: ignore[method-assign]
    Teller.tell = noted_tell  # type: ignore[method-assign]
    Speaker.hush = noted_hush  # type: ignore[method-assign]
    Player._fill = noted_fill  # type: ignore[method-assign]


if __name__ == "__main__":
    # Whoever waits in vain can ask what each thread is at.
    faulthandler.register(signal.SIGUSR1)
    noted = Notes(Path(sys.argv[1]))
    instrument(noted)
    try:
        sys.exit(main(sys.argv[2:]))
    finally:
        noted.write()
