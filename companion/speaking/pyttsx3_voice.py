"""The voice of pyttsx3: espeak-ng on Linux, the system's own voices on macOS and Windows (those two are untested).

Each sentence is rendered by ``worker.py`` in a process of its own with a time limit, since pyttsx3 is known to hang.
"""

from __future__ import annotations

import difflib
import json
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from companion.audio import Audio, read_wav, silence
from companion.errors import AudioFileError, BadRequest, MissingPart
from companion.speaking import worker
from companion.speaking.pronunciation import NO_PRONUNCIATIONS, Pronunciations
from companion.speaking.rate import USUAL_RATE_WPM, checked_rate
from companion.temporary import temporary_folder

WORKER = (sys.executable, "-P", worker.__file__)
"""Run as a file: it needs nothing of ours, so importing the package would only cost time."""
ATTEMPTS = 2
NEAREST = 8
ESPEAK_RATE_HZ = 22_050


@dataclass
class Pyttsx3Voice:
    """Renders sentences with pyttsx3. Safe to use from several threads; holds nothing open between sentences."""

    voice: str | None = None
    """A voice's identifier, the last part of it, a language or a name (``en-gb``, ``gmw/en-us``, ``en-us+f3``); None: the system's."""
    rate_wpm: int = USUAL_RATE_WPM
    """Words a minute; may be changed between sentences."""
    volume: float = 0.9
    """0..1. espeak-ng at 1 touches full scale."""
    pitch: int = worker.USUAL_PITCH
    """0..100, espeak-ng only."""
    pronunciations: Pronunciations = NO_PRONUNCIATIONS
    """Words to be respelt."""
    seconds_allowed: float = 10.0
    """For one sentence, then the process is killed and another one tries once more."""
    command: Sequence[str] = WORKER
    """The worker's command line."""

    @property
    def name(self) -> str:
        """What to call it: ``pyttsx3``, with the voice where one is chosen."""
        return f"pyttsx3 {self.voice}" if self.voice else "pyttsx3"

    def render(self, text: str) -> Audio:
        """Return the sentence as sound; a blank one has no samples.

        Raises BadRequest for an impossible rate, volume or pitch, MissingPart when pyttsx3, espeak-ng or the voice isn't installed,
        or when the engine fails or hangs twice.
        """
        if not text.strip():
            return silence(0.0, ESPEAK_RATE_HZ)
        if not 0 <= self.volume <= 1 or not 0 <= self.pitch <= 100:
            raise BadRequest(f"volume {self.volume:g} and pitch {self.pitch}: the volume goes from 0 to 1, the pitch from 0 to 100")
        with temporary_folder() as folder:
            file = folder / "sentence.wav"
            request = {
                "text": "".join(character if character.isprintable() else " " for character in self.pronunciations.respell(text)),
                "file": str(file),
                "voice": self.voice,
                "rate_wpm": checked_rate(self.rate_wpm),
                "volume": self.volume,
                "pitch": self.pitch,
            }
            trouble = ""
            for _ in range(ATTEMPTS):
                trouble = self._attempt(request)
                if not trouble:
                    try:
                        return read_wav(file)
                    except AudioFileError as error:
                        trouble = error.reason
        raise MissingPart(f"pyttsx3 can't speak ({trouble}); choose another voice, or check that espeak-ng works here")

    def close(self) -> None:
        """Do nothing: no process outlives its sentence."""

    def _attempt(self, request: dict[str, Any]) -> str:
        """Return what went wrong, empty when nothing did; raises MissingPart for what another attempt can't mend."""
        try:
            # On a time-out or Ctrl-C, run() kills the child and waits for it.
            done = subprocess.run(
                self.command, input=json.dumps(request), capture_output=True, encoding="utf-8", timeout=self.seconds_allowed, check=False
            )
        except subprocess.TimeoutExpired:
            return f"no answer within {self.seconds_allowed:g} seconds"
        except OSError as error:
            return str(error)
        try:
            answer = json.loads(done.stdout)
        except ValueError:
            return (done.stderr.strip().splitlines() or [f"the process ended with {done.returncode}"])[-1]
        match answer.get("error"):
            case worker.MISSING_LIBRARY:
                raise MissingPart(
                    f"pyttsx3 or espeak-ng is missing ({answer['detail'].splitlines()[0]}); pip install pyttsx3 espeakng-loader"
                )
            case worker.UNKNOWN_VOICE:
                short_names = [identifier.rpartition("/")[2] for identifier in answer["voices"]]
                nearest = difflib.get_close_matches(answer["detail"], short_names, n=NEAREST, cutoff=0)
                raise MissingPart(
                    f"there is no voice {answer['detail']!r}; of the {len(answer['voices'])} installed, nearest are {', '.join(nearest)}"
                )
            case None:
                return ""
        return str(answer["detail"])
