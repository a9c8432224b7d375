"""Sound -> log-mel spectrogram, as Whisper was trained on (Radford et al. 2022, section 2.2; filters after Slaney 1998)."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from companion.audio import SPEECH_RATE_HZ

FloatArray = NDArray[np.float32]

HOP = 160
"""Samples from one frame to the next: 10 ms."""
BANDS = 80
_WINDOW = 400
_DECADES = 8.0
"""The spectrogram's floor lies this far below its peak (powers of ten)."""


def log_mel(samples: FloatArray) -> FloatArray:
    """Return the spectrogram, shape (80, n / 160), of 16 kHz samples, shape (n,) with n a multiple of 320, at least 480."""
    padded = np.pad(samples, _WINDOW // 2, mode="reflect")
    frames = np.lib.stride_tricks.sliding_window_view(padded, _WINDOW)[::HOP][: len(samples) // HOP]
    power = np.abs(np.fft.rfft(frames * _window(), axis=1)) ** 2
    levels = np.log10(np.maximum(mel_filters() @ power.T, 1e-10))
    return np.asarray((np.maximum(levels, levels.max() - _DECADES) + 4.0) / 4.0, dtype=np.float32)


@lru_cache(maxsize=1)
def mel_filters() -> FloatArray:
    """Return triangular filters of equal area, shape (80, 201), evenly spaced on Slaney's mel scale from 0 to 8 kHz."""
    edges_hz = _mel_to_hz(np.linspace(0.0, _hz_to_mel(SPEECH_RATE_HZ / 2), BANDS + 2))
    bins_hz = np.fft.rfftfreq(_WINDOW, 1 / SPEECH_RATE_HZ)
    rising = (bins_hz - edges_hz[:-2, None]) / (edges_hz[1:-1] - edges_hz[:-2])[:, None]
    falling = (edges_hz[2:, None] - bins_hz) / (edges_hz[2:] - edges_hz[1:-1])[:, None]
    height = 2.0 / (edges_hz[2:] - edges_hz[:-2])
    return np.asarray(np.maximum(0.0, np.minimum(rising, falling)) * height[:, None], dtype=np.float32)


@lru_cache(maxsize=1)
def _window() -> FloatArray:
    return np.hanning(_WINDOW + 1)[:-1].astype(np.float32)


# Slaney's scale: linear, 200/3 Hz a mel, up to 1 kHz (15 mel); above it 27 mel are a factor of 6.4.
def _hz_to_mel(hz: float) -> float:
    return float(hz * 3 / 200 if hz < 1000 else 15 + 27 * np.log(hz / 1000) / np.log(6.4))


def _mel_to_hz(mel: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.where(mel < 15, mel * 200 / 3, 1000 * 6.4 ** ((mel - 15) / 27))
