"""Whole conversations about a miss, from the geometry through questions to the cure, with people who err.

A star's miss is told; up to four questions are asked; where that doesn't tell, another star's miss is told, too, and what is left of the
four questions is asked. Then something is done again. Where that was in vain, up to four more questions lead to a second cure.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import numpy as np

from companion.diagnosis import ANOTHER_STAR, Answer, Belief, Question, advised, after_mending, diagnose, next_question, settle
from companion.documents.diagnose_request import read_diagnose_request

from .evening import Telling, document_of, draw_evening
from .mistakes import CAUSES, FREQUENCY
from .people import Person

TELLINGS = (
    Telling(2, "eye", first_left=True),
    Telling(2, "body", first_left=True),
    Telling(2, "eye"),
    Telling(2, "eye", first_centred=True),
    Telling(3, "eye"),
)
"""With ``first_left`` the first star's miss alone is told at first, and a second star's only where that doesn't tell."""
SURE = 0.9
"""A cause this likely is named plainly."""


@dataclass(frozen=True)
class Talk:
    """How one conversation went."""

    cause: str
    cures: tuple[str, ...]
    """What was to be done again, the first time."""
    said: float
    """How likely that was called to mend it."""
    right: bool
    second_right: bool
    """Whether the first or the second cure mended it."""
    questions: int
    """Until the first cure."""
    more_questions: int
    """From there to the second."""
    stars: int
    """How many misses were told, or stars centred, until the first cure."""

    @property
    def things(self) -> int:
        """How many things were to be done again."""
        return len(self.cures)


def draw_talks(telling: Telling, count: int, seed: int) -> Iterator[Talk]:
    """Yield so many conversations, causes as often as they come."""
    rng = np.random.default_rng([seed, TELLINGS.index(telling), 7])
    # What was not there yet when the first star was told of can't be found then: a clutch that slips later, a later star confused.
    possible = [cause for cause in CAUSES if not (telling.first_left and cause == "slipped")]
    weights = np.array([FREQUENCY[cause] for cause in possible])
    for _ in range(count):
        evening = draw_evening(rng, telling)
        mistakes = evening.mistakes(str(rng.choice(possible, p=weights / weights.sum())), rng, 1)
        while telling.first_left and mistakes.wrong[0] > 0:
            mistakes = evening.mistakes(mistakes.cause, rng, 1)
        yield _Conversation(Person(evening, mistakes), document_of(evening, mistakes, rng), rng).hold()


@dataclass
class _Conversation:
    """One conversation under way."""

    person: Person
    document: dict[str, Any]
    rng: np.random.Generator
    before: list[tuple[Question, Answer]] = field(default_factory=list)
    answered: list[tuple[Question, Answer]] = field(default_factory=list)

    def hold(self) -> Talk:
        """Go from the misses to the first cure, and to a second where that was in vain."""
        telling = self.person.evening.telling
        stars = 1 if telling.first_left else telling.slews
        belief = self._asked(self._believed(stars), stars)
        if advised(belief, self.answered).probability < ANOTHER_STAR and stars < telling.slews:
            stars = telling.slews
            belief = self._asked(self._believed(stars), stars)
        first, questions = advised(belief, self.answered), len(self.answered)
        right = second_right = self.person.is_mended_by(first.cures)
        self.before, self.answered = self.answered, []
        if not right:
            belief = self._asked(after_mending(belief, first.cures), stars)
            second_right = self.person.is_mended_by(advised(belief, self.answered, self.before).cures)
        cause = self.person.mistakes.cause
        return Talk(cause, first.cures, first.probability, right, second_right, questions, len(self.answered), stars)

    def _believed(self, stars: int) -> Belief:
        """Return what the first misses and all answers make of it."""
        misses = self.document["misses"][:stars]
        belief = Belief.of(diagnose(read_diagnose_request({**self.document, "misses": misses})))
        for question, answer in self.answered:
            belief = settle(belief, question, answer)
        return belief

    def _asked(self, belief: Belief, stars: int) -> Belief:
        """Ask until no question is worth asking."""
        while (question := next_question(belief, self.answered, self.before)) is not None:
            answer: Answer = self.person.answer(question.about, question.star, question.instead, stars - 1, self.rng)  # type: ignore[assignment]
            self.answered.append((question, answer))
            belief = settle(belief, question, answer)
        return belief


def summary(talks: Sequence[Talk]) -> str:
    """Return the figures of some conversations."""
    count = len(talks)
    right, second, asked, things, stars = (
        np.mean([getattr(talk, name) for talk in talks]) for name in ("right", "second_right", "questions", "things", "stars")
    )
    more = np.mean([talk.more_questions for talk in talks if not talk.right] or [0.0])
    return "\n".join(
        (
            f"first cure right            {right:.3f} of {count}, give or take {np.sqrt(right * (1.0 - right) / count):.3f}",
            f"first or second right       {second:.3f}",
            f"called {SURE} or more, wrong  {np.mean([talk.said >= SURE and not talk.right for talk in talks]):.3f} of all",
            f"questions to the first cure {asked:.2f}, at most {max(talk.questions for talk in talks)}; to the second {more:.2f} more",
            f"stars {stars:.2f}, things to do again in the first cure {things:.2f}",
        )
    )


def reliability(talks: Sequence[Talk]) -> str:
    """Return how often a first cure called so likely was right."""
    lines = ["said between   cures  mean said  right"]
    for low, high in pairwise((0.0, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.01)):
        inside = [talk for talk in talks if low <= talk.said < high]
        if inside:
            right, said = np.mean([talk.right for talk in inside]), np.mean([talk.said for talk in inside])
            lines.append(f"{low:4.2f}..{min(high, 1.0):4.2f}   {len(inside):5d}  {said:9.2f}  {right:5.2f}")
    return "\n".join(lines)


def by_cause(talks: Sequence[Talk]) -> str:
    """Return how often the first and the second cure were right, by cause."""
    lines = ["cause                  talks  first  second  questions"]
    for cause in CAUSES:
        inside = [talk for talk in talks if talk.cause == cause]
        if inside:
            first, second, asked = (np.mean([getattr(talk, name) for talk in inside]) for name in ("right", "second_right", "questions"))
            lines.append(f"{cause:22} {len(inside):5d}  {first:5.2f}  {second:6.2f}  {asked:9.2f}")
    return "\n".join(lines)
