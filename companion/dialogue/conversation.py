"""The evening as a conversation: stages one after another, universal words at any time, and help when nothing is understood."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from functools import partial
from typing import Any

from companion.dialogue.asides import Asides
from companion.dialogue.course import Course
from companion.dialogue.device_calls import Calls
from companion.dialogue.doubt import SURE, YES_AND_NO, may_be_either, only_asks, sure_from
from companion.dialogue.expectations import expected_at
from companion.dialogue.floor import Floor
from companion.dialogue.gear import answered_ahead, gear_told, tells_of_gear
from companion.dialogue.guesses import Guesses
from companion.dialogue.journal import Record, forget
from companion.dialogue.jumps import is_gone_through, is_jump
from companion.dialogue.memory import EveningMemory, hands_off_record, terse_record
from companion.dialogue.moves import Moves
from companion.dialogue.oneself import LIMITS, oneself_told, tells_of_an_aid, tells_of_oneself
from companion.dialogue.pauses import Pauses
from companion.dialogue.questions import Standing, answered, is_question, named_in
from companion.dialogue.reprompts import Reprompts
from companion.dialogue.told import Told
from companion.dialogue.tour import Touring
from companion.dialogue.turn import Turn
from companion.dialogue.universal import Here, universal_word
from companion.equipment import NOTHING_KNOWN, Equipment, Oneself
from companion.languages import Language
from companion.messages import Answer, Heard, Hearing, NotNow, NotUnderstood, Prior, Silence
from companion.procedure import Result, Stage
from companion.procedure.notes import Keep
from companion.sky import Body, Moment, Site
from companion.talk.answers import ONLY_ASK, EitherAnswer, HandsAnswer, TurnAnswer, TurnReadilyAnswer, UniversalAnswer, YesNoAnswer
from companion.talk.check_in_phrases import NoSkyWithoutAPlace
from companion.talk.guidance_phrases import DidNotGetThat, EveryWord, FewWords, Waiting
from companion.talk.mount_phrases import GiveItTimeAndPlace, HandsOffIt, HandsOnAgain, MayITurnThere
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Answers, Ask, Note, Saying
from companion.talk.sight_phrases import AidNoted, LimitNoted, SightNoted
from companion.talk.turning_phrases import ShallITurnThere, ShallITurnThereToo

Sayings = tuple[Saying, ...]

_LONG_WORDS = 35
"""Of a speech of more words than this, a dozen seconds, the last part is repeated first, and all of it when it is asked for once more.
Judgement."""
_REFUSALS: Mapping[type[Ask[Any]], Answers] = {
    GiveItTimeAndPlace: YesNoAnswer.NO,
    MayITurnThere: TurnAnswer.BY_HAND,
    ShallITurnThere: TurnAnswer.BY_HAND,
    ShallITurnThereToo: TurnReadilyAnswer.BY_HAND,
}
"""Questions whether the mount may be told something or turned, and the answer that leaves it alone."""
_PAUSES = (UniversalAnswer.WAIT, UniversalAnswer.STOP)
"""After these the question is no longer the last thing said: a bare yes or no has it asked again."""
_MOVES = (UniversalAnswer.CARRY_ON, UniversalAnswer.GOOD_NIGHT, UniversalAnswer.DONT_KNOW)
"""What a question may take as an answer of its own instead."""


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
        self._by_voice = by_voice
        self._reprompts = Reprompts(by_voice=by_voice, sees_no_keys=lambda: self.equipment.observer.sight is not None)
        self._asides = Asides()
        self._touring = Touring(self._asides)
        self._floor = Floor(self._course, self._asides, self._touring)
        self._moves = Moves(self._course, self._asides, lambda: self._floor.question)
        self._guesses = Guesses(
            self._floor, self._asides, self._touring, self._reprompts, lambda heard, time: self.hear(heard, time).sayings
        )
        self._told = Told()
        self._pause: str | None = None
        self._pauses = Pauses()
        self._answered_ahead: set[type[Ask[Answers]]] = set()
        self._repeats = 0

    def moment(self, time: datetime) -> Moment:
        """Return where and when we are while our own clock reads ``time``, by all the observer has corrected so far."""
        return self._course.moment(time)

    @property
    def equipment(self) -> Equipment:
        """What the observer has, by all that was told so far."""
        return self._course.equipment

    @property
    def oneself(self) -> Oneself | None:
        """What observers told of themselves this evening; None where they told nothing."""
        return self._course.oneself

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
        return self._course.progress.results

    def words(self, saying: Saying, time: datetime) -> str:
        """Return the words of a saying, spoken when our own clock reads ``time``."""
        observer = self.equipment.observer
        if self._terse is not None:
            observer = replace(observer, terse=self._terse)
        return self._language.words(saying, self.moment(time), observer, self._own, self.equipment.mount)

    def expects(self, answers: type[Answers]) -> bool:
        """Say whether the open question expects answers of this rule."""
        return not self._course.is_over and self._floor.question.expects is answers

    def awaits(self, answers: type[Answers]) -> bool:
        """Say whether the script waits for answers of this rule, whatever question of our own stands before it."""
        question = None if self._course.is_over else self._course.current.question
        return question is not None and question.expects is answers

    @property
    def instead(self) -> tuple[type[Answers], ...]:
        """The rules whose answers are taken at the open question beside those it expects."""
        return self._floor.instead

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
        question = self._floor.question
        sayings: Sayings
        hearing = self._floor.as_answer(hearing)
        if isinstance(hearing, NotUnderstood) or (isinstance(hearing, NotNow) and not hearing.is_guess and not is_question(hearing)):
            self._asides.drop_guess()
            question = self._floor.question
        if isinstance(hearing, Heard | NotNow) and hearing.beside:
            noted = tuple(self._told_of_gear(one) for one in hearing.beside)
            turn = self.hear(replace(hearing, beside=()), time)
            return replace(turn, sayings=(*noted, *turn.sayings))
        if isinstance(hearing, Heard | NotNow) and hearing.is_guess:
            return self._turn(self._guesses.guessed(hearing, question, time))
        if isinstance(hearing, Heard | NotNow) and (shown := self._touring.hear(hearing, lambda: self._course.current.question)):
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
            case NotUnderstood(likeliest=(first, second)) if not (self._asides or self._touring) and may_be_either(first, second):
                self._asides.ask_which(first.written, second.written, partial(self._heard, first), partial(self._heard, second))
                sayings = (self._floor.question,)
            case NotUnderstood(guesses=(first, second)):
                sayings = self._guesses.either_meant(first, second, question, time)
            case NotUnderstood():
                sayings = self._missed(self._reprompts.not_understood(question))
            case Silence() if self._pauses.are_left_alone(question):
                sayings = self._pauses.words_at(question, self.moment(time), self._course.current.context)
            case Silence():
                sayings = self._reprompts.silence()
        return self._turn(self._told_ahead(sayings, time))

    def _answer(self, hearing: Hearing, time: datetime) -> Sayings:
        return self.hear(hearing, time).sayings

    def _told_ahead(self, sayings: Sayings, time: datetime) -> Sayings:
        """Answer what was told before it is asked, once: who takes it back then is asked."""
        while not (self._course.is_over or self._asides or self._touring):
            question = self._course.current.question
            answer = None if type(question) in self._answered_ahead else answered_ahead(question, self.oneself, self.moment(time).time)
            if question is None or answer is None:
                break
            self._answered_ahead.add(type(question))
            sayings = (
                *(saying for saying in sayings if saying not in (question, AskedAgain(question))),
                *self._course.answer(answer, time),
            )
        return sayings

    def asked(self, hearing: Hearing, time: datetime) -> Sayings:
        """Return the answer alone to what only asks us something; nothing for all else."""
        if not isinstance(hearing, Heard | NotNow) or not only_asks(hearing, self._floor.question):
            return ()
        return tuple(saying for saying in self.hear(hearing, time).sayings if not isinstance(saying, Ask | AskedAgain))

    def expected(self, time: datetime) -> Prior | None:
        """Return what is known of the answer to the open question before it is heard; None where nothing is, or nothing is open."""
        if self._course.is_over:
            return None
        return expected_at(self._floor.question, self.moment(time), place_is_known=self._course.place_is_known)

    def command(self, word: UniversalAnswer, time: datetime) -> Turn:
        """Do what a universal word does, though nobody said it."""
        return self._turn(self._heard(Heard("", word), time))

    def _leave_the_mount(self, question: Ask[Answers], time: datetime, *, alone: bool) -> Sayings:
        """Leave the mount alone from now on, or no longer; whether it may be moved now is answered by that, too."""
        self.hands_off = alone
        self._record(hands_off_record(on=alone))
        if not alone:
            return (HandsOnAgain(), AskedAgain(question))
        if (refused := _REFUSALS.get(type(question))) is not None:
            return (HandsOffIt(), *self._course.answer(Answer(refused, self.moment(time).time), time))
        return (HandsOffIt(), AskedAgain(question))

    def _out_of_turn(self, heard: NotNow, question: Ask[Answers], time: datetime) -> Sayings:
        """Take what is no answer to the open question: a question to us, what is told of oneself or the mount, a part to go to."""
        sayings: Sayings = ()
        if is_question(heard):
            self._last_heard = heard.written
            sayings = answered(heard, self._standing(time))
            self._pause = UniversalAnswer.WAIT if Waiting() in sayings else self._pause
            self._told.note(sayings)
        elif tells_of_oneself(heard):
            self._last_heard = heard.written
            sayings = self._told_of_oneself(heard)
        elif tells_of_gear(heard):
            self._last_heard = heard.written
            sayings = (self._told_of_gear(heard), AskedAgain(question))
        elif self._is_linked and heard.command in set(HandsAnswer):
            sayings = self._leave_the_mount(question, time, alone=heard.command == HandsAnswer.HANDS_OFF)
        elif is_jump(heard) and (sayings := self._moves.elsewhere(heard, time)):
            self._last_heard = heard.written
        if not sayings:
            return self._missed(self._reprompts.not_now(heard.written, question))
        if is_question(heard):
            self._reprompts.asked()
        else:
            self._reprompts.understood(heard.command)
        return sayings

    def _missed(self, said: Sayings) -> Sayings:
        """Return what is said to what nobody understands; typed, where that went on for long, offer to go on without an answer."""
        if self._by_voice or self._asides or self._touring or not self._reprompts.is_at_a_loss:
            return said
        return self._offer_to_go_on(not_understood=True)

    def _offer_to_go_on(self, *, not_understood: bool) -> Sayings:
        self._asides.offer_to_go_on(self._go_on_without, not_understood=not_understood)
        return (self._floor.question,)

    def _go_on_without(self, time: datetime) -> Sayings:
        """Leave the open question unanswered."""
        return self._course.answer(Answer(UniversalAnswer.SKIP, self.moment(time).time), time)

    def _told_of_gear(self, heard: NotNow) -> Saying:
        """Keep what observers told of their telescope; return what is said of it."""
        oneself, noted = gear_told(heard, self.oneself, self.equipment)
        self._course.tell(oneself)
        return noted

    def _told_of_oneself(self, heard: NotNow) -> Sayings:
        """Keep what observers told of themselves, confirm it, and put the open question in the words that now fit."""
        if heard.confidence < SURE:
            self._asides.ask_back(heard.written, lambda _: self._told_of_oneself(replace(heard, confidence=1.0)))
            return (self._floor.question,)
        oneself = oneself_told(heard, self.oneself, self.equipment)
        self._course.tell(oneself)
        noted: Saying = SightNoted(oneself.sight, oneself.eyes)
        if tells_of_an_aid(heard):
            noted = AidNoted()
        elif limit := LIMITS.get(heard.command):
            noted = LimitNoted(limit)
        return (noted, self._floor.question)

    # --- what was heard ----------------------------------------------------------------------------------------------

    def _weighed(self, heard: Heard, time: datetime) -> Sayings:
        """Act on what is sure or costs nothing; ask the rest back."""
        doubt = self._asides.take_doubt()
        if doubt is not None and heard.command in doubt.leads_to:
            return doubt.leads_to[heard.command](time)
        if doubt is not None and heard.command in (YesNoAnswer.NO, EitherAnswer.NEITHER):
            return (self._floor.question,)
        pause, self._pause = self._pause, heard.command if heard.command in _PAUSES else None
        if pause and heard.phrase in self._language.yes_and_no:
            return (self._floor.question,)
        word = universal_word(heard.command)
        costs_nothing = heard.command in ONLY_ASK if word is None else not word.changes
        prior = self.expected(time) if heard.slots else None
        if costs_nothing or heard.confidence >= sure_from(heard, prior, self._language.easily_confused):
            return self._heard(heard, time, pause)
        if heard.command in YES_AND_NO:
            # Asking back would only be answered by another yes or no.
            return (DidNotGetThat(),)
        self._asides.ask_back(heard.written, partial(self._heard, heard))
        return (self._floor.question,)

    def _heard(self, heard: Heard, time: datetime, pause: str | None = None) -> Sayings:
        """Answer a word that works anywhere here; any other word, and one that the question itself takes, goes to the script.

        ``pause`` is what it follows, if it is one.
        """
        if heard.command in _MOVES and heard.command in set(self._floor.question.expects):
            return self._course.answer(Answer(heard.command, self.moment(time).time, heard.slots), time)
        if heard.command == UniversalAnswer.DONT_KNOW and self._reprompts.does_not_know and not (self._asides or self._touring):
            return self._offer_to_go_on(not_understood=False)
        word = universal_word(heard.command)
        if word is not None and word.reply is not None:
            return word.reply(self._here(pause, time))
        if heard.command in (UniversalAnswer.BRIEFLY, UniversalAnswer.IN_FULL):
            self._terse = heard.command == UniversalAnswer.BRIEFLY
            self._record(terse_record(terse=self._terse))
            return (FewWords() if self._terse else EveryWord(), self._floor.question)
        if heard.command == UniversalAnswer.GOOD_NIGHT:
            return self._moves.leave()
        if self._asides:
            return self._agreed_or_not(heard, time)
        match heard.command:
            case UniversalAnswer.GO_BACK:
                return self._moves.back(time)
            case UniversalAnswer.LEAVE_PART if self._course.has_no_place:
                return (NoSkyWithoutAPlace(), AskedAgain(self._floor.question))
            case UniversalAnswer.LEAVE_PART:
                return (self._course.current.stage.said_when_left, *self._course.leave(time))
            case UniversalAnswer.BEGIN_PART_AGAIN:
                return self._course.begin_again(time)
        return self._told.answer(self._course.answer(Answer(heard.command, self.moment(time).time, heard.slots), time))

    def _agreed_or_not(self, heard: Heard, time: datetime) -> Sayings:
        """Do what we asked about only on a plain yes."""
        leads_to = self._asides.close().get(heard.command)
        return leads_to(time) if leads_to is not None else self._course.current.sayings

    # --- where we stand ----------------------------------------------------------------------------------------------

    def _here(self, pause: str | None, time: datetime) -> Here:
        ours = self._asides or self._touring
        said: Sayings = (self._floor.question,) if ours else self._told.again(self._course.current.sayings)
        return Here(
            self._floor.question,
            self._last_part(said, time) if self._repeats == 1 else said,
            self._course.current,
            self._last_heard,
            self._reprompts,
            after_a_wait=pause == UniversalAnswer.WAIT,
            is_linked=self._is_linked,
        )

    def _last_part(self, said: Sayings, time: datetime) -> Sayings:
        """Return the end of a long speech: what was said last, and of a question that is long by itself its short form."""
        if self._words_in(said, time) <= _LONG_WORDS:
            return said
        last = said[-1]
        return (AskedAgain(last) if isinstance(last, Ask) and self._words_in((last,), time) > _LONG_WORDS else last,)

    def _words_in(self, said: Sayings, time: datetime) -> int:
        return sum(len(self.words(saying, time).split()) for saying in said)

    def _standing(self, time: datetime) -> Standing:
        course = self._course
        to_come = tuple(stage for stage in course.progress.to_come if is_gone_through(stage, course.equipment))
        return Standing(
            self._floor.question,
            self.moment(time),
            course.place_is_known,
            course.equipment,
            course.current,
            to_come,
            course.began,
            self._named_last,
            partial(course.read_mount, time) if self._is_linked else None,
        )

    def _turn(self, sayings: Sayings) -> Turn:
        self._named_last = named_in(sayings) or self._named_last
        return Turn(sayings, None if self._course.is_over else self._floor.question, self._course.current.name)
