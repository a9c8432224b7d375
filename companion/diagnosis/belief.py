"""What a conversation weighs: the hypotheses of a diagnosis, those that no answer could tell apart taken together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal, NamedTuple

from companion.diagnosis.causes import Cause
from companion.diagnosis.findings import Diagnosis, Hypothesis

CompassPoint = Literal["north", "east", "south", "west"]
_POINTS: tuple[CompassPoint, ...] = ("north", "east", "south", "west")
_LITTLE_OFF_DEG, _FAR_OFF_DEG = 4.0, 12.0
"""Below this a compass held by hand shows nothing wrong with north; from this on it surely does. Between: judgement."""


class Suspect(NamedTuple):
    """Mistakes that every question treats alike."""

    cause: Cause
    member: str
    faced: CompassPoint = "north"
    """Which way the tube faced at the start, to the nearest of four."""
    star: str | None = None
    """For ``wrong_star``: the star another was taken for."""
    instead: str | None = None
    """And that other."""
    believes_down: bool = False
    """Whether the mount takes the last star to be below the horizon."""
    believes_elsewhere: bool = False
    """Whether it takes the last star to be elsewhere in the sky than it is."""
    north_off: Literal["", "a_little", "far"] = ""
    """Whether a compass would show over the mark for north that the tube faced another way."""
    steered_far: str | None = None
    """The first star, if it was steered to freely from more than a fist off."""


@dataclass(frozen=True)
class Belief:
    """Every suspect with its probability."""

    suspects: tuple[Suspect, ...]
    probabilities: tuple[float, ...]
    """One for each suspect; they sum to 1."""

    @classmethod
    def of(cls, diagnosis: Diagnosis) -> Belief:
        """Return what the geometry alone makes of it."""
        shares: dict[Suspect, float] = {}
        for hypothesis, p in zip(diagnosis.hypotheses, diagnosis.probabilities, strict=True):
            suspect = _suspect(hypothesis)
            shares[suspect] = shares.get(suspect, 0.0) + p
        kept = {suspect: p for suspect, p in shares.items() if p > 0.0}
        return cls(tuple(kept), tuple(kept.values()))

    def weighed(self, likelihood: Callable[[Suspect], float]) -> Belief:
        """Return it after something that is so likely under each suspect; what none allows changes nothing."""
        weighed = [p * likelihood(suspect) for suspect, p in zip(self.suspects, self.probabilities, strict=True)]
        total = sum(weighed)
        return replace(self, probabilities=tuple(p / total for p in weighed)) if total > 0.0 else self

    def without(self, cause: Cause) -> Belief:
        """Return it where one cause is known not to be it."""
        return self.weighed(lambda suspect: 1e-9 if suspect.cause == cause else 1.0)

    @cached_property
    def causes(self) -> dict[Cause, float]:
        """The probability of each cause, likeliest first."""
        shares: dict[Cause, float] = {}
        for suspect, p in zip(self.suspects, self.probabilities, strict=True):
            shares[suspect.cause] = shares.get(suspect.cause, 0.0) + p
        return dict(sorted(shares.items(), key=lambda item: -item[1]))

    @property
    def star_confused(self) -> str | None:
        """The star that another was most likely taken for; None where no other can have been."""
        shares: dict[str, float] = {}
        for suspect, p in zip(self.suspects, self.probabilities, strict=True):
            if suspect.star is not None:
                shares[suspect.star] = shares.get(suspect.star, 0.0) + p
        return max(shares, key=lambda star: shares[star], default=None)

    @property
    def leading(self) -> Cause:
        """The likeliest cause."""
        return next(iter(self.causes))


def _suspect(hypothesis: Hypothesis) -> Suspect:
    """Return what a hypothesis is to a question."""
    value, cause = hypothesis.value, hypothesis.cause
    turned = cause in ("start_azimuth", "magnetic_declination", "reversed") and isinstance(value, float)
    faced = _POINTS[round(-float(value) / 90.0) % 4] if turned and isinstance(value, float) else "north"
    instead = value if cause == "wrong_star" and isinstance(value, str) else None
    member = hypothesis.member if cause != "base_tilt" else ""  # no question tells one side of a lean from another
    off_deg = abs(float(value)) if turned and isinstance(value, float) else 0.0
    north_off: Literal["", "a_little", "far"] = "far" if off_deg > _FAR_OFF_DEG else "a_little" if off_deg > _LITTLE_OFF_DEG else ""
    seen = hypothesis.believes_down, hypothesis.believes_elsewhere, north_off, hypothesis.steered_far
    return Suspect(cause, member, faced, hypothesis.star, instead, *seen)
