"""What a diagnosis answers: every mistake that may have been made with its probability, and the same by cause.

A conversation goes on from here (``belief``): each answer multiplies its likelihood into what it tells of.

Values are told minus true. For the tube at the start the mount is "told" azimuth 0 and altitude 0: the value is minus where it was.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from companion.diagnosis.causes import HABITS, HOUR_MEMBERS, SAME_TURN, Cause

_LIKELY = 0.03  # below this a cause is no rival worth naming
_INSEPARABLE = 0.01  # nor below this one that no further star can separate
_AS_WELL = 1.0  # difference of log likelihood that decides nothing
_POSSIBLE = 0.01  # members less likely than this are left out

Value = float | str | None


@dataclass(frozen=True)
class Hypothesis:
    """One mistake of one size."""

    cause: Cause
    member: str
    """The variety of the cause, or an empty text."""
    value: Value
    """Told minus true: degrees, hours (``hour``), days (``date_…``); ``site``: degrees away; ``base_tilt``: degrees; ``wrong_star``: the
    star really centred."""
    cell: Value
    """What is one and the same value before it is refined by the misses."""
    star: str | None
    """For ``wrong_star``: the star it was taken for."""
    log_fit: float
    """Log likelihood of the evidence that has degrees."""
    believes_down: bool = False
    """Whether the mount takes the last star to be below the horizon."""
    believes_elsewhere: bool = False
    """Whether it takes the last star to be elsewhere in the sky than it is."""
    steered_far: str | None = None
    """The first star, if it was steered to freely from more than a fist off."""


@dataclass(frozen=True)
class CauseFound:
    """One cause, as likely as what was seen makes it."""

    cause: Cause
    probability: float
    """0..1; over all causes they sum to 1."""
    value: Value
    """Of the likeliest variety, as in ``Hypothesis``."""
    members: tuple[str, ...]
    """The cause's varieties that are possible, likeliest first; of ``base_tilt`` the compass points the base leans to."""
    member_probabilities: tuple[float, ...]
    """Of each member, given the cause; they sum to 1 where there are members."""
    member_values: tuple[Value, ...]
    """The value if it is that member; ``value`` is the first of them where there are members."""
    fits_as_well: tuple[Cause, ...]
    """Other likely causes whose best guess explains these misses as well as this one's: only habit decides between them so far."""
    same_turn: tuple[Cause, ...]
    """Other likely causes that turn the sky about the same line: no further star will ever separate them but by their size."""
    star: str | None
    """For ``wrong_star``: the star it was taken for."""


@dataclass(frozen=True)
class Diagnosis:
    """Every hypothesis with its probability."""

    hypotheses: tuple[Hypothesis, ...]
    probabilities: tuple[float, ...]
    """One for each hypothesis; they sum to 1."""

    def weighed(self, likelihood: Callable[[Hypothesis], float]) -> Diagnosis:
        """Return the diagnosis after an answer that is so likely under each hypothesis; one that none allows changes nothing."""
        weighed = [p * likelihood(h) if p else 0.0 for h, p in zip(self.hypotheses, self.probabilities, strict=True)]
        total = sum(weighed)
        return Diagnosis(self.hypotheses, tuple(p / total for p in weighed)) if total > 0.0 else self

    @cached_property
    def causes(self) -> tuple[CauseFound, ...]:
        """All causes, likeliest first."""
        rows: dict[Cause, list[int]] = {cause: [] for cause in HABITS}
        for i, hypothesis in enumerate(self.hypotheses):
            rows[hypothesis.cause].append(i)
        share = {cause: sum(self.probabilities[i] for i in inside) for cause, inside in rows.items()}
        order = sorted(rows, key=lambda cause: -share[cause])
        fit = {cause: self._fit(inside) for cause, inside in rows.items()}
        likely = [cause for cause in order if share[cause] >= _LIKELY]
        found = []
        for cause in order:
            members = self._members(cause, rows[cause])
            values = [self._value([i for i in rows[cause] if self.hypotheses[i].member == member]) for member, _ in members]
            value, star = values[0] if values else self._value(rows[cause])
            rivals = [rival for rival in likely if rival != cause]
            found.append(
                CauseFound(
                    cause=cause,
                    probability=share[cause],
                    value=value,
                    members=tuple(member for member, _ in members),
                    member_probabilities=tuple(part for _, part in members),
                    member_values=tuple(value for value, _ in values),
                    fits_as_well=tuple(rival for rival in rivals if abs(fit[rival] - fit[cause]) < _AS_WELL),
                    same_turn=tuple(rival for rival in order if share[rival] >= _INSEPARABLE and _same_turn(rival, cause)),
                    star=star,
                )
            )
        return tuple(found)

    def _fit(self, rows: list[int]) -> float:
        """Return how well the likeliest of some hypotheses fits."""
        best = max(rows, key=lambda i: self.probabilities[i], default=-1)
        return self.hypotheses[best].log_fit if best >= 0 and self.probabilities[best] > 0.0 else -float("inf")

    def _members(self, cause: Cause, rows: list[int]) -> list[tuple[str, float]]:
        """Return the possible varieties of a cause with their shares, likeliest first."""
        shares: dict[str, float] = dict.fromkeys(HOUR_MEMBERS, 0.0) if cause == "hour" else {}
        for i in rows:
            member = self.hypotheses[i].member
            if member:
                shares[member] = shares.get(member, 0.0) + self.probabilities[i]
        total = sum(shares.values())
        if total <= 0.0:
            return [(member, 1.0 / len(shares)) for member in shares]
        kept = {member: share for member, share in shares.items() if share >= _POSSIBLE * total}
        return [(member, share / sum(kept.values())) for member, share in sorted(kept.items(), key=lambda item: -item[1])]

    def _value(self, rows: list[int]) -> tuple[Value, str | None]:
        """Return the likeliest value among some hypotheses, and for a wrong star the one it was taken for."""
        shares: dict[tuple[Value, str | None], float] = {}
        for i in rows:
            key = self.hypotheses[i].cell, self.hypotheses[i].star
            shares[key] = shares.get(key, 0.0) + self.probabilities[i]
        if not shares:
            return None, None
        cell, star = max(shares, key=lambda key: shares[key])
        inside = (i for i in rows if (self.hypotheses[i].cell, self.hypotheses[i].star) == (cell, star))
        return self.hypotheses[max(inside, key=lambda i: self.probabilities[i])].value, star


def _same_turn(one: Cause, other: Cause) -> bool:
    """Return whether two causes turn the sky about the same line."""
    return one != other and any({one, other} <= turn for turn in SAME_TURN)
