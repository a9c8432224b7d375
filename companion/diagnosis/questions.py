"""What to ask next about a miss: the reading of the hand control that tells the leading causes apart, and what its answer makes of them.

A reading is whether what the hand control shows agrees with what is true. Each variety of each cause would make some readings disagree;
people misread now and then, so an answer never rules a cause out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Literal, get_args

import numpy as np

from companion.diagnosis.causes import CLUE_OTHERWISE, CLUES, Cause, Clue
from companion.diagnosis.findings import Diagnosis, Hypothesis
from companion.sky.attitude import Floats

Reading = Literal["date", "time", "daylight_saving", "time_zone", "latitude", "longitude", "star_name"]
"""``star_name``: whether the star centred is the one named, checked by its brightness, colour and neighbours."""
READINGS: tuple[Reading, ...] = get_args(Reading)

MOST_QUESTIONS = 3
_ENOUGH = 0.95  # no question is worth asking about a cause this sure
_LEAST_BITS = 0.05  # nor one that tells less than this
_SEEN = 0.95  # that a wrong figure is noticed when read out; no published source
_MISREAD = 0.03  # that a right one is called wrong
_STAR_SEEN, _STAR_MISREAD = 0.75, 0.15  # a star is harder to check than a figure

# Which readings each variety of a cause would make wrong; "" stands for causes without varieties.
_SHOWS: Mapping[tuple[Cause, str], tuple[Reading, ...]] = MappingProxyType(
    {
        ("hour", "daylight_saving"): ("daylight_saving",),
        ("hour", "time_zone"): ("time_zone",),
        ("hour", "am_pm"): ("time",),
        ("hour", "clock"): ("time",),
        ("date_day", ""): ("date",),
        ("date_month", "month"): ("date",),
        ("date_month", "day_month_swapped"): ("date",),
        ("latitude", "sign"): ("latitude",),
        ("latitude", "value"): ("latitude",),
        ("longitude", "sign"): ("longitude",),
        ("longitude", "value"): ("longitude",),
        ("site", ""): ("latitude", "longitude"),
        ("wrong_star", ""): ("star_name",),
    }
)


def next_reading(diagnosis: Diagnosis) -> Reading | None:
    """Return the reading whose answer is expected to tell most (in bits) about the cause; None when no question is worth asking."""
    if len(diagnosis.asked) >= MOST_QUESTIONS or diagnosis.causes[0].probability >= _ENOUGH:
        return None
    best = max((reading for reading in READINGS if reading not in diagnosis.asked), key=lambda r: expected_bits(diagnosis, r))
    return best if expected_bits(diagnosis, best) >= _LEAST_BITS else None


def expected_bits(diagnosis: Diagnosis, reading: Reading) -> float:
    """Return the mutual information of a reading's answer and the cause, bits."""
    prior: dict[Cause, float] = {}
    agrees: dict[Cause, float] = {}
    for (cause, member), share in diagnosis.shares.items():
        prior[cause] = prior.get(cause, 0.0) + share
        agrees[cause] = agrees.get(cause, 0.0) + share * _agreement(cause, member, reading)
    p, both = np.array(list(prior.values())), np.array(list(agrees.values()))
    told = np.divide(both, p, out=np.full_like(p, 0.5), where=p > 0.0)
    return float(_bits(np.sum(both)) - np.sum(p * _bits(told)))


def settle(diagnosis: Diagnosis, reading: Reading, agrees: bool) -> Diagnosis:
    """Return the diagnosis after a reading was found to agree with the truth, or not."""

    def likelihood(hypothesis: Hypothesis) -> float:
        """Return the probability of this answer."""
        agreement = _agreement(hypothesis.cause, hypothesis.member, reading)
        return agreement if agrees else 1.0 - agreement

    return replace(diagnosis.weighed(likelihood), asked=(*diagnosis.asked, reading))


def without(diagnosis: Diagnosis, cause: Cause) -> Diagnosis:
    """Return the diagnosis where one cause is known not to be it."""
    return diagnosis.weighed(lambda hypothesis: 1e-9 if hypothesis.cause == cause else 1.0)


def weigh_clue(diagnosis: Diagnosis, clue: Clue) -> Diagnosis:
    """Return the diagnosis after the observer told something that has no degrees in it."""
    return diagnosis.weighed(lambda hypothesis: CLUES[clue].get(hypothesis.cause, CLUE_OTHERWISE))


def _agreement(cause: Cause, member: str, reading: Reading) -> float:
    """Return the probability that a reading is called right under one variety of a cause."""
    seen, misread = (_STAR_SEEN, _STAR_MISREAD) if reading == "star_name" else (_SEEN, _MISREAD)
    return 1.0 - (seen if reading in _SHOWS.get((cause, member), ()) else misread)


def _bits(probability: Floats | float) -> Floats:
    """Return the entropy, bits, of yes-or-no questions answered yes with these probabilities, shape kept."""
    p = np.clip(probability, 1e-12, 1.0 - 1e-12)
    return np.asarray(-p * np.log2(p) - (1.0 - p) * np.log2(1.0 - p))
