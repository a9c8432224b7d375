"""What is said when nobody speaks while targets are visited: at most a remark an hour, and that a break is over. Nothing is recorded."""

from __future__ import annotations

from datetime import datetime

from companion.procedure.night.remarks import SELDOM, remark
from companion.procedure.script import Context
from companion.sky import Moment
from companion.talk.night_answers import TargetAnswer
from companion.talk.night_phrases import BreakIsOver, OnABreak
from companion.talk.saying import Answers, Ask, Say
from companion.talk.turning_phrases import ShallITurnThere, ShallITurnThereToo


class Pauses:
    """Remembers what was told at a pause."""

    def __init__(self) -> None:
        """Begin without a remark."""
        self._told: set[Say] = set()
        self._last: datetime | None = None
        self._over: datetime | None = None

    def are_left_alone(self, question: Ask[Answers]) -> bool:
        """Say whether a silence at a question means nothing: whoever looks through a telescope doesn't talk."""
        return question.expects is TargetAnswer or isinstance(question, ShallITurnThere | ShallITurnThereToo)

    def words_at(self, question: Ask[Answers], moment: Moment, context: Context) -> tuple[Say, ...]:
        """Return what is worth saying now, if anything."""
        if isinstance(question, OnABreak):
            if moment.time < question.until or self._over == question.until:
                return ()
            self._over = question.until
            return (BreakIsOver(),)
        if self._last is not None and moment.time - self._last < SELDOM:
            return ()
        told = remark(moment, context.started, context.hides, self._told)
        if told is None:
            return ()
        self._told.add(told)
        self._last = moment.time
        return (told,)
