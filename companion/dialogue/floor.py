"""Who has the floor: a question of our own before the tour's, that before the script's; and what counts as an answer to it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from companion.dialogue.asides import Asides
from companion.dialogue.course import Course
from companion.dialogue.tour import Touring
from companion.messages import Heard, Hearing, NotNow
from companion.talk.answers import UniversalAnswer, YesNoAnswer
from companion.talk.guidance_phrases import LeaveNow
from companion.talk.jump_phrases import PackUpNow
from companion.talk.night_answers import ShowMeAnswer
from companion.talk.question_answers import JumpAnswer
from companion.talk.saying import Answers, Ask

_SAID_AGAIN: Mapping[type[Ask[Answers]], tuple[str, ...]] = {
    PackUpNow: (UniversalAnswer.GOOD_NIGHT, JumpAnswer.PACK_UP),
    LeaveNow: (UniversalAnswer.GOOD_NIGHT,),
}
"""What is asked back, and by being said again is said to be meant."""


class Floor:
    """Tells the open question."""

    def __init__(self, course: Course, asides: Asides, touring: Touring) -> None:
        """Take all that may ask."""
        self._course = course
        self._asides = asides
        self._touring = touring

    @property
    def question(self) -> Ask[Answers]:
        """The question on top."""
        question = self._asides.question or self._touring.question or self._course.current.question
        if question is None:
            raise RuntimeError("the evening is over; nothing more can be heard")
        return question

    @property
    def instead(self) -> tuple[type[Answers], ...]:
        """The rules whose answers are taken at the open question beside those it expects.

        They include those of the question below, where a question of ours stands before it that may be left unanswered.
        """
        if self._course.is_over:
            return ()
        below = self._course.current.question
        if (self._asides or self._touring) and below is not None:
            return (below.expects, *below.also) if self._asides.may_be_passed_by else ()
        return self.question.also

    def as_answer(self, hearing: Hearing) -> Hearing:
        """Return what was heard as an answer where it is one to what may be answered instead, or says again what was asked back."""
        if not isinstance(hearing, Heard | NotNow):
            return hearing
        named = hearing.slots.get("object")
        if named is not None and ShowMeAnswer in self.instead:
            # A bare name where things are shown: it is wanted, not only asked for.
            hearing = replace(hearing, command=ShowMeAnswer.SHOW_ME, slots={"name": named})
        if hearing.command in _SAID_AGAIN.get(type(self.question), ()):
            return Heard(hearing.phrase, YesNoAnswer.YES, spelling=hearing.spelling)
        if isinstance(hearing, Heard) or hearing.is_guess or not any(hearing.command in set(rule) for rule in self.instead):
            return hearing
        self._asides.close()
        self._touring.close()
        return Heard(hearing.phrase, hearing.command, hearing.slots, hearing.confidence, hearing.spelling)
