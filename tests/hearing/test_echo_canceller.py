"""Our own voice is taken out of what the microphone hears, somebody else's is left."""

from __future__ import annotations

import numpy as np
import pytest

from companion.hearing.echo_canceller import LONGEST_DELAY, TAPS, EchoCanceller, _covariance

BLOCK = 512
RATE_HZ = 16_000


def speech_like(seconds: float, seed: int) -> np.ndarray:
    """Return noise with the spectrum and the syllables of speech."""
    rng = np.random.default_rng(seed)
    count = int(seconds * RATE_HZ)
    spectrum = np.fft.rfft(rng.standard_normal(count))
    hertz = np.fft.rfftfreq(count, 1 / RATE_HZ)
    sound = np.fft.irfft(spectrum / (1 + (hertz / 500) ** 2), count)
    syllables = np.repeat(rng.uniform(0.0, 1.0, count // 3200 + 1) > 0.3, 3200)[:count]
    return (0.1 * sound / sound.std() * syllables).astype(np.float32)


def echo(played: np.ndarray, delay: int) -> np.ndarray:
    """Return what comes back: direct and by two ways round."""
    heard = np.zeros_like(played)
    for late, strength in ((0, 0.8), (37, -0.4), (150, 0.2)):
        heard[delay + late :] += strength * played[: len(played) - delay - late]
    return heard


def cleaned(heard: np.ndarray, played: np.ndarray) -> np.ndarray:
    """Return what is left, block by block."""
    remover = EchoCanceller()
    blocks = range(0, len(heard) - BLOCK, BLOCK)
    return np.concatenate([remover.feed(heard[at : at + BLOCK], played[at : at + BLOCK]).rest for at in blocks])


def decibels(sound: np.ndarray, other: np.ndarray) -> float:
    """Return the ratio of two powers."""
    return 10 * np.log10(np.mean(sound[: len(other)].astype(float) ** 2) / np.mean(other.astype(float) ** 2))


@pytest.mark.parametrize("delay", [400, 2900, LONGEST_DELAY - TAPS])
def test_an_echo_is_removed(delay: int) -> None:
    """After two seconds at least 15 dB of it are gone, at any delay up to the longest."""
    played = speech_like(6.0, 1)
    heard = echo(played, delay) + (1e-4 * np.random.default_rng(2).standard_normal(len(played))).astype(np.float32)
    left = cleaned(heard, played)
    assert decibels(heard[2 * RATE_HZ :], left[2 * RATE_HZ :]) > 15


def test_somebody_else_is_left() -> None:
    """A voice as loud as our echo goes through: less than a third of its power is changed."""
    played, other = speech_like(8.0, 3), speech_like(8.0, 4)
    other[: 4 * RATE_HZ] = 0
    left = cleaned(echo(played, 2900) + other, played)
    spoken = slice(4 * RATE_HZ, len(left))
    assert decibels(other[spoken], left[spoken] - other[spoken]) > 5


def test_the_filter_follows_where_the_delay_cannot_be_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Once found it is kept: the echo is taken out though its way changes, as with clocks that run apart."""
    played = speech_like(6.0, 8)
    heard = echo(played, 2900) * np.where(np.arange(len(played)) < 4 * RATE_HZ, 1.0, -0.7).astype(np.float32)
    found = EchoCanceller._strongest
    told = iter(range(1000))
    chunks = 3 * RATE_HZ // 1024
    monkeypatch.setattr(EchoCanceller, "_strongest", lambda self, *two: found(self, *two) if next(told) < chunks else None)
    left = cleaned(heard, played)
    assert decibels(heard[5 * RATE_HZ : len(left)], left[5 * RATE_HZ :]) > 15


def test_without_an_echo_nothing_is_changed() -> None:
    """With a headset on, what is heard has nothing to do with what is played, and stays as it is."""
    played, other = speech_like(5.0, 5), np.roll(speech_like(5.0, 6), 1111)
    left = cleaned(other, played)
    assert np.array_equal(left, other[: len(left)])


def test_the_covariance_is_what_its_definition_says() -> None:
    """The table built row by row equals the product of the delayed signals."""
    sound = np.random.default_rng(7).standard_normal(1024 + TAPS - 1)
    delayed = np.lib.stride_tricks.sliding_window_view(sound, TAPS)[:, ::-1]
    assert np.allclose(_covariance(sound), delayed.T @ delayed)
