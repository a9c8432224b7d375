"""What a voice is, and how to get the one that was asked for."""

from __future__ import annotations

import importlib.util
from collections.abc import Sequence
from typing import Protocol

from companion.audio import Audio
from companion.errors import BadRequest
from companion.speaking.hibari_voice import HibariVoice
from companion.speaking.pronunciation import NO_PRONUNCIATIONS, Pronunciations
from companion.speaking.pyttsx3_voice import Pyttsx3Voice
from companion.speaking.rate import USUAL_RATE_WPM


class Voice(Protocol):
    """Turns a sentence of plain text into sound."""

    rate_wpm: int
    """Words a minute; may be changed between sentences."""

    @property
    def name(self) -> str:
        """What to call it in a list or an error."""

    def render(self, text: str) -> Audio:
        """Return the sentence as sound; a blank one has no samples. Raises MissingPart with a remedy when it can't."""

    def close(self) -> None:
        """Let go of whatever it holds."""


def open_voice(
    choice: str = "auto",
    *,
    language: str = "en",
    known: Sequence[str],
    rate_wpm: int = USUAL_RATE_WPM,
    pronunciations: Pronunciations = NO_PRONUNCIATIONS,
) -> Voice:
    """Return the voice called ``choice``: ``auto``, ``hibari``, ``pyttsx3``, or ``pyttsx3`` and one of its voices (``pyttsx3 en-us``).

    ``known`` are those that speak the language, the best first; ``auto`` is hibari where it is among them and installed, else pyttsx3.
    Nothing is loaded before the first sentence, so a missing library shows there. Raises BadRequest for any other choice.
    """
    engine, _, voice = choice.strip().partition(" ")
    if engine == "auto" and not voice:
        engine = "hibari" if "hibari" in known and importlib.util.find_spec("hibari") else "pyttsx3"
    if engine == "hibari" and engine in known and not voice:
        return HibariVoice(rate_wpm=rate_wpm, pronunciations=pronunciations)
    if engine == "pyttsx3":
        return Pyttsx3Voice(voice.strip() or language, rate_wpm=rate_wpm, pronunciations=pronunciations)
    raise BadRequest(f"voice {choice!r}: choose auto, {', '.join(known)}, or pyttsx3 and a voice such as {language}")
