"""The neural English voice of ``hibari-tts``: the one bundled with it, nothing is ever fetched. Runs on numpy and onnxruntime."""

from __future__ import annotations

import re
import threading
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from companion.audio import Audio, silence
from companion.errors import BadRequest, MissingPart
from companion.memory import give_back_memory
from companion.speaking.pronunciation import NO_PRONUNCIATIONS, Pronunciation, Pronunciations
from companion.speaking.rate import USUAL_RATE_WPM, checked_rate

BUNDLED_VOICE = "heart"
HIBARI_RATE_HZ = 24_000
OWN_RATE_WPM = 152
"""What it speaks at speed 1: measured over 13 sentences of the kind we speak, 202 words, pauses counted."""
GAIN = 1.9
"""The same sentences at gain 1: RMS 0.049, peaks 0.29 to 0.56. This brings them to the RMS of pyttsx3's espeak, and none clips."""
SEED = 1
"""For the breath noise, so that a sentence always gives the same samples."""
MARKUP = str.maketrans("[]", "()")
"""Square brackets are the engine's own markup for phonemes."""
POSSESSIVE = re.compile(r"(.)/\)['’]s\b")


@dataclass
class HibariVoice:
    """Renders English sentences. Safe to use from several threads."""

    rate_wpm: int = USUAL_RATE_WPM
    """Words a minute; may be changed between sentences."""
    volume: float = 0.9
    """0..1."""
    pronunciations: Pronunciations = NO_PRONUNCIATIONS
    """Words to be said by their phonemes."""
    _engine: Any = None
    _has_spoken: bool = False
    _lock: threading.Lock = field(default_factory=threading.Lock)

    @property
    def name(self) -> str:
        """What to call it."""
        return "hibari"

    def load(self) -> None:
        """Load the model, if it isn't yet (a third of a second); raises MissingPart when it isn't installed."""
        with self._lock:
            if self._engine is not None:
                return
            try:
                import hibari  # noqa: PLC0415 - so that a missing library is a remedy, not an ImportError

                self._engine = hibari.Hibari(voice=BUNDLED_VOICE)
            except (ImportError, OSError, RuntimeError) as error:
                raise MissingPart(
                    f"the hibari voice can't be loaded ({error}); pip install hibari-tts, or choose the voice pyttsx3"
                ) from error

    def render(self, text: str) -> Audio:
        """Return the sentence as sound; a blank one has no samples.

        Raises MissingPart when the library isn't installed, BadRequest for an impossible rate or volume.
        """
        if not text.strip():
            return silence(0.0, HIBARI_RATE_HZ)
        if not 0 <= self.volume <= 1:
            raise BadRequest(f"volume {self.volume:g}: it goes from 0 to 1")
        speed = checked_rate(self.rate_wpm) / OWN_RATE_WPM
        self.load()
        with self._lock:
            samples = self._engine(self._marked_up(text), speed=speed, seed=SEED)
            if not self._has_spoken:
                # Its dictionary is read with the first sentence.
                self._has_spoken = True
                give_back_memory()
        return Audio(np.clip(samples * (GAIN * self.volume), -1.0, 1.0).astype(np.float32), HIBARI_RATE_HZ)

    def close(self) -> None:
        """Forget the model."""
        with self._lock:
            self._engine = None

    def _marked_up(self, text: str) -> str:
        def spell(word: str, entry: Pronunciation) -> str:
            return f"[{word}](/{entry.phonemes}/)" if entry.phonemes else word

        return POSSESSIVE.sub(_with_possessive, self.pronunciations.rewrite(text.translate(MARKUP), spell))


def _with_possessive(end: re.Match[str]) -> str:
    """Say the ``'s`` inside the phonemes: the engine reads it as a letter when the word before it was given by phonemes."""
    last = end[1]
    sound = "ᵻz" if last in "szʃʒʧʤ" else "s" if last in "ptkfθ" else "z"
    return f"{last}{sound}/)"
