"""What the loudspeaker played while the microphone heard something: the two streams side by side, for the echo to be taken out."""

from __future__ import annotations

import time
from collections import deque

import numpy as np
import soxr
from numpy.typing import NDArray

from companion.audio import SPEECH_RATE_HZ
from companion.hearing.stream import Captured

_HEAD_START_SECONDS = 0.05
"""Sound is handed to the loudspeaker at least so long before the microphone hears it, whatever the two devices' callbacks do."""
_OUT_OF_STEP_SECONDS = 0.4
"""Further apart, one stream has lost sound, and they are put side by side anew."""
_KEPT_SECONDS = 14.0
"""More than the microphone's queue holds."""


class PlaybackReference:
    """Collects what is played on the loudspeaker's thread, and gives it out on the microphone's reader's."""

    def __init__(self) -> None:
        """Begin with nothing played."""
        self._blocks: deque[tuple[NDArray[np.float32], int, float]] = deque(maxlen=1000)
        self._rate_hz = 0
        self._samples: NDArray[np.float32] = np.zeros(0, np.float32)
        self._end_at: float | None = None
        self._position = 0

    def took(self, block: NDArray[np.float32], rate_hz: int) -> None:
        """Take a block that was just handed to the loudspeaker; never waits."""
        self._blocks.append((block, rate_hz, time.monotonic()))

    def beside(self, captured: Captured) -> NDArray[np.float32]:
        """Return what was played beside these samples, the same shape; silence where nothing is known."""
        self._collect()
        count = len(captured.samples)
        if self._end_at is None:
            return np.zeros(count, np.float32)
        behind = round((self._end_at - captured.at + _HEAD_START_SECONDS) * SPEECH_RATE_HZ)
        wanted = len(self._samples) - behind - count
        if abs(wanted - self._position) > _OUT_OF_STEP_SECONDS * SPEECH_RATE_HZ:
            self._position = wanted
        # Nothing can have been heard that has not been handed over yet; a loudspeaker that takes its blocks in bursts looks as if.
        start = min(self._position, len(self._samples) - count)
        self._position = start + count
        piece = self._samples[max(0, start) : max(0, start + count)]
        return np.pad(piece, (count - len(piece), 0))

    def _collect(self) -> None:
        """Bring the blocks that have come to 16 kHz, and forget what is long past."""
        new = []
        while self._blocks:
            block, rate_hz, at = self._blocks.popleft()
            if rate_hz != self._rate_hz:
                self._rate_hz = rate_hz
                self._resampler = soxr.ResampleStream(rate_hz, SPEECH_RATE_HZ, 1, dtype="float32")
            new.append(self._resampler.resample_chunk(block))
            self._end_at = at
        self._samples = np.concatenate([self._samples, *new])
        surplus = len(self._samples) - round(_KEPT_SECONDS * SPEECH_RATE_HZ)
        if surplus > 0:
            self._samples = self._samples[surplus:]
            self._position -= surplus
