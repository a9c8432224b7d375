"""What the place sounds like while nobody speaks: how loud it is, and clips of it for the recogniser to be measured on."""

from __future__ import annotations

import math
from collections import deque

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.vad import FloatArray

CLIP_SECONDS = 2.0
_CLIPS = 4
CHANGED_DB = 3.0
"""A place that has become so much louder or quieter is another one. Measuring a recogniser on it costs half a second a question."""
_MARGIN_SECONDS = 0.5
"""Sound so shortly after a voice isn't taken: it may hold the last of it."""


class NoiseFloor:
    """Collects recent sound without speech."""

    def __init__(self) -> None:
        """Begin with nothing heard."""
        self._clips: deque[Audio] = deque(maxlen=_CLIPS)
        self._pieces: list[FloatArray] = []
        self._count = 0
        self._margin = 0
        self._told_db: float | None = None

    def feed(self, samples: FloatArray, *, voice: bool) -> None:
        """Take the next samples at 16 kHz, and whether somebody, we included, speaks in them."""
        if voice:
            self._margin = round(_MARGIN_SECONDS * SPEECH_RATE_HZ)
            self._pieces, self._count = [], 0
            return
        if self._margin > 0:
            self._margin -= len(samples)
            return
        self._pieces.append(samples)
        self._count += len(samples)
        if self._count >= CLIP_SECONDS * SPEECH_RATE_HZ:
            self._clips.append(Audio(np.concatenate(self._pieces), SPEECH_RATE_HZ))
            self._pieces, self._count = [], 0

    def changed_clips(self) -> list[Audio]:
        """Return the last few clips, about 2 s each, oldest first; empty while the place is as loud as when this was told last."""
        now_db = self.level_db
        if now_db is None or (self._told_db is not None and abs(now_db - self._told_db) < CHANGED_DB):
            return []
        self._told_db = now_db
        return list(self._clips)

    @property
    def level_db(self) -> float | None:
        """How loud the last few clips are, in dB of full scale; None before the first."""
        if not self._clips:
            return None
        return level_db(np.concatenate([clip.samples for clip in self._clips]))

    def speech_to_noise_db(self, utterance: Audio) -> float | None:
        """Return how far an utterance stands out of the place, in dB; None while the place isn't known.

        Power of the loudest quarter second of it less the place's, over the place's.
        """
        floor_db = self.level_db
        if floor_db is None or not len(utterance.samples):
            return None
        window = SPEECH_RATE_HZ // 4
        parts = [utterance.samples[start : start + window] for start in range(0, len(utterance.samples), window)]
        loudest = max(level_db(part) for part in parts)
        excess = 10 ** ((loudest - floor_db) / 10) - 1
        return 10 * math.log10(max(excess, 1e-3))


def level_db(samples: FloatArray) -> float:
    """Return the mean power of samples in dB of full scale."""
    return 10 * math.log10(float(np.mean(samples.astype(np.float64) ** 2)) + 1e-10)
