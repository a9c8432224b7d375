"""What is taken out of an utterance, and what is left of the voice."""

from __future__ import annotations

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.whisper.noise_reduction import reduce_noise

RANDOM = np.random.default_rng(3)


def tone(seconds: float, hertz: float = 440.0) -> np.ndarray:
    """Return a tone that comes and goes four times a second, as syllables do."""
    time_s = np.arange(round(seconds * SPEECH_RATE_HZ)) / SPEECH_RATE_HZ
    return np.asarray(0.2 * np.sin(2 * np.pi * hertz * time_s) * (np.sin(2 * np.pi * 4 * time_s) > 0), np.float32)


def edges(samples: np.ndarray) -> np.ndarray:
    """Return the sound with 0.4 s of nothing before and after."""
    return np.pad(samples, round(0.4 * SPEECH_RATE_HZ))


def test_steady_noise_is_weaker_and_the_voice_is_kept() -> None:
    """Of white noise three quarters at least go; the voice stays what it was."""
    voice = edges(tone(1.0))
    noisy = voice + RANDOM.normal(0.0, 0.05, len(voice)).astype(np.float32)
    cleaned = reduce_noise(Audio(noisy, SPEECH_RATE_HZ)).samples
    assert len(cleaned) == len(noisy)
    assert np.mean((cleaned - voice) ** 2) < 0.25 * np.mean((noisy - voice) ** 2)
    assert np.corrcoef(cleaned, voice)[0, 1] > 0.95


def test_what_has_no_noise_stays_as_it_is() -> None:
    """In silence there is nothing to take out."""
    voice = edges(tone(1.0))
    assert np.abs(reduce_noise(Audio(voice, SPEECH_RATE_HZ)).samples - voice).max() < 0.01


def test_any_length_and_rate_will_do() -> None:
    """A click is cleaned as well as a sentence."""
    for count in (0, 1, 100, 511, 4001):
        assert len(reduce_noise(Audio(np.zeros(count, np.float32), SPEECH_RATE_HZ)).samples) == count
    assert reduce_noise(Audio(tone(0.5), 2 * SPEECH_RATE_HZ)).rate_hz == SPEECH_RATE_HZ
