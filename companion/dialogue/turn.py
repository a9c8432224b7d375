"""What the dialogue answers to one event, and the loop in which every conversation is held."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from companion.messages import Hearing
from companion.talk.saying import Answers, Ask, Saying


@dataclass(frozen=True)
class Turn:
    """What to say now, and what is then waited for."""

    sayings: tuple[Saying, ...]
    """In order; may be empty, when a quiet sign is enough."""
    question: Ask[Answers] | None
    """The question that stands open afterwards; None when the evening is over."""
    stage: str
    """The name of the stage that is running."""

    @property
    def finished(self) -> bool:
        """Whether the evening is over."""
        return self.question is None


def turns(
    first: Turn, hear: Callable[[Ask[Answers]], Hearing | None], answer: Callable[[Hearing], Turn]
) -> Iterator[tuple[Hearing | None, Turn]]:
    """Yield turn after turn, each with what it answers (None for the first): tell it, then ask for the next.

    ``hear`` waits for what is said to a question, and returns None when nobody will say anything more; ``answer`` gives it to the
    dialogue. Typed, spoken, rehearsed: they differ in these two alone.
    """
    turn = first
    yield None, turn
    while turn.question is not None:
        heard = hear(turn.question)
        if heard is None:
            return
        turn = answer(heard)
        yield heard, turn
