"""Moving through an evening otherwise than by answering: a step back, to another part, to its end."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from typing import TypeAlias

from companion.dialogue.asides import Asides
from companion.dialogue.course import Course
from companion.dialogue.doubt import SURE
from companion.dialogue.gone_meanwhile import gone_meanwhile
from companion.dialogue.jumps import wanted
from companion.messages import Answer, NotNow
from companion.talk.check_in_phrases import NoSkyWithoutAPlace
from companion.talk.guidance_phrases import LeaveNow, NothingToGoBackTo
from companion.talk.jump_phrases import PackUpNow
from companion.talk.night_answers import TargetAnswer
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Answers, Ask, Saying
from companion.talk.targets_phrases import GoodNight

Sayings: TypeAlias = tuple[Saying, ...]

_AT_THE_TELESCOPE, _PACKING = "targets", "good-night"
"""The stages where nobody leaves without the offer to pack up, and where that is done."""


class Moves:
    """Makes them, or asks first."""

    def __init__(self, course: Course, asides: Asides, open_question: Callable[[], Ask[Answers]]) -> None:
        """Take what moves, where we ask first, and who knows the question on top."""
        self._course = course
        self._asides = asides
        self._open_question = open_question

    def back(self, time: datetime) -> Sayings:
        """Stand at the question before; where it offers a target that is gone by now, say so and go on to the next.

        From what took the place of such a target we go farther back: else nobody would come past it.
        """
        undone = [answer.command for answer in self._course.current.answers[-1:]]
        if not self._course.go_back():
            return (NothingToGoBackTo(), *self._course.current.sayings)
        moment = self._course.moment(time)
        gone = gone_meanwhile(self._course.current, moment)
        if gone is None:
            return self._course.current.sayings
        if undone == [TargetAnswer.SKIP]:
            return (gone, *self.back(time))
        return (gone, *self._course.answer(Answer(TargetAnswer.SKIP, moment.time), time))

    def leave(self) -> Sayings:
        """Ask whether to end here; where there is a telescope in use, whether to pack up."""
        if self._course.current.name == _AT_THE_TELESCOPE and self._course.progress.has(_PACKING):
            self._asides.ask_first(PackUpNow(), partial(self._course.go_to, _PACKING))
        else:
            self._asides.ask_first(LeaveNow(), self._end)
        return (self._open_question(),)

    def elsewhere(self, heard: NotNow, time: datetime) -> Sayings:
        """Go to another part, or ask first, or say why not; nothing is said where this evening has no such part."""
        jump = wanted(heard, self._course.progress, self._course.equipment, self._course.moment(time))
        if jump is None:
            return ()
        self._asides.close()
        if self._course.has_no_place and jump.stage != _PACKING:
            return (NoSkyWithoutAPlace(), AskedAgain(self._open_question()))
        if jump.stage is None:
            return (*jump.said, AskedAgain(self._open_question()))
        go = partial(self._course.go_to, jump.stage)
        if jump.asked is not None:
            self._asides.ask_first(jump.asked, go)
        elif heard.confidence < SURE:
            self._asides.ask_back(heard.written, go)
        else:
            return (*jump.said, *go(time))
        return (self._open_question(),)

    def _end(self, _: datetime) -> Sayings:
        self._course.end()
        return (GoodNight(),)
