"""What a recogniser makes of recordings, counted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median
from time import perf_counter, process_time

import numpy as np

from companion.bench.recordings import Noise, Recording
from companion.bench.work import CountsWork
from companion.errors import AudioFileError
from companion.hearing import Engine
from companion.hearing.whisper.written_variants import whole_forms
from companion.messages import Heard, Hearing, NotUnderstood
from companion.orthography import Orthography

THRESHOLDS = (0.0, 0.5, 0.7, 0.9, 0.97)
"""Confidences asked for beyond what the engine itself accepts: the curve of right against wrong answers."""
BOARD_GFLOP_A_SECOND = 25.0
"""A board of four cores, all of them together."""
_BINS = tuple(tenth / 10 for tenth in range(10))


@dataclass(frozen=True)
class Taken:
    """One recording heard."""

    recording: Recording
    hearing: Hearing | None
    """None where the file can't be read."""
    sound_seconds: float
    seconds: float
    """What the decision took."""
    processor_seconds: float = 0.0
    """The same on all processors together: what other programs do hardly changes it."""
    multiply_adds: int = 0
    """What it took in arithmetic; 0 where the engine doesn't count."""

    @property
    def is_right(self) -> bool:
        """Whether it was accepted with the command and all slots that its words mean.

        Numbers said in two ways are the same number: "twelve hundred" and "one thousand two hundred" are both written 1200.
        """
        meant = self.recording.active.parse(self.recording.words)
        heard = self.hearing
        if not isinstance(heard, Heard) or meant is None or heard.command != meant.command:
            return False
        writing = self.recording.active.sources[0][0].writing
        return heard.slots == meant.slots or bool(_in_figures(heard.phrase, writing) & _in_figures(meant.words, writing))

    @property
    def confidence(self) -> float:
        """Of the answer, accepted or not; 0 where there is none."""
        return self.hearing.confidence if isinstance(self.hearing, Heard | NotUnderstood) else 0.0

    def is_accepted(self, threshold: float = 0.0) -> bool:
        """Tell whether it was taken for an answer, at least so sure."""
        return isinstance(self.hearing, Heard) and self.confidence >= threshold


def hear_all(engine: Engine, recordings: Iterable[Recording], noise: Noise, snr_db: float | None) -> tuple[Taken, ...]:
    """Have the engine hear each recording once, its set prepared before."""
    outcomes = []
    for recording in recordings:
        try:
            sound = noise.add(recording, recording.sound(), snr_db)
        except AudioFileError:
            outcomes.append(Taken(recording, None, 0.0, 0.0))
            continue
        engine.prepare(recording.active)
        before, processor, start = _work(engine), process_time(), perf_counter()
        hearing = engine.recognise(sound, recording.active)
        seconds, processor = perf_counter() - start, process_time() - processor
        outcomes.append(Taken(recording, hearing, sound.seconds, seconds, processor, _work(engine) - before))
    return tuple(outcomes)


def _in_figures(words: str, writing: Orthography) -> set[str]:
    """Return how words with a number in them may be written with figures; empty where there is no number."""
    return {form for form in whole_forms(words, writing) if any(sign.isdigit() for sign in form)}


def _work(engine: Engine) -> int:
    return engine.multiply_adds if isinstance(engine, CountsWork) else 0


def acceptance(outcomes: Sequence[Taken]) -> list[str]:
    """Return lines for answers: of all, the shares right and wrong among the accepted, by confidence asked for."""
    lines = ["  confidence   right & accepted   wrong & accepted   refused"]
    for threshold in THRESHOLDS:
        right = sum(outcome.is_right and outcome.is_accepted(threshold) for outcome in outcomes)
        wrong = sum(not outcome.is_right and outcome.is_accepted(threshold) for outcome in outcomes)
        refused = len(outcomes) - right - wrong
        asked = f"≥ {threshold:<8g}" if threshold else "engine's own"
        lines.append(f"  {asked:12} {_share(right, outcomes):>16}   {_share(wrong, outcomes):>16}   {_share(refused, outcomes):>7}")
    return lines


def reliability(outcomes: Sequence[Taken]) -> list[str]:
    """Return lines for how far the confidence of accepted answers is the probability of being right: Brier score and bins."""
    accepted = [outcome for outcome in outcomes if outcome.is_accepted()]
    if not accepted:
        return ["  nothing was accepted"]
    said = np.array([outcome.confidence for outcome in accepted])
    right = np.array([outcome.is_right for outcome in accepted], float)
    score, blind = np.mean((said - right) ** 2), right.mean() * (1 - right.mean())
    lines = [f"  Brier score of the accepted {score:.4f} (always saying the share that is right: {blind:.4f})"]
    for low, high in zip(_BINS, (*_BINS[1:], 1.01), strict=True):
        here = (said >= low) & (said < high)
        if here.any():
            lines.append(
                f"  {low:.2f} to {min(high, 1):.2f}: said {said[here].mean():.2f}, right {right[here].mean():.2f}, n = {here.sum()}"
            )
    return lines


def refusal(outcomes: Sequence[Taken]) -> list[str]:
    """Return lines for what is no answer: how much of it was taken for one, by confidence asked for."""
    lines = []
    for threshold in THRESHOLDS:
        accepted = [outcome for outcome in outcomes if outcome.is_accepted(threshold)]
        lines.append(f"  accepted at {f'≥ {threshold:g}' if threshold else 'the engine’s own'}: {_share(len(accepted), outcomes)}")
    lines += [
        f"    {outcome.recording.path.name}: '{outcome.recording.words}' taken for '{outcome.hearing.phrase}' ({outcome.confidence:.2f})"
        for outcome in outcomes
        if isinstance(outcome.hearing, Heard)
    ]
    return lines


def latency(outcomes: Sequence[Taken]) -> list[str]:
    """Return lines for how long decisions took, alone and as a ratio to the sound's length, and how much arithmetic they were."""
    heard = [outcome for outcome in outcomes if outcome.hearing is not None]
    if not heard:
        return ["  nothing could be read"]
    taken = np.array([outcome.seconds for outcome in heard])
    ratio = median(outcome.seconds / outcome.sound_seconds for outcome in heard)
    sound = median(outcome.sound_seconds for outcome in heard)
    processor = median(outcome.processor_seconds for outcome in heard)
    processor_ratio = median(outcome.processor_seconds / outcome.sound_seconds for outcome in heard)
    counted = [2e-9 * outcome.multiply_adds for outcome in heard if outcome.multiply_adds]
    return [
        f"  decision: median {np.median(taken):.3f} s, 90 % within {np.percentile(taken, 90):.3f} s, longest {taken.max():.3f} s",
        f"  median ratio to the sound's length {ratio:.3f} (median sound {sound:.2f} s)",
        f"  processor time: median {processor:.3f} s, ratio to the sound's length {processor_ratio:.3f}",
        *([f"  arithmetic: median {median(counted):.1f} GFLOP, most {max(counted):.1f} (two a multiply-add)"] if counted else []),
    ]


def on_a_board(outcomes: Sequence[Taken], gflop_a_second: float) -> list[str]:
    """Return lines for a decision's processor time beside this machine's product of matrices, and the delay that lets a board expect."""
    counted = [outcome for outcome in outcomes if outcome.multiply_adds and outcome.processor_seconds]
    if not counted:
        return []
    products = median(2e-9 * outcome.multiply_adds for outcome in counted)
    rest = max(0.0, median(outcome.processor_seconds for outcome in counted) - products / gflop_a_second)
    return [
        f"  matrices of 1024 are multiplied here at {gflop_a_second:.0f} GFLOP/s: its products would take"
        f" {products / gflop_a_second:.2f} s at that",
        f"  a board of {BOARD_GFLOP_A_SECOND:.0f} GFLOP/s would take {products / BOARD_GFLOP_A_SECOND:.2f} s for them,"
        f" {products / BOARD_GFLOP_A_SECOND + rest:.2f} s where all else is as quick as here (medians)",
    ]


def _share(count: int, outcomes: Sequence[Taken]) -> str:
    return f"{count / len(outcomes):.1%} ({count}/{len(outcomes)})" if outcomes else "none"
