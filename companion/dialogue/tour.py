"""The tour: phrases tried out without their effect, whatever part is under way. Nothing of it is recorded, and nothing changes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from companion.dialogue.asides import Asides
from companion.dialogue.jumps import is_jump
from companion.messages import Heard, NotNow
from companion.talk.answers import UniversalAnswer
from companion.talk.question_answers import QuestionAnswer
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Answers, Ask, Saying
from companion.talk.tour_phrases import ThatWorked, TourAnswer, TourLeft, TourOver, TourWishAnswer, Tried, TryIt, WhatWeDo

_TRIED_BY: Mapping[str, Tried] = {
    UniversalAnswer.SAY_AGAIN: Tried.REPEAT,
    UniversalAnswer.WAIT: Tried.WAIT,
    UniversalAnswer.GO_BACK: Tried.BACK,
    UniversalAnswer.LOST: Tried.WHERE,
    QuestionAnswer.WHERE_ARE_WE: Tried.WHERE,
    UniversalAnswer.STOP: Tried.QUIET,
}
_GO_ON = (TourAnswer.NEXT, UniversalAnswer.SKIP, UniversalAnswer.CARRY_ON)
_LEAVE = (TourAnswer.LEAVE, UniversalAnswer.LEAVE_PART)
_ORDER = tuple(Tried)


@dataclass(frozen=True)
class Tour:
    """Where the tour stands."""

    step: Tried = _ORDER[0]

    @property
    def question(self) -> TryIt:
        """What is to be tried out."""
        return TryIt(self.step)

    def hear(self, heard: Heard | NotNow) -> tuple[Tour | None, tuple[Saying, ...]] | None:
        """Return the tour after what was said, None at its end, and the answer; None where that is none of the tour's business."""
        tried = _TRIED_BY.get(heard.command)
        if tried is self.step:
            return self._on(ThatWorked(tried))
        if heard.command in _GO_ON:
            return self._on()
        if heard.command in _LEAVE:
            return None, (TourLeft(),)
        if heard.command == UniversalAnswer.BEGIN_PART_AGAIN or is_tour_wish(heard):
            return begun()
        if tried is Tried.BACK:
            # Another phrase was asked for; this one must not touch the part that is under way.
            return self, (ThatWorked(tried), self.question)
        return None if tried is not Tried.WHERE else (self, (ThatWorked(tried), self.question))

    def _on(self, *said: Saying) -> tuple[Tour | None, tuple[Saying, ...]]:
        following = _ORDER[_ORDER.index(self.step) + 1 :]
        if not following:
            return None, (*said, TourOver())
        tour = Tour(following[0])
        return tour, (*said, tour.question)


def is_tour_wish(heard: Heard | NotNow) -> bool:
    """Say whether somebody wants to be shown how we work."""
    return heard.command == TourWishAnswer.TOUR


def begun() -> tuple[Tour, tuple[Saying, ...]]:
    """Return a tour at its beginning, and what is said then."""
    tour = Tour()
    return tour, (WhatWeDo(), tour.question)


class Touring:
    """The tour under way, if one is; our own questions go before it."""

    def __init__(self, asides: Asides) -> None:
        """Begin with none."""
        self._asides = asides
        self._tour: Tour | None = None

    def __bool__(self) -> bool:
        """Say whether one is under way."""
        return self._tour is not None

    @property
    def question(self) -> TryIt | None:
        """What is to be tried out; None where no tour is under way."""
        return None if self._tour is None else self._tour.question

    def close(self) -> None:
        """End it unsaid: what it stood before was answered."""
        self._tour = None

    def hear(self, heard: Heard | NotNow, below: Callable[[], Ask[Answers] | None]) -> tuple[Saying, ...]:
        """Take what belongs to the tour, or begins one; nothing where it does neither. Going elsewhere ends it unsaid.

        After its end the question ``below`` is asked again.
        """
        if self._tour is None or self._asides:
            if not is_tour_wish(heard):
                return ()
            self._asides.close()
            self._tour, said = begun()
            return said
        if is_jump(heard) or heard.command == UniversalAnswer.GOOD_NIGHT:
            self._tour = None
            return ()
        shown = self._tour.hear(heard)
        if shown is None:
            return ()
        self._tour, said = shown
        question = below()
        return said if self._tour is not None or question is None else (*said, AskedAgain(question))
