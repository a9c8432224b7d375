"""How quickly an evening by voice answers, on the virtual sound card, our own voice reaching the microphone."""

from __future__ import annotations

import time
from pathlib import Path
from statistics import median

from companion.audio import SPEECH_RATE_HZ, write_wav
from companion.speaking.pyttsx3_voice import Pyttsx3Voice
from tests.live.field import Delays, delays, in_the_field
from tests.soundcard import soundcard

PLACE = ("--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T20:00:00-03:00")
ANSWERS = ("help", "what time is it", "I'm lost", "yes", "help", "why is that", "yes", "what did you hear")
NAMES = {
    "to_earcon": "decision to small sound",
    "to_speech": "decision to first word",
    "after_speech": "end of speech to first word",
    "to_stop": "end of stop to its decision",
    "to_silence": "stop recognised to silence",
}


def spoken(folder: Path, words: str) -> Path:
    """Return a file of somebody saying words."""
    file = folder / f"{words.replace(' ', '-')}.wav"
    if not file.exists():
        write_wav(file, Pyttsx3Voice("en-us").render(words).at_rate(SPEECH_RATE_HZ))
    return file


def told(figures: Delays) -> str:
    """Return the figures as lines."""
    lines = []
    for name, words in NAMES.items():
        values = sorted(getattr(figures, name))
        if values:
            lines.append(f"{words}: median {median(values):.3f} s, longest {values[-1]:.3f} s, n = {len(values)}")
    return "\n".join(lines)


def measured(folder: Path, interruptions: int = 4) -> str:
    """Answer some questions, interrupt some answers, and return how long everything took."""
    with soundcard() as card, in_the_field(card, *PLACE) as field:
        for words in ANSWERS:
            field.wait_for_silence()
            field.play(spoken(folder, words))
        taken = 0
        for _ in range(interruptions):
            field.wait_for_silence()
            field.play(spoken(folder, "say that again"))
            time.sleep(2.0)
            taken += any(event["action"] == "barge in" for event in field.play(spoken(folder, "stop talking")))
        return f"{told(delays(field.events()))}\n{taken} of {interruptions} interruptions taken"
