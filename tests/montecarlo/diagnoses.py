"""How often the diagnosis names the cause, beside an ideal observer: by cause, by first-named cause, and how far it can be trusted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from companion.diagnosis.causes import SAME_TURN
from companion.diagnosis.diagnose import diagnose
from companion.documents.diagnose_request import read_diagnose_request

from .evening import Telling, document_of, draw_evening
from .ideal import IdealObserver
from .mistakes import CAUSES, FREQUENCY

EACH = 4
"""Trials of each cause on one evening: the ideal observer has to learn every evening anew."""

TELLINGS = (
    Telling(1, "measured"),
    Telling(1, "eye"),
    Telling(1, "body"),
    Telling(2, "measured"),
    Telling(2, "eye"),
    Telling(2, "measured", first_centred=True),
    Telling(2, "eye", first_centred=True),
    Telling(3, "eye"),
    Telling(2, "measured", south=True),
    Telling(2, "eye", south=True),
)


@dataclass(frozen=True)
class Trial:
    """A made-up evening: what went wrong, the document for ``diagnose``, and what an ideal observer makes of it."""

    cause: str
    member: str
    document: Mapping[str, Any]
    ideal: Mapping[str, float]


@dataclass(frozen=True)
class Outcome:
    """One trial and what was said about it."""

    truth: str
    member: str
    first: str
    probability: float
    of_truth: float
    ideal_first: str
    ideal_of_truth: float
    ideal_of_first: float
    """What the ideal observer gives the cause the diagnosis names first: how often that is right on such evenings."""
    ideal_at_best: float
    """What it gives the cause it names itself."""


def draw_trials(telling: Telling, count: int, seed: int, causes: Iterable[str] = CAUSES, draws: int = 40_000) -> Iterator[Trial]:
    """Yield so many trials of each cause; a slip needs two slews, and a centred first star hides nothing but itself."""
    rng = np.random.default_rng([seed, TELLINGS.index(telling)])
    for drawn in range(0, count, EACH):
        evening = draw_evening(rng, telling)
        ideal = IdealObserver(evening, rng, draws)
        for cause in causes:
            for _ in range(min(EACH, count - drawn) if cause != "slipped" or telling.slews > 1 else 0):
                mistakes = evening.mistakes(cause, rng, 1)
                document = document_of(evening, mistakes, rng)
                yield Trial(cause, str(mistakes.members[0]), document, ideal.posterior(document))


def judge(trials: Iterable[Trial]) -> list[Outcome]:
    """Return what the diagnosis and the ideal observer said of trials."""
    outcomes = []
    for trial in trials:
        found = diagnose(read_diagnose_request(trial.document)).causes
        of_truth = next(item.probability for item in found if item.cause == trial.cause)
        ideal_first = max(trial.ideal, key=lambda cause: trial.ideal[cause])
        outcomes.append(
            Outcome(
                truth=trial.cause,
                member=trial.member,
                first=found[0].cause,
                probability=found[0].probability,
                of_truth=of_truth,
                ideal_first=ideal_first,
                ideal_of_truth=trial.ideal[trial.cause],
                ideal_of_first=trial.ideal[found[0].cause],
                ideal_at_best=trial.ideal[ideal_first],
            )
        )
    return outcomes


def same_group(one: str, other: str) -> bool:
    """Return whether two causes are the same or turn the sky about the same line; a reversed tube is its own group."""
    if "reversed" in (one, other):
        return one == other
    return one == other or any({one, other} <= turn for turn in SAME_TURN)


def rate(outcomes: Sequence[Outcome], truth: str, member: str | None = None) -> float:
    """Return the share of a cause's trials whose first-named cause is in the right group."""
    chosen = [o for o in outcomes if o.truth == truth and member in (None, o.member)]
    return float(np.mean([same_group(o.truth, o.first) for o in chosen])) if chosen else float("nan")


def overall(outcomes: Sequence[Outcome]) -> tuple[float, float]:
    """Return how often the diagnosis and the ideal observer name the very cause, when causes come as often as they do.

    Not counted but computed: the ideal observer's posterior says how often each answer is right on evenings that look like this one,
    which needs a tenth of the trials that counting does.
    """
    weights = np.array([FREQUENCY[o.truth] for o in outcomes])
    ours, ideal = (np.array([getattr(o, name) for o in outcomes]) for name in ("ideal_of_first", "ideal_at_best"))
    return float(np.average(ours, weights=weights)), float(np.average(ideal, weights=weights))


def trusted(outcomes: Sequence[Outcome], at_least: float) -> tuple[int, float, float]:
    """Return how many first answers were given at a probability, the share of those in the right group, and strictly right."""
    chosen = [o for o in outcomes if o.probability >= at_least]
    if not chosen:
        return 0, float("nan"), float("nan")
    return len(chosen), float(np.mean([same_group(o.truth, o.first) for o in chosen])), float(np.mean([o.truth == o.first for o in chosen]))


def confident_and_wrong(outcomes: Sequence[Outcome]) -> float:
    """Return the share of all trials whose first answer was given at 0.8 or more and is in the wrong group."""
    return float(np.mean([o.probability >= 0.8 and not same_group(o.truth, o.first) for o in outcomes]))


def beside_the_ideal(outcomes: Sequence[Outcome]) -> str:
    """Return the table of how often each cause is named first by the diagnosis and by the ideal observer, and how sure both are of it."""
    lines = ["cause                  trials   ours  ideal  ours/ideal   of the truth: ours  ideal   group: ours  ideal"]
    for cause in CAUSES:
        chosen = [o for o in outcomes if o.truth == cause]
        if chosen:
            ours, ideal = (np.mean([first == cause for first in firsts]) for firsts in _firsts(chosen))
            group, ideal_group = (np.mean([same_group(cause, first) for first in firsts]) for firsts in _firsts(chosen))
            sure, ideally = np.mean([o.of_truth for o in chosen]), np.mean([o.ideal_of_truth for o in chosen])
            ratio = f"{ours / ideal:10.2f}" if ideal else "         -"
            named = f"{cause:22} {len(chosen):6d}  {ours:5.2f}  {ideal:5.2f}  {ratio}"
            lines.append(f"{named}   {sure:18.2f}  {ideally:5.2f}   {group:11.2f}  {ideal_group:5.2f}")
    ours, ideal = overall(outcomes)
    lines.append(f"{'as they come':22} {len(outcomes):6d}  {ours:5.2f}  {ideal:5.2f}  {ours / ideal:10.3f}")
    return "\n".join(lines)


def _firsts(outcomes: Sequence[Outcome]) -> tuple[list[str], list[str]]:
    """Return the first-named causes: the diagnosis's and the ideal observer's."""
    return [o.first for o in outcomes], [o.ideal_first for o in outcomes]


def confusion(outcomes: Sequence[Outcome]) -> str:
    """Return the table of first-named causes by truth, in per cent."""
    short = [cause.replace("magnetic_", "")[:9] for cause in CAUSES]
    lines = ["truth \\ first named".ljust(21) + " ".join(name.rjust(9) for name in short)]
    for truth in CAUSES:
        firsts = Counter(o.first for o in outcomes if o.truth == truth)
        if total := sum(firsts.values()):
            lines.append(truth.ljust(21) + " ".join(f"{100 * firsts[c] / total:9.0f}" if firsts[c] else "        ." for c in CAUSES))
    return "\n".join(lines)


def reliability(outcomes: Sequence[Outcome]) -> str:
    """Return the table of how often answers given at a probability are right."""
    edges = (0.0, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.01)
    lines = ["said between  answers  mean said  right  right group"]
    for low, high in pairwise(edges):
        inside = [o for o in outcomes if low <= o.probability < high]
        if inside:
            said = np.mean([o.probability for o in inside])
            right = np.mean([o.truth == o.first for o in inside])
            group = np.mean([same_group(o.truth, o.first) for o in inside])
            lines.append(f"{low:4.2f}..{min(high, 1.0):4.2f}   {len(inside):7d}  {said:9.2f}  {right:5.2f}  {group:11.2f}")
    return "\n".join(lines)
