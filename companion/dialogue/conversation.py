"""The evening as a conversation: stages one after another, universal words at any time, and help when nothing is understood."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from companion.dialogue.journal import Record
from companion.dialogue.memory import (
    EveningMemory,
    StageMemory,
    answer_record,
    decision_record,
    result_from,
    result_record,
    same_decisions,
    stage_record,
    withdrawal_record,
)
from companion.dialogue.questions import Standing, answered, is_gone_through, is_question, named_in
from companion.dialogue.reprompts import Reprompts
from companion.dialogue.stage_run import StageRun
from companion.dialogue.turn import Turn
from companion.dialogue.universal import Here, universal_word
from companion.equipment import NOTHING_KNOWN, Equipment
from companion.languages import Language
from companion.messages import Answer, Heard, Hearing, NotNow, NotUnderstood, Silence
from companion.procedure import Context, Result, Skipped, Stage
from companion.procedure.notes import Keep, Learned, Observed, OurPlace, corrected, learned
from companion.sky import Moment, Site
from companion.talk.answers import ONLY_ASK, UniversalAnswer, YesNoAnswer
from companion.talk.guidance_phrases import (
    DidNotGetThat,
    DidYouSay,
    EveryWord,
    FewWords,
    GoingOn,
    LeaveNow,
    NothingToGoBackTo,
    PartLeft,
    StageAnew,
)
from companion.talk.saying import Answers, Ask, Note, Saying
from companion.talk.targets_phrases import GoodNight

SURE = 0.8
"""An answer that changes something acts at once from this confidence on; below it is asked back. Judgement: one more word costs two
seconds, a wrong step with cold fingers costs minutes."""
NOWHERE = Site(0.0, 0.0)
"""Stands in until somebody tells where we are."""


@dataclass(frozen=True)
class _Aside:
    """A question of our own that stands before the script's."""

    question: Ask[YesNoAnswer]
    doubted: Heard | None = None
    """What it asks back; None where it asks whether to leave."""


_PAUSES = (UniversalAnswer.WAIT, UniversalAnswer.STOP)
"""After these the question is no longer the last thing said: a bare yes or no has it asked again."""
_LEAVING = _Aside(LeaveNow())


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
    ) -> None:
        """Take the stages in order and what is known of site and equipment; ``record`` is called before anything is acted upon."""
        self._stages = tuple(stages)
        self._site = site
        self._language = language
        self._record = record
        self._equipment = equipment
        self._terse: bool | None = None
        self._last_heard: str | None = None
        self._named_last: str | None = None
        self._runs: list[StageRun] = []
        self._reprompts = Reprompts()
        self._asides: list[_Aside] = []
        self._left = False
        self._paused = False

    def moment(self, time: datetime) -> Moment:
        """Return where and when we are while our own clock reads ``time``, by all the observer has corrected so far."""
        return corrected(Moment(self._site or NOWHERE, time), self._decisions())

    @property
    def equipment(self) -> Equipment:
        """What the observer has, by all that was told so far."""
        return learned(self._equipment, self._decisions())

    @property
    def wants_to_be_remembered(self) -> bool:
        """Whether the observer wants place and equipment kept for the next evening."""
        return any(isinstance(note, Keep) for note in self._notes())

    def words(self, saying: Saying, time: datetime) -> str:
        """Return the words of a saying, spoken when our own clock reads ``time``."""
        observer = self.equipment.observer
        if self._terse is not None:
            observer = replace(observer, terse=self._terse)
        return self._language.words(saying, self.moment(time), observer)

    def begin(self, time: datetime) -> Turn:
        """Open the evening."""
        return self._turn(self._open_next_stage(time))

    def resume(self, memory: EveningMemory, time: datetime) -> Turn:
        """Go on where a recorded evening broke off.

        Finished stages are believed, only the one under way is replayed. Where the script now decides otherwise than was recorded
        (other code, other data), that stage begins anew, and the turn says so.
        """
        for stage, kept in zip(self._stages, memory.stages, strict=False):
            if stage.name != kept.name:
                break
            if kept.result is None:
                return self._turn(self._resume_stage(stage, kept, time))
            run = StageRun(stage, self._context(kept.started), kept.answers, result_from(stage.result, kept.result))
            run.decisions.extend(kept.notes)
            self._runs.append(run)
        if len(self._runs) == len(self._stages):
            return self._turn(())
        return self._turn((GoingOn(), *self._open_next_stage(time)))

    def hear(self, hearing: Hearing, time: datetime) -> Turn:
        """Take what was heard and answer it."""
        question = self._open_question()
        sayings: tuple[Saying, ...]
        if isinstance(hearing, NotNow) and any(hearing.command in set(rule) for rule in question.also):
            hearing = Heard(hearing.phrase, hearing.command, hearing.slots, hearing.confidence)
        match hearing:
            case Heard():
                self._reprompts.understood(hearing.command)
                sayings = self._weighed(hearing, time)
                word = universal_word(hearing.command)
                if word is None or word.may_be_quoted:
                    self._last_heard = hearing.phrase
            case NotNow() if is_question(hearing):
                self._reprompts.understood(hearing.command)
                self._last_heard = hearing.phrase
                sayings = answered(hearing, self._standing(time))
            case NotNow():
                sayings = self._reprompts.not_now(hearing.phrase, question)
            case NotUnderstood():
                sayings = self._reprompts.not_understood(question)
            case Silence():
                sayings = self._reprompts.silence()
        return self._turn(sayings)

    def command(self, word: UniversalAnswer, time: datetime) -> Turn:
        """Do what a universal word does, though nobody said it."""
        return self._turn(self._heard(Heard("", word), time))

    @property
    def results(self) -> tuple[Result, ...]:
        """What the finished stages found out, in order."""
        return tuple(run.result for run in self._runs if run.result is not None)

    # --- what was heard ----------------------------------------------------------------------------------------------

    def _weighed(self, heard: Heard, time: datetime) -> tuple[Saying, ...]:
        """Act on what is sure or costs nothing; ask the rest back."""
        doubted = self._asides.pop().doubted if self._asides and self._asides[-1].doubted is not None else None
        if doubted is not None and heard.command == YesNoAnswer.YES:
            return self._heard(doubted, time)
        if doubted is not None and heard.command == YesNoAnswer.NO:
            return (self._open_question(),)
        paused, self._paused = self._paused, heard.command in _PAUSES
        if paused and heard.phrase in self._language.yes_and_no:
            return (self._open_question(),)
        word = universal_word(heard.command)
        costs_nothing = heard.command in ONLY_ASK if word is None else not word.changes
        if heard.confidence >= SURE or costs_nothing:
            return self._heard(heard, time)
        if heard.command in set(YesNoAnswer) - {YesNoAnswer.SKIP}:
            # Asking back would only be answered by another yes or no.
            return (DidNotGetThat(),)
        self._asides.append(_Aside(DidYouSay(heard.phrase), heard))
        return (self._open_question(),)

    def _heard(self, heard: Heard, time: datetime) -> tuple[Saying, ...]:
        """Answer a word that works anywhere here; any other word goes to the script."""
        word = universal_word(heard.command)
        if word is not None and word.reply is not None:
            return word.reply(self._here())
        if heard.command in (UniversalAnswer.BRIEFLY, UniversalAnswer.IN_FULL):
            self._terse = heard.command == UniversalAnswer.BRIEFLY
            return (FewWords() if self._terse else EveryWord(), self._open_question())
        if heard.command == UniversalAnswer.GOOD_NIGHT:
            self._asides.append(_LEAVING)
            return (_LEAVING.question,)
        if self._asides:
            return self._leave_or_stay(heard)
        match heard.command:
            case UniversalAnswer.GO_BACK:
                return self._go_back()
            case UniversalAnswer.LEAVE_PART:
                return (PartLeft(), *self._close_stage(Skipped(), time))
            case UniversalAnswer.BEGIN_PART_AGAIN:
                self._record({"kind": "anew"})
                self._runs.pop()
                return self._open_next_stage(time)
        return self._answer(Answer(heard.command, self.moment(time).time, heard.slots), time)

    def _leave_or_stay(self, heard: Heard) -> tuple[Saying, ...]:
        """End the evening only on a plain yes."""
        self._asides.clear()
        if heard.command != YesNoAnswer.YES:
            return self._current.sayings
        self._left = True
        self._record({"kind": "end"})
        return (GoodNight(),)

    def _here(self) -> Here:
        said = (self._asides[-1].question,) if self._asides else self._current.sayings
        return Here(self._open_question(), said, self._current.stage, self._last_heard, self._reprompts)

    def _answer(self, answer: Answer, time: datetime) -> tuple[Saying, ...]:
        self._record(answer_record(answer))
        for decision in self._current.answer(answer):
            self._record(decision_record(decision))
        result = self._current.result
        return self._current.sayings if result is None else self._current.sayings + self._close_stage(result, time)

    # --- stages ------------------------------------------------------------------------------------------------------

    def _close_stage(self, result: Result, time: datetime) -> tuple[Saying, ...]:
        self._current.result = result
        self._record(result_record(self._current.stage.name, result))
        return self._open_next_stage(time)

    def _open_next_stage(self, time: datetime) -> tuple[Saying, ...]:
        """Begin the next stage; a stage that asks nothing is passed through at once."""
        if len(self._runs) == len(self._stages):
            self._record({"kind": "end"})
            return ()
        stage = self._stages[len(self._runs)]
        started = self.moment(time).time
        self._record(stage_record(stage.name, started))
        self._runs.append(StageRun(stage, self._context(started)))
        for decision in self._current.decisions:
            self._record(decision_record(decision))
        sayings, result = self._current.sayings, self._current.result
        return sayings if result is None else sayings + self._close_stage(result, time)

    def _resume_stage(self, stage: Stage, kept: StageMemory, time: datetime) -> tuple[Saying, ...]:
        """Replay the stage that was under way; at the first difference begin it anew."""
        run = _replayed(stage, self._context(kept.started), kept)
        if run is None:
            self._record({"kind": "anew"})
            return (StageAnew(), *self._open_next_stage(time))
        self._runs.append(run)
        # What was decided after the last line that reached the disk is recorded now.
        for decision in run.decisions[len(kept.decisions) :]:
            self._record(decision_record(decision))
        sayings = (GoingOn(), *run.sayings)
        return sayings if run.result is None else sayings + self._close_stage(run.result, time)

    def _context(self, started: datetime) -> Context:
        results = {run.stage.name: run.result for run in self._runs if run.result is not None}
        told = {type(note) for note in self._notes()}
        return Context(
            self.moment(started).site,
            started,
            results,
            self.equipment,
            site_is_known=self._place_is_known,
            something_learned=bool(told & {OurPlace, Learned}),
        )

    def _standing(self, time: datetime) -> Standing:
        to_come = tuple(stage.name for stage in self._stages[len(self._runs) :] if is_gone_through(stage.name, self.equipment))
        return Standing(
            self._open_question(), self.moment(time), self._place_is_known, self.equipment, self._current, to_come, self._named_last
        )

    @property
    def _place_is_known(self) -> bool:
        return self._site is not None or any(isinstance(note, OurPlace) for note in self._notes())

    def _decisions(self) -> Iterator[Ask[Answers] | Note]:
        return (decision for run in self._runs for decision in run.decisions)

    def _notes(self) -> Iterator[Note]:
        return (decision for decision in self._decisions() if isinstance(decision, Note))

    def _go_back(self) -> tuple[Saying, ...]:
        """Stand again at the question answered last, in this stage or the one before."""
        noted = [note for note in self._notes() if isinstance(note, Observed)]
        for kept in range(len(self._runs), 0, -1):
            if self._runs[kept - 1].take_back():
                self._record({"kind": "back"})
                del self._runs[kept:]
                for note in noted:
                    if note not in self._notes():
                        self._record(withdrawal_record(note))
                return self._current.sayings
        return (NothingToGoBackTo(), *self._current.sayings)

    # --- where we stand ----------------------------------------------------------------------------------------------

    @property
    def _current(self) -> StageRun:
        return self._runs[-1]

    def _open_question(self) -> Ask[Answers]:
        """Return the question on top: one of our own, else the script's."""
        question = self._asides[-1].question if self._asides else self._current.question
        if question is None:
            raise RuntimeError("the evening is over; nothing more can be heard")
        return question

    def _turn(self, sayings: tuple[Saying, ...]) -> Turn:
        self._named_last = named_in(sayings) or self._named_last
        over = self._left or (self._current.result is not None and len(self._runs) == len(self._stages))
        return Turn(sayings, None if over else self._open_question(), self._current.stage.name)


def _replayed(stage: Stage, context: Context, kept: StageMemory) -> StageRun | None:
    """Return the stage run through its recorded answers, or None where it no longer decides as was recorded."""
    try:
        run = StageRun(stage, context, kept.answers)
    except Exception:  # whatever a changed script makes of old answers, the evening must go on
        return None
    decided = [decision_record(decision) for decision in run.decisions[: len(kept.decisions)]]
    return run if same_decisions(decided, kept.decisions) else None
