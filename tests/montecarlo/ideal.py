"""An ideal observer: who knows how often each mistake happens, how large it is, how the mount works and how well misses are read.

By brute force: for one evening very many mistakes of every cause are drawn and run through the mount; each is then weighed by how likely
it makes what was told. Nobody who knows no more can name the cause more often.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from .evening import TURN_SIGMA_DEG, Evening, reading_sigma, run_mount, told_by_turning
from .mistakes import CAUSES, FREQUENCY


class IdealObserver:
    """Knows one evening by heart: ``draws`` exact outcomes of every cause."""

    def __init__(self, evening: Evening, rng: np.random.Generator, draws: int = 40_000) -> None:
        """Run every cause so many times; a slip needs two slews."""
        self.evening = evening
        self._outcomes = {}
        for cause in CAUSES:
            if cause == "slipped" and evening.telling.slews < 2:
                continue
            mistakes = evening.mistakes(cause, rng, draws)
            misses = run_mount(evening, mistakes, told_by_turning(evening, mistakes))
            sigma = reading_sigma(evening.telling.how, misses.right_deg, misses.up_deg)
            kept = (misses.turn_deg, misses.right_deg, misses.level, misses.up_deg, sigma)
            self._outcomes[cause] = tuple(part.astype(np.float32) for part in kept), mistakes.rotation

    def evidence(self, document: Mapping[str, Any]) -> dict[str, tuple[float, float]]:
        """Return for each cause how likely it makes a document, and how many draws that rests on (the effective sample size)."""
        found = {}
        for cause, (outcome, rotation) in self._outcomes.items():
            log = sum(self._log_density(miss, k, outcome) for k, miss in enumerate(document["misses"]) if not miss.get("centred"))
            weights = np.exp(np.asarray(log, dtype=np.float64))
            if document["corrections"] != "unknown":
                weights = weights * (rotation == (document["corrections"] == "rotation"))
            total = float(np.sum(weights))
            found[cause] = total / len(weights), total**2 / max(float(np.sum(weights**2)), 1e-300)
        return found

    def posterior(self, document: Mapping[str, Any]) -> dict[str, float]:
        """Return the probability of each cause; a cause that no draw comes near has none."""
        joint = {cause: FREQUENCY[cause] * value for cause, (value, _) in self.evidence(document).items()}
        total = sum(joint.values()) or 1.0
        return {cause: joint.get(cause, 0.0) / total for cause in CAUSES}

    def _log_density(self, miss: Mapping[str, Any], k: int, outcome: tuple[np.ndarray, ...]) -> np.ndarray:
        """Return the log density of one told miss under every draw, shape (draws,)."""
        turn, right, level, up, sigma = (part[:, k] for part in outcome)
        total = np.zeros_like(up)
        if "turn_deg" in miss:
            off = (miss["turn_deg"] - turn + 180.0) % 360.0 - 180.0
            total = total - 0.5 * (off / TURN_SIGMA_DEG) ** 2
        else:
            across = miss["right_deg"] - right
            round_trip = 360.0 * np.maximum(level, 1e-3)
            across = across - round_trip * np.round(across / round_trip)
            total = total - 0.5 * (across / sigma) ** 2 - np.log(sigma)
        if "up_deg" in miss:
            total = total - 0.5 * ((miss["up_deg"] - up) / sigma) ** 2 - np.log(sigma)
        return np.asarray(total)
