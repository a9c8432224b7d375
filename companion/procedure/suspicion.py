"""What is suspected while an alignment goes wrong: the answers given, and what earlier goes at it leave."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from companion.diagnosis import START_ANEW, About, Answer, Cure, Question, found_wrong
from companion.procedure.notes import MissTold

Given: TypeAlias = tuple[Question, Answer]
_LASTING: frozenset[About] = frozenset(
    {
        "date",
        "time",
        "daylight_saving",
        "time_zone",
        "latitude",
        "longitude",
        "place",
        "longitude_side",
        "clamps",
        "tube_gives",
        "bubble",
        "base_level",
        "soft_ground",
    }
)
"""What is still so after beginning again; the tube is set anew, and so are the stars."""


@dataclass(frozen=True)
class Suspicion:
    """What a diagnosis goes on from."""

    answered: tuple[Given, ...] = ()
    """In this go at the alignment."""
    before: tuple[Given, ...] = ()
    """In earlier goes, so far as it still holds."""
    mended: tuple[Cure, ...] = ()
    """What was done about it in earlier goes."""
    misses: tuple[MissTold, ...] = ()
    """Told in earlier goes."""
    our_clock_compared: bool = False
    """Whether our own clock was held against a watch for it."""
    leant: bool = False
    """Whether the base was found leaning in this go or an earlier one."""

    def with_answer(self, question: Question, answer: Answer) -> Suspicion:
        """Return it with one more answer."""
        answered = (*self.answered, (question, answer))
        return replace(self, answered=answered, leant=self.leant or "bubble" in found_wrong(answered))

    def after(self, cures: Sequence[Cure]) -> Suspicion:
        """Return it after something was mended."""
        return replace(self, mended=(*self.mended, *cures))

    def begun_again(self, misses: Sequence[MissTold], *, from_the_start_position: bool = True) -> Suspicion:
        """Return what is left of it when the alignment begins again, after such misses: an answer that was acted on is spent.

        Where it begins from level and north, the start position was mended, too.
        """
        lasting = ((question, answer) for question, answer in self.answered if question.about in _LASTING and answer != "no")
        anew = self.after(START_ANEW) if from_the_start_position else self
        return replace(anew, answered=(), before=(*self.before, *lasting), misses=(*self.misses, *misses))
