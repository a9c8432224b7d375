"""How likely the words are right. The library's own figure is 1.0 for noise as for speech, so the sound itself is asked as well.

``WEIGHTS`` were fitted by logistic regression to the 339 answers that were a phrase among 710 espeak-ng Korean utterances: eight
words, other words, two words joined and noise, cut close and with pauses about them, clean and with white noise, wind and voices at
15 and 9 dB. On 724 further ones, the eight words in other voices, 154 of 187 answers given 0.8 to 1 were right, 42 of 59 given 0.6
to 0.8 and 3 of 32 given less than 0.2; none of their 140 joined pairs passes ``ACCEPT``, which was chosen with them in view. Where
the library's first answer was no phrase, its further ones were right 3 times and wrong 37 times, so they are not asked for. For
other models and for people this is a first guess.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

ACCEPT = 0.5
"""Answers less likely right than this are refused."""
WEIGHTS = (-7.88, 1.57, 1.60, 5.17, 0.70)
"""Offset, and weights of the sureness, of a sureness above ``_SURE``, of the share, and of each 10 dB the words stand out."""
_SURE = 0.99

_FRAME_SECONDS = 0.01
_FLOOR_PERCENTILE = 10
"""The quietest tenth of an utterance is taken for what was there before and behind the words."""
_OVER_FLOOR = 2.0
"""Power counts from so many times the floor on."""
_MARGIN_SECONDS = 0.05
"""The library's word boundaries are that rough."""
_LOUDEST_DB = 25.0
"""Standing out more than this is no better."""


@dataclass(frozen=True)
class Evidence:
    """What speaks for an answer."""

    sureness: float
    """The library's own figure 0..1, mean over the words."""
    share: float
    """How much of what is loud in the utterance lies within the words, 0..1: low when a word was passed over, or is no word."""
    standing_out_db: float
    """How far the words stand out from the quiet parts."""

    @property
    def confidence(self) -> float:
        """Probability 0..1 that the answer is right."""
        offset, per_sureness, if_sure, per_share, per_10_db = WEIGHTS
        evidence = offset + per_sureness * self.sureness + if_sure * (self.sureness > _SURE)
        evidence += per_share * self.share + per_10_db * min(self.standing_out_db, _LOUDEST_DB) / 10
        return 1.0 / (1.0 + math.exp(-evidence))


def weigh(samples: NDArray[np.float32], rate_hz: int, begin_seconds: float, end_seconds: float, sureness: float) -> Evidence:
    """Look at an utterance, samples of shape (n,), in which the words were found from ``begin_seconds`` to ``end_seconds``."""
    powers = _powers(samples, rate_hz)
    first, last = max(0, int(begin_seconds / _FRAME_SECONDS)), max(1, math.ceil(end_seconds / _FRAME_SECONDS))
    margin = round(_MARGIN_SECONDS / _FRAME_SECONDS)
    floor = float(np.percentile(powers, _FLOOR_PERCENTILE)) + 1e-12
    loud = np.maximum(powers - _OVER_FLOOR * floor, 0.0)
    within = float(loud[max(0, first - margin) : last + margin].sum())
    words = powers[first:last]
    level = float(words.mean()) if len(words) else floor
    return Evidence(sureness, within / max(float(loud.sum()), 1e-12), 10 * math.log10(max(level, 1e-12) / floor))


def stands_out(samples: NDArray[np.float32], rate_hz: int) -> bool:
    """Tell whether anything in a sound is louder than its quiet parts: steady noise alone is nobody speaking."""
    powers = _powers(samples, rate_hz)
    return bool(np.percentile(powers, 95) > 4.0 * np.percentile(powers, _FLOOR_PERCENTILE) + 1e-12)


def _powers(samples: NDArray[np.float32], rate_hz: int) -> NDArray[np.float64]:
    """Return the mean power of each hundredth of a second; at least one."""
    frame = max(1, round(rate_hz * _FRAME_SECONDS))
    whole = np.pad(samples.astype(np.float64), (0, -len(samples) % frame or (0 if len(samples) else frame)))
    return np.asarray((whole.reshape(-1, frame) ** 2).mean(axis=1))
