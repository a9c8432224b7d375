"""From readings to the best phrase and the probability that it is right.

The weights were fitted by logistic regression on synthesised speech (espeak-ng en-us and en-us+f3, flite slt and kal, hibari),
clean and with noise, wind and babble at 15 and 9 dB, in and out of grammar. ``ACCEPT``, ``LENGTH_POWER`` and the cost of no speech
were chosen by hand with the other voices and the recorded human digits in view, so figures on those are not wholly blind.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from companion.hearing.builtin.features import FloatArray
from companion.hearing.builtin.layout import Layout
from companion.hearing.builtin.scorer import Reading

ACCEPT = 0.3
"""Answers less likely right than this are refused."""
TASTE = 0.75
"""The share of a short form's log-probability on noise that is taken off: likely texts are likely over any sound."""

_LAID_OUT = (-0.39, 3.55, 1.84, 0.0)
"""Offset, and weights of the score a token, of the closing and of the excess over noise a token, for sets scored phrase by phrase."""
_SEARCHED = (-0.87, 1.04, 0.0, 1.42)
"""The same for sets searched through."""
LENGTH_POWER = 1.3
"""Of two texts of different length found by a search, the sum of log-probabilities over this power of the length decides: by the sum
alone what may be left out at the end of a phrase would be lost."""
_FASTEST = 35.0
"""Letters a second that nobody speaks: a sound too short for a phrase is not that phrase."""
_NO_SPEECH_FREE, _NO_SPEECH_COST = 0.6, 8.0
"""From this probability of no speech on it counts against an answer, at this weight."""


@dataclass(frozen=True)
class Verdict:
    """The best phrase."""

    phrase: int
    """Its place among the phrases of the layout."""
    confidence: float
    """Probability 0..1 that it was said."""


def judge(layout: Layout, null: FloatArray, share: FloatArray, readings: Sequence[Reading], *, searched: bool = False) -> Verdict:
    """Weigh one or several readings of one utterance (at several speeds).

    ``null``, shape (forms,), is each form's log-probability on noise; ``share``, shape (forms,), how much of it is taken off the fits.
    """
    fits = np.mean([reading.fits for reading in readings], axis=0)
    scores = (fits - share * null) / layout.lengths
    form = int(np.argmax((fits - share * null) / layout.lengths**LENGTH_POWER if searched else scores))
    closing = float(np.mean([reading.closings[form] for reading in readings]))
    no_speech = float(np.mean([reading.no_speech for reading in readings]))
    excess = float((fits[form] - null[form]) / layout.lengths[form])
    offset, per_score, per_closing, per_excess = _SEARCHED if searched else _LAID_OUT
    evidence = offset + per_score * float(scores[form]) + per_closing * closing + per_excess * excess
    evidence -= _NO_SPEECH_COST * max(0.0, no_speech - _NO_SPEECH_FREE)
    return Verdict(int(layout.owners[form]), 1.0 / (1.0 + math.exp(-max(-30.0, min(30.0, evidence)))))


def is_possible(words: str, seconds: float) -> bool:
    """Tell whether a sound lasts long enough for somebody to say these words in it."""
    return len(words) <= _FASTEST * seconds
