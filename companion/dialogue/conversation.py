"""The evening as a conversation: stages one after another, universal words at any time, and help when nothing is understood."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import datetime
from functools import partial

from companion.dialogue.asides import Asides
from companion.dialogue.course import Course
from companion.dialogue.device_calls import Calls
from companion.dialogue.expectations import LIKELY, expected_at
from companion.dialogue.gone_meanwhile import gone_meanwhile
from companion.dialogue.journal import Record
from companion.dialogue.jumps import is_gone_through, is_jump, wanted
from companion.dialogue.memory import EveningMemory, hands_off_record, terse_record
from companion.dialogue.pauses import Pauses
from companion.dialogue.questions import Standing, answered, is_question, named_in
from companion.dialogue.reprompts import Reprompts
from companion.dialogue.seeing import is_of_sight, seeing_told
from companion.dialogue.told import Told
from companion.dialogue.tour import Tour, begun, is_tour_wish
from companion.dialogue.turn import Turn
from companion.dialogue.universal import Here, universal_word
from companion.equipment import NOTHING_KNOWN, Equipment, Seeing
from companion.languages import Language
from companion.messages import Answer, Heard, Hearing, NotNow, NotUnderstood, Prior, Silence
from companion.procedure import Result, Stage
from companion.procedure.notes import Keep
from companion.sky import Body, Moment, Site
from companion.talk.answers import ONLY_ASK, EitherAnswer, HandsAnswer, UniversalAnswer, YesNoAnswer
from companion.talk.guidance_phrases import (
    DidNotGetThat,
    EveryWord,
    FewWords,
    LeaveNow,
    NothingToGoBackTo,
)
from companion.talk.jump_phrases import PackUpNow
from companion.talk.mount_phrases import HandsOffIt, HandsOnAgain
from companion.talk.night_answers import TargetAnswer
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Answers, Ask, Note, Saying
from companion.talk.sight_phrases import SightNoted
from companion.talk.targets_phrases import GoodNight

SURE = 0.8
"""An answer that changes something acts at once from this confidence on; below it is asked back. Judgement: one more word costs two
seconds, a wrong step with cold fingers costs minutes."""
SURE_OF_THE_UNLIKELY = 0.95
"""The same for an answer that would surprise: a star that is down, a latitude far from here. Judgement."""
_MOST_AT_ONCE = 2
"""Of a speech of more sentences than this the last is repeated first, and all of it when it is asked for once more. Judgement."""

Sayings = tuple[Saying, ...]


_AT_THE_TELESCOPE, _PACKING = "targets", "good-night"
"""The stages where nobody leaves without the offer to pack up, and where that is done."""
_PAUSES = (UniversalAnswer.WAIT, UniversalAnswer.STOP)
"""After these the question is no longer the last thing said: a bare yes or no has it asked again."""
_MOVES = (UniversalAnswer.CARRY_ON, UniversalAnswer.GOOD_NIGHT, UniversalAnswer.DONT_KNOW)
"""What a question may take as an answer of its own instead."""


def forget(_: Record) -> None:
    """Keep no record: for evenings that need no journal."""


class Conversation:
    """Holds one evening. Every call says what was heard and when, and answers with a ``Turn``; there is no clock and no sound here.

    Times handed in are our own clock's. The observer may correct that clock and the place; ``moment`` gives what then holds.
    """

    def __init__(
        self,
        stages: Sequence[Stage],
        site: Site | None,
        language: Language,
        record: Callable[[Record], None] = forget,
        equipment: Equipment = NOTHING_KNOWN,
        *,
        by_voice: bool = False,
        own: tuple[Body, ...] = (),
        calls: Calls | None = None,
        last_evening: datetime | None = None,
    ) -> None:
        """Take the stages in order and what is known of site and equipment; ``record`` is called before anything is acted upon.

        ``by_voice``: whether we are spoken to, and may offer keyboard and key where that fails. ``own``: the observer's own objects.
        ``calls``: who asks the mount on the line; None where there is none. ``last_evening``: when the one before was, where that is known.
        """
        self._course = Course(stages, site, record, equipment, own, calls=calls, last_evening=last_evening)
        self._is_linked = calls is not None
        self.hands_off = False
        """Whether the observer wants the mount left alone."""
        self._own = own
        self._record = record
        self._language = language
        self._terse: bool | None = None
        self._last_heard: str | None = None
        self._named_last: str | None = None
        self._reprompts = Reprompts(by_voice=by_voice)
        self._asides = Asides()
        self._told = Told()
        self._tour: Tour | None = None
        self._pause: str | None = None
        self._pauses = Pauses()
        self._repeats = 0

    def moment(self, time: datetime) -> Moment:
        """Return where and when we are while our own clock reads ``time``, by all the observer has corrected so far."""
        return self._course.moment(time)

    @property
    def equipment(self) -> Equipment:
        """What the observer has, by all that was told so far."""
        return self._course.equipment

    @property
    def seeing(self) -> Seeing | None:
        """What was told this evening of the observer's sight; None where nothing was."""
        return self._course.seeing

    @property
    def wants_to_be_remembered(self) -> bool:
        """Whether the observer wants place and equipment kept for the next evening."""
        return any(isinstance(note, Keep) for note in self.notes())

    def notes(self) -> Iterator[Note]:
        """Yield all that was noted, in order."""
        return self._course.notes()

    @property
    def results(self) -> tuple[Result, ...]:
        """What the finished stages found out, in order."""
        return self._course.results

    def words(self, saying: Saying, time: datetime) -> str:
        """Return the words of a saying, spoken when our own clock reads ``time``."""
        observer = self.equipment.observer
        if self._terse is not None:
            observer = replace(observer, terse=self._terse)
        return self._language.words(saying, self.moment(time), observer, self._own, self.equipment.mount)

    def expects(self, answers: type[Answers]) -> bool:
        """Say whether the open question expects answers of this rule."""
        return not self._course.is_over and self._open_question().expects is answers

    def awaits(self, answers: type[Answers]) -> bool:
        """Say whether the script waits for answers of this rule, whatever question of our own stands before it."""
        question = None if self._course.is_over else self._course.current.question
        return question is not None and question.expects is answers

    def standing(self) -> Turn:
        """Return where the conversation stands, with nothing to say."""
        return self._turn(())

    def begin(self, time: datetime) -> Turn:
        """Open the evening."""
        return self._turn(self._course.begin(time))

    def resume(self, memory: EveningMemory, time: datetime) -> Turn:
        """Go on where a recorded evening broke off, as ``Course.resume`` says."""
        self._terse = memory.terse
        self.hands_off = memory.hands_off
        return self._turn(self._course.resume(memory, time))

    def go_to(self, stage: str, time: datetime) -> Turn:
        """Go to another part, though nobody said so; what is under way waits where that undoes nothing of it."""
        return self._turn(self._course.go_to(stage, time))

    def hear(self, hearing: Hearing, time: datetime) -> Turn:
        """Take what was heard and answer it."""
        question = self._open_question()
        sayings: Sayings
        if isinstance(hearing, NotNow) and any(hearing.command in set(rule) for rule in question.also):
            hearing = Heard(hearing.phrase, hearing.command, hearing.slots, hearing.confidence, hearing.spelling)
        if isinstance(hearing, Heard | NotNow) and (shown := self._toured(hearing)):
            self._reprompts.understood(hearing.command)
            self._pause = None
            return self._turn(shown)
        match hearing:
            case Heard():
                self._reprompts.understood(hearing.command)
                self._repeats = self._repeats + 1 if hearing.command == UniversalAnswer.SAY_AGAIN else 0
                sayings = self._weighed(hearing, time)
                word = universal_word(hearing.command)
                if word is None or word.may_be_quoted:
                    self._last_heard = hearing.written
            case NotNow():
                sayings = self._out_of_turn(hearing, question, time)
            case NotUnderstood(likeliest=(first, second)) if self._may_be_either(first, second):
                self._asides.ask_which(first, second, lambda heard: partial(self._heard, heard))
                sayings = (self._open_question(),)
            case NotUnderstood():
                sayings = self._reprompts.not_understood(question)
            case Silence() if self._pauses.are_left_alone(question):
                sayings = self._pauses.words_at(question, self.moment(time), self._course.current.context)
            case Silence():
                sayings = self._reprompts.silence()
        return self._turn(sayings)

    def expected(self, time: datetime) -> Prior | None:
        """Return what is known of the answer to the open question before it is heard; None where nothing is, or nothing is open."""
        if self._course.is_over:
            return None
        return expected_at(self._open_question(), self.moment(time), place_is_known=self._course.place_is_known)

    def command(self, word: UniversalAnswer, time: datetime) -> Turn:
        """Do what a universal word does, though nobody said it."""
        return self._turn(self._heard(Heard("", word), time))

    def _leave_the_mount(self, *, alone: bool) -> Sayings:
        """Leave the mount alone from now on, or no longer."""
        self.hands_off = alone
        self._record(hands_off_record(on=alone))
        return (HandsOffIt() if alone else HandsOnAgain(),)

    def _out_of_turn(self, heard: NotNow, question: Ask[Answers], time: datetime) -> Sayings:
        """Take what is no answer to the open question: a question to us, what is told of oneself or the mount, a part to go to."""
        sayings: Sayings = ()
        if is_question(heard):
            self._last_heard = heard.written
            sayings = answered(heard, self._standing(time))
            self._told.note(sayings)
        elif is_of_sight(heard):
            self._last_heard = heard.written
            sayings = self._told_of_sight(heard)
        elif self._is_linked and heard.command in set(HandsAnswer):
            sayings = (*self._leave_the_mount(alone=heard.command == HandsAnswer.HANDS_OFF), AskedAgain(question))
        elif is_jump(heard) and (sayings := self._going_elsewhere(heard, time)):
            self._last_heard = heard.written
        if not sayings:
            return self._reprompts.not_now(heard.written, question)
        self._reprompts.understood(heard.command)
        return sayings

    def _toured(self, heard: Heard | NotNow) -> Sayings:
        """Take what belongs to the tour, or begins one; nothing where it does neither. Going elsewhere ends it unsaid."""
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
        return said if self._tour is not None else (*said, AskedAgain(self._open_question()))

    def _told_of_sight(self, heard: NotNow) -> Sayings:
        """Keep what was told of the observer's sight, confirm it, and put the open question in the words that now fit."""
        if heard.confidence < SURE:
            self._asides.ask_back(heard.written, lambda _: self._told_of_sight(replace(heard, confidence=1.0)))
            return (self._open_question(),)
        seeing = seeing_told(heard, self.equipment)
        self._course.tell(seeing)
        return (SightNoted(seeing.sight, seeing.eyes), self._open_question())

    # --- what was heard ----------------------------------------------------------------------------------------------

    def _weighed(self, heard: Heard, time: datetime) -> Sayings:
        """Act on what is sure or costs nothing; ask the rest back."""
        doubt = self._asides.take_doubt()
        if doubt is not None and heard.command in doubt.leads_to:
            return doubt.leads_to[heard.command](time)
        if doubt is not None and heard.command in (YesNoAnswer.NO, EitherAnswer.NEITHER):
            return (self._open_question(),)
        pause, self._pause = self._pause, heard.command if heard.command in _PAUSES else None
        if pause and heard.phrase in self._language.yes_and_no:
            return (self._open_question(),)
        word = universal_word(heard.command)
        costs_nothing = heard.command in ONLY_ASK if word is None else not word.changes
        if heard.confidence >= self._sure_from(heard, time) or costs_nothing:
            return self._heard(heard, time, pause)
        if heard.command in set(YesNoAnswer) - {YesNoAnswer.SKIP}:
            # Asking back would only be answered by another yes or no.
            return (DidNotGetThat(),)
        self._asides.ask_back(heard.written, partial(self._heard, heard))
        return (self._open_question(),)

    def _sure_from(self, heard: Heard, time: datetime) -> float:
        """Return the confidence from which an answer isn't asked back: higher for one that would surprise.

        What sounds much like another answer is always asked back; only what was typed is as sure as that.
        """
        if heard.phrase in self._language.easily_confused:
            return 1.0
        expected = self.expected(time) if heard.slots else None
        return SURE if expected is None or expected.weight(heard.command, heard.slots) >= LIKELY else SURE_OF_THE_UNLIKELY

    def _may_be_either(self, first: Heard, second: Heard) -> bool:
        """Tell whether to ask which of two was said: not within a question of our own, nor of yes and no, which are shorter said again."""
        return not self._asides and self._tour is None and not {first.command, second.command} & (set(YesNoAnswer) - {YesNoAnswer.SKIP})

    def _heard(self, heard: Heard, time: datetime, pause: str | None = None) -> Sayings:
        """Answer a word that works anywhere here; any other word, and one that the question itself takes, goes to the script.

        ``pause`` is what it follows, if it is one.
        """
        if heard.command in _MOVES and heard.command in set(self._open_question().expects):
            return self._course.answer(Answer(heard.command, self.moment(time).time, heard.slots), time)
        word = universal_word(heard.command)
        if word is not None and word.reply is not None:
            return word.reply(self._here(pause))
        if heard.command in (UniversalAnswer.BRIEFLY, UniversalAnswer.IN_FULL):
            self._terse = heard.command == UniversalAnswer.BRIEFLY
            self._record(terse_record(terse=self._terse))
            return (FewWords() if self._terse else EveryWord(), self._open_question())
        if heard.command == UniversalAnswer.GOOD_NIGHT:
            return self._leaving()
        if self._asides:
            return self._agreed_or_not(heard, time)
        match heard.command:
            case UniversalAnswer.GO_BACK:
                return self._gone_back(time)
            case UniversalAnswer.LEAVE_PART:
                return (self._course.current.stage.said_when_left, *self._course.leave(time))
            case UniversalAnswer.BEGIN_PART_AGAIN:
                return self._course.begin_again(time)
        return self._told.answer(self._course.answer(Answer(heard.command, self.moment(time).time, heard.slots), time))

    def _gone_back(self, time: datetime) -> Sayings:
        """Stand at the question before; where it offers a target that is gone by now, say so and go on to the next.

        From what took the place of such a target we go farther back: else nobody would come past it.
        """
        undone = [answer.command for answer in self._course.current.answers[-1:]]
        if not self._course.go_back():
            return (NothingToGoBackTo(), *self._course.current.sayings)
        moment = self.moment(time)
        gone = gone_meanwhile(self._course.current, moment)
        if gone is None:
            return self._course.current.sayings
        if undone == [TargetAnswer.SKIP]:
            return (gone, *self._gone_back(time))
        return (gone, *self._course.answer(Answer(TargetAnswer.SKIP, moment.time), time))

    def _agreed_or_not(self, heard: Heard, time: datetime) -> Sayings:
        """Do what we asked about only on a plain yes."""
        leads_to = self._asides.close().get(heard.command)
        return leads_to(time) if leads_to is not None else self._course.current.sayings

    def _leaving(self) -> Sayings:
        """Ask whether to end here; where there is a telescope in use, whether to pack up."""
        if self._course.current.name == _AT_THE_TELESCOPE and self._course.has(_PACKING):
            self._asides.ask_first(PackUpNow(), partial(self._course.go_to, _PACKING))
        else:
            self._asides.ask_first(LeaveNow(), self._end)
        return (self._open_question(),)

    def _end(self, _: datetime) -> Sayings:
        self._course.end()
        return (GoodNight(),)

    def _going_elsewhere(self, heard: NotNow, time: datetime) -> Sayings:
        """Go to another part, or ask first, or say why not; nothing is said where this evening has no such part."""
        jump = wanted(heard, self._course, self.moment(time))
        if jump is None:
            return ()
        self._asides.close()
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

    # --- where we stand ----------------------------------------------------------------------------------------------

    def _here(self, pause: str | None) -> Here:
        ours = self._asides or self._tour is not None
        said: Sayings = (self._open_question(),) if ours else self._told.again(self._course.current.sayings)
        return Here(
            self._open_question(),
            said,
            self._course.current,
            self._last_heard,
            self._reprompts,
            after_a_wait=pause == UniversalAnswer.WAIT,
            is_linked=self._is_linked,
            last_part_first=len(said) > _MOST_AT_ONCE and self._repeats == 1,
        )

    def _standing(self, time: datetime) -> Standing:
        course = self._course
        to_come = tuple(stage for stage in course.to_come if is_gone_through(stage, course.equipment))
        return Standing(
            self._open_question(),
            self.moment(time),
            course.place_is_known,
            course.equipment,
            course.current,
            to_come,
            course.began,
            self._named_last,
        )

    def _open_question(self) -> Ask[Answers]:
        """Return the question on top: one of our own, else the script's."""
        ours = self._asides.question or (self._tour.question if self._tour is not None else None)
        question = ours or self._course.current.question
        if question is None:
            raise RuntimeError("the evening is over; nothing more can be heard")
        return question

    def _turn(self, sayings: Sayings) -> Turn:
        self._named_last = named_in(sayings) or self._named_last
        return Turn(sayings, None if self._course.is_over else self._open_question(), self._course.current.name)
