"""The noise of a kitchen, synthesised: a refrigerator, an extractor hood, water that runs, dishes. No recording is in it."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from companion.audio import SPEECH_RATE_HZ

FloatArray = NDArray[np.float32]
Samples = NDArray[np.float64]

_MAINS_HZ = 50.0
_DISHES_A_SECOND = 1.5
_RUNS_SECONDS = 4.0
"""Water runs and stops about so often."""


def kitchen(count: int, random: np.random.Generator) -> FloatArray:
    """Return so many samples, 16 kHz, of RMS 1. The levels of its parts are judgement: the hood and water loudest, dishes on top."""
    noise = 0.5 * _refrigerator(count, random) + 0.7 * _hood(count, random) + 0.7 * _water(count, random) + _dishes(count, random)
    return np.asarray(noise / np.sqrt(np.mean(noise**2)), dtype=np.float32)


def _refrigerator(count: int, random: np.random.Generator) -> Samples:
    """Hum: overtones of the mains, each half as strong as the one before."""
    time_s = np.arange(count) / SPEECH_RATE_HZ
    hum = sum(0.5**k * np.sin(2 * np.pi * _MAINS_HZ * (k + 1) * time_s + random.uniform(0, 6.3)) for k in range(8))
    return _unit(np.asarray(hum))


def _hood(count: int, random: np.random.Generator) -> Samples:
    """Blow as a fan does: air that falls off above 400 Hz, beaten by its blades."""
    blades_hz = random.uniform(20, 40)
    beat = 1 + 0.2 * np.sin(2 * np.pi * blades_hz * np.arange(count) / SPEECH_RATE_HZ)
    return _unit(_shaped(count, random, lambda hertz: 1 / (1 + hertz / 400)) * beat)


def _water(count: int, random: np.random.Generator) -> Samples:
    """Run: hiss between 700 Hz and 5 kHz that comes and goes and wavers."""
    hiss = _shaped(count, random, lambda hertz: np.where((hertz > 700) & (hertz < 5000), 1.0, 0.1))
    knots = max(2, round(count / SPEECH_RATE_HZ / _RUNS_SECONDS) + 2)
    runs = np.interp(np.arange(count), np.linspace(0, count, knots), random.choice([0.1, 1.0], knots))
    return _unit(hiss * runs)


def _dishes(count: int, random: np.random.Generator) -> Samples:
    """Clatter as plates and spoons do: three damped tones of 1 to 6 kHz each, a twentieth of a second long."""
    sound = np.zeros(count)
    length = min(count, SPEECH_RATE_HZ // 8)
    time_s = np.arange(length) / SPEECH_RATE_HZ
    for at in random.integers(0, count - length + 1, random.poisson(_DISHES_A_SECOND * count / SPEECH_RATE_HZ)):
        ring = sum(np.sin(2 * np.pi * random.uniform(1000, 6000) * time_s) for _ in range(3))
        sound[at : at + length] += random.exponential() * np.exp(-40 * time_s) * ring
    return sound


def _shaped(count: int, random: np.random.Generator, gain: Callable[[Samples], Samples]) -> Samples:
    spectrum = np.fft.rfft(random.standard_normal(count)) * gain(np.asarray(np.fft.rfftfreq(count, 1 / SPEECH_RATE_HZ), np.float64))
    return np.asarray(np.fft.irfft(spectrum, count), np.float64)


def _unit(sound: Samples) -> Samples:
    return np.asarray(sound / (np.sqrt(np.mean(sound**2)) + 1e-12))
