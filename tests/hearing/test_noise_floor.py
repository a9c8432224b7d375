"""What the place sounds like: clips of it, how loud it is, and how far speech stands out."""

from __future__ import annotations

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.noise_floor import NoiseFloor, level_db


def test_the_place_is_what_is_heard_between() -> None:
    """Two seconds of quiet make a clip; voice, and half a second after it, make none; only a louder or quieter place is news again."""
    place, hiss = NoiseFloor(), np.random.default_rng(0)
    second = [(0.01 * hiss.standard_normal(SPEECH_RATE_HZ)).astype(np.float32) for _ in range(6)]
    assert place.level_db is None
    place.feed(second[0], voice=False)
    place.feed(second[1], voice=True)
    place.feed(second[2], voice=False)
    assert place.changed_clips() == []
    for sound in second[3:]:
        place.feed(sound, voice=False)
    (clip,) = place.changed_clips()
    assert clip.seconds == pytest.approx(2.0, abs=0.1)
    assert place.changed_clips() == []
    assert place.level_db == pytest.approx(-40.0, abs=0.2)  # RMS 0.01 of full scale
    for sound in second[2:4]:
        place.feed(sound, voice=False)
    assert place.changed_clips() == []
    for sound in second[2:6]:
        place.feed(sound * 2, voice=False)
    assert len(place.changed_clips()) == 4


def test_speech_to_noise_ratio_of_an_utterance() -> None:
    """A tone twice as strong as the noise (6 dB) is found to be that, a moment as strong as the noise is nothing."""
    place, rng = NoiseFloor(), np.random.default_rng(1)
    noise = (0.01 * rng.standard_normal(8 * SPEECH_RATE_HZ)).astype(np.float32)
    assert place.speech_to_noise_db(Audio(noise, SPEECH_RATE_HZ)) is None
    place.feed(noise, voice=False)
    tone = 0.02 * np.sqrt(2) * np.sin(2 * np.pi * 440 * np.arange(SPEECH_RATE_HZ) / SPEECH_RATE_HZ)
    said = Audio((noise[:SPEECH_RATE_HZ] + tone).astype(np.float32), SPEECH_RATE_HZ)
    assert place.speech_to_noise_db(said) == pytest.approx(20 * np.log10(2), abs=0.5)
    assert place.speech_to_noise_db(Audio(noise[: SPEECH_RATE_HZ // 2], SPEECH_RATE_HZ)) < -10
    assert level_db(np.zeros(100, np.float32)) == pytest.approx(-100.0)
