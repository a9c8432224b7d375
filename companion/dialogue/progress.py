"""How far an evening has come: which parts were gone through, which wait, which still count, and what each undoes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from companion.dialogue.stage_run import StageRun
from companion.procedure import Result, Stage
from companion.talk.saying import Answers, Ask, Call, Note

_UNDOES: Mapping[str, tuple[str, ...]] = {
    "ground": ("starting-pose", "late-pose", "reference-stars", "proof"),
    "starting-pose": ("late-pose", "reference-stars", "proof"),
    "power": ("settings", "late-pose", "reference-stars", "proof"),
    "settings": ("late-pose", "reference-stars", "proof"),
    "late-pose": ("reference-stars", "proof"),
    "reference-stars": ("proof",),
}
"""What must be done again after a part was begun again: a tripod that was moved stands nowhere, a mount switched off forgets."""


def undone_by(stage: str) -> tuple[str, ...]:
    """Return the stages that count as not done any more once this one is begun, itself among them."""
    return (stage, *_UNDOES.get(stage, ()))


class Progress:
    """The visits to the stages of an evening, and what can be told of them; whoever holds the evening changes the two lists."""

    def __init__(self, stages: Sequence[Stage]) -> None:
        """Take the stages in their usual order; none is begun."""
        self.stages: Mapping[str, Stage] = {stage.name: stage for stage in stages}
        self._order = tuple(self.stages)
        self.gone: list[StageRun] = []
        """Gone through, the one under way last."""
        self.waiting: list[StageRun] = []
        """Set aside for another."""

    @property
    def current(self) -> StageRun:
        """The stage under way; the last one once the evening is over."""
        return self.gone[-1]

    @property
    def first(self) -> str:
        """The stage an evening begins with."""
        return self._order[0]

    @property
    def results(self) -> tuple[Result, ...]:
        """What the finished stages found out, in order."""
        return tuple(run.result for run in self.gone if run.result is not None)

    @property
    def to_come(self) -> tuple[str, ...]:
        """The stages that follow the one under way, in order."""
        after = self._order[self._order.index(self.current.name) + 1 :]
        return tuple(name for name in after if self.waits(name) or not self._is_settled(name))

    def has(self, stage: str) -> bool:
        """Say whether this evening has such a stage."""
        return stage in self.stages

    def is_before(self, stage: str) -> bool:
        """Say whether a stage comes before the one under way."""
        return self._order.index(stage) < self._order.index(self.current.name)

    def passed_over_to(self, stage: str) -> tuple[str, ...]:
        """Return what would be left out on going to a later stage: the one under way, and what lies between and isn't done."""
        before = set(self._order[: self._order.index(stage)])
        return (self.current.name, *(name for name in self.to_come if name in before))

    def is_done(self, stage: str) -> bool:
        """Say whether a stage was gone through with answers, not left out, and still counts."""
        last = next((run for run in reversed(self.gone) if run.name == stage and run.result is not None), None)
        return last is not None and self._is_settled(stage) and bool(last.replies) and not last.was_left

    def lost_by(self, stage: str) -> tuple[str, ...]:
        """Return what has been done, or begun, and would have to be done again after that stage."""
        begun = {run.name for run in (self.current, *self.waiting) if run.replies}
        return tuple(name for name in undone_by(stage)[1:] if name in begun or self.is_done(name))

    def waits(self, stage: str) -> bool:
        """Say whether a stage was set aside, and nothing gone through since undoes it."""
        return any(run.name == stage and not self._is_undone(stage, since=run.aside_at) for run in self.waiting)

    def decisions(self, place: int) -> Iterator[Ask[Answers] | Note | Call]:
        """Yield what was decided when so many visits were gone through: what was told in a stage set aside holds, too."""
        waiting = [run for run in self.waiting if run.aside_at is not None and run.aside_at <= place]
        return (decision for run in (*waiting, *self.gone[:place]) for decision in run.decisions)

    def _is_settled(self, stage: str) -> bool:
        """Say whether a stage has ended, or been left out, and nothing begun since undoes it."""
        ended = [place for place, run in enumerate(self.gone) if run.name == stage and run.result is not None]
        return bool(ended) and not self._is_undone(stage, since=ended[-1] + 1)

    def _is_undone(self, stage: str, since: int | None) -> bool:
        """Say whether anything begun after so many visits undoes it."""
        return any(stage in undone_by(run.name) for run in self.gone[since:])
