"""A microphone: opened at the device's own rate, copied into a bounded queue, resampled once on the way out."""

from __future__ import annotations

import queue
import time
from collections.abc import Callable
from types import TracebackType
from typing import Any, Self

import numpy as np
import soxr

from companion import devices
from companion.audio import SPEECH_RATE_HZ
from companion.devices import MICROPHONE
from companion.errors import MissingPart
from companion.hearing.stream import Captured
from companion.hearing.vad import FloatArray

BLOCK_SECONDS = 0.032
LATENCY_SECONDS = 0.08
"""Asked of the device."""
QUEUE_SECONDS = 12.0
"""More than the longest decision takes; what comes after is dropped and counted."""
DEAD_SECONDS = 2.0
"""A device that gives no block for so long is gone."""
OTHER_RATES_HZ = (48_000, 44_100, 32_000, 16_000)
"""Tried in turn where a device refuses the rate it calls its own."""


class Microphone:
    """An open microphone. ``read`` belongs to one thread; the device fills the queue from its own."""

    def __init__(self, wanted: str | None = None, tap: Callable[[FloatArray, int, float], None] | None = None) -> None:
        """Open the microphone whose name holds ``wanted`` (any case), else the system's default.

        ``tap`` takes each block, shape (n, channels), with its rate and when it came, on the device's thread; it must not wait.

        Raises MissingPart, with the remedy or the choices, when PortAudio or the microphone is missing or refuses.
        """
        self.overflows = 0
        """How often sound was lost: the device ran over, or we came too late for the queue."""
        self._device = devices.find(MICROPHONE, wanted)
        self._queue: queue.Queue[tuple[FloatArray, float]] = queue.Queue(round(QUEUE_SECONDS / BLOCK_SECONDS))
        self._closing = self._ended = False
        self._tap = tap
        self._last_at = time.monotonic()
        self.rate_hz = self._device.rate_hz
        self._stream = devices.opened(self._opened)
        self._resampler = soxr.ResampleStream(self.rate_hz, SPEECH_RATE_HZ, 1, dtype="float32")

    def _opened(self) -> Any:
        """Return a started stream, at the first rate that the device takes."""
        sounddevice = devices.sounddevice()
        complaint: Exception | None = None
        for rate_hz in dict.fromkeys((self._device.rate_hz, *OTHER_RATES_HZ)):
            for channels in dict.fromkeys((1, min(2, self._device.channels))):
                settings = {"device": self._device.index, "channels": channels, "samplerate": rate_hz, "dtype": "float32"}
                self.rate_hz = rate_hz
                try:
                    sounddevice.check_input_settings(**settings)
                    stream = sounddevice.InputStream(
                        **settings,
                        blocksize=round(BLOCK_SECONDS * rate_hz),
                        latency=LATENCY_SECONDS,
                        callback=self._take,
                        finished_callback=self._finished,
                    )
                    stream.start()
                except (sounddevice.PortAudioError, ValueError) as error:
                    complaint = error
                else:
                    return stream
        message = f"the microphone {self._device.name!r} can't be opened ({complaint}); choose another: {devices.names(MICROPHONE)}"
        raise MissingPart(message) from complaint

    @property
    def name(self) -> str:
        """What the system calls it."""
        return self._device.name

    @property
    def lost(self) -> bool:
        """Whether it went away: the device ended the stream, or has given nothing for DEAD_SECONDS."""
        return self._queue.empty() and (self._ended or time.monotonic() - self._last_at > DEAD_SECONDS)

    def read(self, wait_seconds: float) -> Captured | None:
        """Return what has been heard next, or None when nothing comes within ``wait_seconds``."""
        try:
            block, at = self._queue.get(timeout=wait_seconds)
        except queue.Empty:
            return None
        samples = np.nan_to_num(self._resampler.resample_chunk(block.mean(axis=1, dtype=np.float32)))
        # A resampler has nothing to give before its filter is filled.
        return Captured(np.asarray(samples, np.float32), at) if len(samples) else None

    def close(self) -> None:
        """Give the device back."""
        self._closing = True
        devices.let_go(self._stream)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self.close()

    def _take(self, indata: FloatArray, frames: int, when: Any, status: Any) -> None:
        """Copy a block into the queue: called on PortAudio's own thread, which must never wait."""
        self._last_at = time.monotonic()
        if status.input_overflow:
            self.overflows += 1
        block = indata.copy()
        if self._tap is not None:
            self._tap(block, self.rate_hz, self._last_at)
        try:
            self._queue.put_nowait((block, self._last_at))
        except queue.Full:
            self.overflows += 1

    def _finished(self) -> None:
        self._ended = not self._closing
