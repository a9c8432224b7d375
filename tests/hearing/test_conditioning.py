"""What is put around an utterance before the model hears it."""

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.whisper.conditioning import prepare


def level_db(samples: np.ndarray) -> float:
    """Return the mean power in dB of full scale."""
    return 10 * float(np.log10(np.mean(samples.astype(np.float64) ** 2)))


@pytest.mark.parametrize("noise_level", [0.003, 0.03])
def test_the_noise_of_an_utterance_goes_on_around_it(noise_level: float) -> None:
    """The half second before and behind a word in white noise is as loud as that noise, to 2 dB."""
    random = np.random.default_rng(2)
    samples = random.normal(0.0, noise_level, SPEECH_RATE_HZ)
    samples[6_000:10_000] += 0.3 * np.sin(np.arange(4_000) * 0.2)
    prepared = prepare(Audio(samples.astype(np.float32), SPEECH_RATE_HZ))
    expected = level_db(random.normal(0.0, noise_level, SPEECH_RATE_HZ))
    assert level_db(prepared[1_000:8_000]) == pytest.approx(expected, abs=2.0)
    behind = prepared[int(0.6 * SPEECH_RATE_HZ) + SPEECH_RATE_HZ :][1_000:7_000]
    assert level_db(behind) == pytest.approx(expected, abs=2.0)


def test_around_a_quiet_word_it_is_faintly_noisy() -> None:
    """Around a word in digital silence there is the faint noise that every room has, at -60 dB, and zeros only behind that."""
    samples = np.zeros(SPEECH_RATE_HZ, np.float32)
    samples[6_000:10_000] = 0.3 * np.sin(np.arange(4_000) * 0.2)
    prepared = prepare(Audio(samples, SPEECH_RATE_HZ))
    assert level_db(prepared[1_000:8_000]) == pytest.approx(-60.0, abs=1.0)
    assert not prepared[-10_000:].any()
