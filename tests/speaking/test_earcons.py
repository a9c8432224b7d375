"""The three small sounds."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from companion.audio import Audio
from companion.speaking.earcons import HEARD, LISTENING, NOT_UNDERSTOOD

ALL = {"listening": LISTENING, "heard": HEARD, "not understood": NOT_UNDERSTOOD}


def pitch_hz(samples: np.ndarray, rate_hz: int) -> float:
    """Return the strongest frequency."""
    spectrum = np.abs(np.fft.rfft(samples, 1 << 16))
    return float(spectrum.argmax() * rate_hz / (1 << 16))


def glide_hz(sound: Audio) -> float:
    """Return how far the pitch rises from the first third to the last."""
    third = len(sound.samples) // 3
    return pitch_hz(sound.samples[-third:], sound.rate_hz) - pitch_hz(sound.samples[:third], sound.rate_hz)


@pytest.mark.parametrize("sound", ALL.values(), ids=ALL)
def test_short_and_soft(sound: Audio) -> None:
    """None is longer than a quarter of a second, loud, or begins or ends with a click."""
    assert 0.1 <= sound.seconds <= 0.25
    assert 0.1 < np.abs(sound.samples).max() <= 0.2
    assert abs(sound.samples[0]) < 0.001
    assert abs(sound.samples[-1]) < 0.001
    assert np.abs(np.diff(sound.samples)).max() < 0.06  # a full swing of 0.2 at 1 kHz moves 0.05 a sample


def test_directions() -> None:
    """Listening and heard go up, not understood goes down."""
    assert glide_hz(LISTENING) > 80
    assert glide_hz(HEARD) > 150
    assert glide_hz(NOT_UNDERSTOOD) < -60


def test_told_apart() -> None:
    """No two share more than half of their spectrum: the correlation of magnitudes stays under 0.5."""
    spectra = {name: np.abs(np.fft.rfft(sound.samples, 1 << 13)) for name, sound in ALL.items()}
    for one, other in combinations(ALL, 2):
        alike = np.dot(spectra[one], spectra[other]) / np.linalg.norm(spectra[one]) / np.linalg.norm(spectra[other])
        assert alike < 0.5, (one, other)
