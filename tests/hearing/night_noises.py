"""What a microphone hears at night when nobody speaks to it, synthesised: each function gives samples, shape (n,), at 16 kHz."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.random import Generator

from companion.audio import SPEECH_RATE_HZ as RATE_HZ
from companion.audio import Audio

SENTENCES = (
    "What time does the bus leave in the morning?",
    "I think my sister has moved to the coast.",
    "The soup needs a little more salt, if you ask me.",
    "They painted the whole kitchen yellow last summer.",
    "Nobody told us that the shop was closed on Mondays.",
    "He plays the cello in the evening, and rather well.",
    "We should have taken the other road at the bridge.",
    "My feet are cold, and I left the thermos in the car.",
    "The children were asleep before the film was over.",
    "Have you read the letter that came from the bank?",
    "She bought three kilos of apples at the market.",
    "There is a fox in the garden almost every night.",
    "I never liked the colour of that old sofa.",
    "Could somebody bring a blanket from upstairs?",
    "The neighbours are building a shed behind the hedge.",
    "It rained so hard that the cellar was under water.",
)
"""Talk that no grammar of ours knows; made up for this."""


def _shaped(count: int, rng: Generator, share: Callable[[np.ndarray], np.ndarray]) -> np.ndarray:
    """Return noise of unit power whose amplitude at each frequency goes by ``share(hertz)``."""
    spectrum = np.fft.rfft(rng.standard_normal(count)) * share(np.fft.rfftfreq(count, 1 / RATE_HZ))
    noise = np.fft.irfft(spectrum, count)
    return noise / noise.std()


def _wandering(count: int, rng: Generator, changes_a_second: float, low: float, high: float) -> np.ndarray:
    knots = int(count / RATE_HZ * changes_a_second) + 3
    return np.interp(np.arange(count), np.linspace(0, count, knots), rng.uniform(low, high, knots))


def wind(count: int, rng: Generator) -> np.ndarray:
    """Return noise that falls off above 120 Hz, in gusts of some seconds; the strongest whistle between 350 and 750 Hz."""
    gust = _wandering(count, rng, 0.5, 0.1, 1.0) ** 2
    whistle = np.sin(2 * np.pi * np.cumsum(_wandering(count, rng, 2.0, 350, 750)) / RATE_HZ)
    return gust * _shaped(count, rng, lambda hertz: 1 / (1 + (hertz / 120) ** 1.5)) + 0.1 * np.maximum(0, gust - 0.5) * whistle


def rain(count: int, rng: Generator) -> np.ndarray:
    """Return hiss above 600 Hz with sixty drops a second: damped tones of 1 to 4 kHz, 20 ms long."""
    sound = 0.3 * _shaped(count, rng, lambda hertz: np.where(hertz > 600, 1.0, 0.2))
    time_s = np.arange(int(0.02 * RATE_HZ)) / RATE_HZ
    for at in rng.integers(0, count - len(time_s), int(count / RATE_HZ * 60)):
        sound[at : at + len(time_s)] += rng.exponential() * np.exp(-300 * time_s) * np.sin(2 * np.pi * rng.uniform(1000, 4000) * time_s)
    return sound


def footsteps(count: int, rng: Generator) -> np.ndarray:
    """Return a thud of 60 to 110 Hz and a crunch of gravel every 0.5 to 0.7 s, with halts of 1 to 4 s."""
    sound = 0.01 * rng.standard_normal(count)
    length = int(0.25 * RATE_HZ)
    time_s = np.arange(length) / RATE_HZ
    at = 0
    while at + length < count:
        thud = 1.5 * np.exp(-40 * time_s) * np.sin(2 * np.pi * rng.uniform(60, 110) * time_s)
        gravel = _shaped(length, rng, lambda hertz: np.where((hertz > 800) & (hertz < 6000), 1.0, 0.05)) * np.exp(-18 * time_s)
        sound[at : at + length] += rng.uniform(0.5, 1.0) * (thud + 0.4 * gravel)
        at += int(RATE_HZ * (rng.uniform(0.5, 0.7) if rng.random() > 0.08 else rng.uniform(1, 4)))
    return sound


def motor(count: int, rng: Generator) -> np.ndarray:
    """Return a mount that turns and rests: 80 to 400 Hz up and down with 15 overtones, and the noise of gears at that beat."""
    phase = 2 * np.pi * np.cumsum(_wandering(count, rng, 0.4, 80, 400)) / RATE_HZ
    whine = np.sum([np.sin(k * phase + rng.uniform(0, 6)) / k**1.2 for k in range(1, 16)], axis=0)
    gears = 0.3 * _shaped(count, rng, lambda hertz: 1 / (1 + (hertz / 1500) ** 2)) * (1 + np.sin(phase))
    turns = np.repeat(rng.random(count // RATE_HZ + 1) > 0.3, RATE_HZ)[:count]
    return np.convolve(turns, np.ones(1600) / 1600, "same") * (whine + gears) + 0.01 * rng.standard_normal(count)


NOISES = (wind, rain, footsteps, motor)


def talk(count: int, rng: Generator, spoken: Sequence[Audio], talkers: int) -> np.ndarray:
    """Return several people at once, each with sentence after sentence and pauses up to 0.8 s, at a pitch and loudness of their own."""
    sound = np.zeros(count)
    for _ in range(talkers):
        pitch, level, at = rng.uniform(0.85, 1.2), rng.uniform(0.4, 1.0), 0
        while at < count:
            sentence = spoken[int(rng.integers(len(spoken)))]
            samples = Audio(sentence.samples, round(sentence.rate_hz * pitch)).at_rate(RATE_HZ).samples[: count - at]
            sound[at : at + len(samples)] += level * samples
            at += len(samples) + int(rng.uniform(0, 0.8) * RATE_HZ)
    return sound


def night(seconds: float, rng: Generator, spoken: Sequence[Audio], stretch_seconds: float = 20.0) -> Iterator[tuple[str, np.ndarray]]:
    """Yield named stretches of noise in turn, at -45 to -15 dB of full scale: the four kinds, two of them at once, talk of 2 to 4."""
    count = int(stretch_seconds * RATE_HZ)
    for number in range(round(seconds / stretch_seconds)):
        turn = number % 6
        if turn < len(NOISES):
            name, sound = NOISES[turn].__name__, NOISES[turn](count, rng)
        elif turn == 4:
            one, other = rng.permutation(len(NOISES))[:2]
            name, sound = "two at once", sum(noise(count, rng) for noise in (NOISES[one], NOISES[other]))
        else:
            name, sound = "talk", talk(count, rng, spoken, int(rng.integers(2, 5)))
        level = 10 ** (rng.uniform(-45, -15) / 20)
        yield name, np.clip(sound / np.sqrt(np.mean(sound**2)) * level, -1, 1).astype(np.float32)
