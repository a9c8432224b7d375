"""How often the diagnosis names the cause: confusion by first-named cause, and how far its probabilities can be trusted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from companion.diagnosis.causes import SAME_TURN
from companion.diagnosis.diagnose import diagnose
from companion.documents.diagnose_request import read_diagnose_request

from .truth import CAUSES, draw_trial


@dataclass(frozen=True)
class Outcome:
    """One trial and what was said about it."""

    truth: str
    member: str
    first: str
    probability: float
    second: str
    of_truth: float


@dataclass(frozen=True)
class Cell:
    """One table: how many stars, how they were read, which hemisphere."""

    misses: int
    by_eye: bool
    south: bool


CELLS = tuple(Cell(misses, by_eye, south) for misses in (1, 2) for by_eye in (False, True) for south in (False, True))


def run_cell(cell: Cell, trials: int, seed: int, causes: Iterable[str] = CAUSES) -> list[Outcome]:
    """Return the outcomes of so many trials of each cause; a slip needs two misses."""
    outcomes = []
    for cause in causes:
        if cause == "slipped" and cell.misses < 2:
            continue
        rng = np.random.default_rng([seed, cell.misses, cell.by_eye, cell.south, CAUSES.index(cause)])
        for _ in range(trials):
            trial = draw_trial(cause, rng, south=cell.south, misses=cell.misses, by_eye=cell.by_eye)
            first, second, *_ = found = diagnose(read_diagnose_request(trial.document)).causes
            of_truth = next(item.probability for item in found if item.cause == cause)
            outcomes.append(Outcome(cause, trial.member, first.cause, first.probability, second.cause, of_truth))
    return outcomes


def same_group(one: str, other: str) -> bool:
    """Return whether two causes are the same or turn the sky about the same line; a reversed tube is its own group."""
    if "reversed" in (one, other):
        return one == other
    return one == other or any({one, other} <= turn for turn in SAME_TURN)


def rate(outcomes: list[Outcome], truth: str, member: str | None = None) -> float:
    """Return the share of a cause's trials whose first-named cause is in the right group."""
    chosen = [o for o in outcomes if o.truth == truth and member in (None, o.member)]
    return float(np.mean([same_group(o.truth, o.first) for o in chosen])) if chosen else float("nan")


def trusted(outcomes: list[Outcome], at_least: float) -> tuple[int, float, float]:
    """Return how many first answers were given at a probability, the share of those in the right group, and strictly right."""
    chosen = [o for o in outcomes if o.probability >= at_least]
    if not chosen:
        return 0, float("nan"), float("nan")
    return len(chosen), float(np.mean([same_group(o.truth, o.first) for o in chosen])), float(np.mean([o.truth == o.first for o in chosen]))


def confident_and_wrong(outcomes: list[Outcome]) -> float:
    """Return the share of all trials whose first answer was given at 0.8 or more and is in the wrong group."""
    return float(np.mean([o.probability >= 0.8 and not same_group(o.truth, o.first) for o in outcomes]))


def confusion(outcomes: list[Outcome]) -> str:
    """Return the table of first-named causes by truth, in per cent."""
    short = [cause.replace("magnetic_", "")[:9] for cause in CAUSES]
    lines = ["truth \\ first named".ljust(21) + " ".join(name.rjust(9) for name in short)]
    for truth in CAUSES:
        firsts = Counter(o.first for o in outcomes if o.truth == truth)
        if total := sum(firsts.values()):
            lines.append(truth.ljust(21) + " ".join(f"{100 * firsts[c] / total:9.0f}" if firsts[c] else "        ." for c in CAUSES))
    return "\n".join(lines)


def reliability(outcomes: list[Outcome]) -> str:
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
