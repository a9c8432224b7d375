"""Steady noise taken out of an utterance: what hums and hisses on is weaker afterwards, and so is a little of the voice."""

from __future__ import annotations

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.whisper.features import FloatArray

_WINDOW, _HOP = 512, 128
_QUIET_SHARE = 0.2
"""The noise is what the quietest fifth of the utterance has on average: its edges, and the gaps between words."""
_LEAST_GAIN = 10 ** (-12 / 20)
"""Nothing is taken down further: what is left of the noise hides the musical tones of the rest."""
_MEMORY = 0.92
"""How much of the last moment's ratio of voice to noise goes into the next, after Ephraim and Malah."""
_SILENT = 1e-12


def reduce_noise(audio: Audio) -> Audio:
    """Return an utterance at 16 kHz with Wiener's gain on each band and moment.

    The ratio of voice to noise is estimated as decided a moment before (Ephraim and Malah 1984, equation 51).
    """
    samples = np.asarray(audio.at_rate(SPEECH_RATE_HZ).samples, np.float32)
    padded = np.pad(samples, (_WINDOW, _WINDOW + -len(samples) % _HOP))
    window = np.sqrt(np.hanning(_WINDOW + 1)[:-1]).astype(np.float32)
    spectra = np.fft.rfft(np.lib.stride_tricks.sliding_window_view(padded, _WINDOW)[::_HOP] * window, axis=1)
    frames = np.fft.irfft(spectra * _gains(np.abs(spectra) ** 2), _WINDOW, axis=1) * window
    clean = np.zeros(len(padded))
    for place, frame in enumerate(frames):
        clean[place * _HOP : place * _HOP + _WINDOW] += frame
    overlap = _WINDOW / _HOP / 2
    return Audio((clean[_WINDOW : _WINDOW + len(samples)] / overlap).astype(np.float32), SPEECH_RATE_HZ)


def _gains(powers: FloatArray) -> FloatArray:
    """Return a gain for each moment and band, of their powers, shape (moments, bands)."""
    noise = _noise(powers)
    gains = np.empty_like(powers)
    last = np.maximum(powers[0] / noise - 1, 0)
    for gain, power in zip(gains, powers, strict=True):
        ratio = power / noise
        voice = _MEMORY * last + (1 - _MEMORY) * np.maximum(ratio - 1, 0)
        gain[:] = np.maximum(voice / (1 + voice), _LEAST_GAIN)
        last = gain**2 * ratio
    return gains


def _noise(powers: FloatArray) -> FloatArray:
    """Return the noise's power in each band, shape (bands,), a little smoothed."""
    whole = powers[_WINDOW // _HOP : -_WINDOW // _HOP] if len(powers) > 3 * _WINDOW // _HOP else powers
    quietest = np.argsort(whole.sum(axis=1))[: max(4, int(_QUIET_SHARE * len(whole)))]
    mean = np.pad(whole[quietest].mean(axis=0), 2, mode="edge")
    return np.asarray(np.convolve(mean, np.full(5, 0.2), "valid") + _SILENT)
