"""An utterance made ready for the model: rate, level, a margin of faint noise, and whether there is anything to hear at all."""

from __future__ import annotations

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.whisper.features import FloatArray

WINDOW_SECONDS = 5.0
"""Shorter utterances are filled up to this with zeros: the model hears best with some silence after the words."""
LONGEST_SECONDS = 30.0
"""What the model was trained on; more is cut off."""
_LEAD_SECONDS, _TAIL_SECONDS = 0.6, 0.5
"""What is heard around the words: the model mishears clips cut close, and is used to rooms, not to zeros. Chosen on synthesised digits."""
_MARGIN_LEVEL = 1e-3
"""Faint noise, and on top of it more of the utterance's own: a room that begins with the first word and ends with the last misleads."""
_WINDOW, _HOP = 512, 128
_QUIET_SHARE = 0.2
"""The utterance's own noise is what its quietest fifth has on average."""
_SILENCE_RMS = 10 ** (-60 / 20)
"""An utterance whose loudest 30 ms stay below -60 dB of full scale is silence."""
_FRAME = 480
_NEARLY = 10 ** (-10 / 10)
"""What is within 10 dB of the loudest 30 ms is loud."""


def prepare(audio: Audio) -> FloatArray:
    """Return 16 kHz samples, shape (n,), for ``features.log_mel``: without offset, with margins, 5 to 30 s long."""
    speech = _centred(audio)[: int((LONGEST_SECONDS - _LEAD_SECONDS - _TAIL_SECONDS) * SPEECH_RATE_HZ)]
    lead, tail = int(_LEAD_SECONDS * SPEECH_RATE_HZ), int(_TAIL_SECONDS * SPEECH_RATE_HZ)
    random = np.random.default_rng(0)
    noise = _own_noise(speech, lead + tail, random) + random.normal(0.0, _MARGIN_LEVEL, lead + tail).astype(np.float32)
    samples = np.concatenate([noise[:lead], speech, noise[lead:]])
    length = max(int(WINDOW_SECONDS * SPEECH_RATE_HZ), -(-len(samples) // 320) * 320)
    return np.pad(samples, (0, length - len(samples)))


def _own_noise(speech: FloatArray, count: int, random: np.random.Generator) -> FloatArray:
    """Return noise with the spectrum of an utterance's quietest parts, shape (count,); none for what is too short to have any."""
    if len(speech) < 4 * _WINDOW:
        return np.zeros(count, np.float32)
    window = np.hanning(_WINDOW)
    powers = np.abs(np.fft.rfft(np.lib.stride_tricks.sliding_window_view(speech, _WINDOW)[::_HOP] * window, axis=1)) ** 2
    quietest = np.argsort(powers.sum(axis=1))[: max(4, int(_QUIET_SHARE * len(powers)))]
    density = powers[quietest].mean(axis=0) / (window**2).sum()
    white = np.fft.rfft(random.normal(size=count))
    places = np.linspace(0.0, 1.0, len(white))
    shaped = np.fft.irfft(white * np.sqrt(np.interp(places, np.linspace(0.0, 1.0, len(density)), density)), count)
    return np.asarray(shaped, np.float32)


def is_silent(audio: Audio) -> bool:
    """Tell whether nothing in it is loud enough to be speech."""
    samples = _centred(audio)
    if len(samples) == 0:
        return True
    padded = np.pad(samples, (0, -len(samples) % _FRAME))
    return bool(np.sqrt((padded.reshape(-1, _FRAME) ** 2).mean(axis=1)).max() < _SILENCE_RMS)


def loud_seconds(audio: Audio) -> float:
    """Return for how long a sound is nearly as loud as at its loudest: the 30 ms within 10 dB of that, added up."""
    samples = _centred(audio)
    powers = (np.pad(samples, (0, -len(samples) % _FRAME)).reshape(-1, _FRAME) ** 2).mean(axis=1)
    return float(np.count_nonzero(powers >= powers.max(initial=0.0) * _NEARLY)) * _FRAME / SPEECH_RATE_HZ


def _centred(audio: Audio) -> FloatArray:
    samples = audio.at_rate(SPEECH_RATE_HZ).samples if len(audio.samples) else audio.samples
    if len(samples) == 0:
        return np.zeros(0, np.float32)
    return np.asarray(samples - samples.mean(), dtype=np.float32)
