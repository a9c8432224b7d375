"""The noise of wind on a bare microphone, synthesised. No recording is in it.

Outdoors it is mostly stagnation pressure, as large as the kinetic energy of the air would be there (Raspet and others 2006 and 2008,
as told by Lyons, Hart and Raspet, "As the Wind Blows", Acoustics Today 17(4), 2021): what is heard are quick changes of the speed times
its slow ones. Speed has von Karman's spectrum, which falls with the power 5/3 (value from memory).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from companion.audio import SPEECH_RATE_HZ

FloatArray = NDArray[np.float32]
Samples = NDArray[np.float64]

_KNEE_HZ = 0.2
"""Mean speed over the length of the largest eddies: 4 m/s over 20 m. Judgement."""
_GUST_HZ = 2.0
"""Slower changes are gusts, which make all of it louder and fainter."""
_INTENSITY = 0.3
"""Spread of the speed over its mean, near the ground among bushes (value from memory)."""
_MICROPHONE_HZ = 80.0
"""Small microphones hear little below this. Judgement."""


def wind(count: int, random: np.random.Generator) -> FloatArray:
    """Return so many samples, 16 kHz, of RMS 1 over the whole stretch: gusts are louder."""
    gust = 1 + _INTENSITY * _unit(_velocity(count, random, 0.0, _GUST_HZ))
    noise = _velocity(count, random, _MICROPHONE_HZ, SPEECH_RATE_HZ / 2) * np.maximum(gust, 0.1) ** 2
    return np.asarray(_unit(noise), np.float32)


def _velocity(count: int, random: np.random.Generator, low_hz: float, high_hz: float) -> Samples:
    """Return air's speed about its mean: the part of it between two frequencies."""
    hertz = np.fft.rfftfreq(count, 1 / SPEECH_RATE_HZ)
    power = np.where((hertz > 0) & (hertz >= low_hz) & (hertz <= high_hz), (1 + (hertz / _KNEE_HZ) ** 2) ** (-5 / 6), 0.0)
    return np.asarray(np.fft.irfft(np.fft.rfft(random.standard_normal(count)) * np.sqrt(power), count), np.float64)


def _unit(sound: Samples) -> Samples:
    return np.asarray(sound / (np.sqrt(np.mean(sound**2)) + 1e-12))
