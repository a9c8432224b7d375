"""The evening as a conversation: stages one after another, universal words at any time, and help when nothing is understood."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import datetime

from companion.dialogue.journal import Record
from companion.dialogue.memory import EveningMemory, StageMemory, answer_record, decision_record, plain, stage_record
from companion.dialogue.reprompts import Reprompts
from companion.dialogue.stage_run import StageRun
from companion.dialogue.turn import Turn
from companion.equipment import NOTHING_KNOWN, Equipment
from companion.languages import words_for
from companion.messages import Answer, Ask, Heard, Hearing, Note, NotNow, NotUnderstood, Say, Silence
from companion.procedure import SKIPPED, Context, Result, Stage
from companion.procedure.notes import KEEP, LEARNED, OUR_PLACE, corrected, learned
from companion.sky import Moment, Site

SURE = 0.8
"""An answer that changes something acts at once from this confidence on; below it is asked back. Judgement: one more word costs two
seconds, a wrong step with cold fingers costs minutes."""
VOICE_CHANGES = frozenset({"louder", "softer", "slower", "faster"})
"""Commands for the voice alone; who holds the evening sees to them."""
FREE = VOICE_CHANGES | frozenset(
    {"say-again", "carry-on", "help", "words", "why", "wait", "stop", "which-one", "which-way", "how-high"}
    | {"what-heard", "there", "lost", "what-time", "good-night", "briefly", "in-full"}
)
"""Commands that change nothing, or are confirmed anyway, and so are never asked back."""
NOWHERE = Site(0.0, 0.0)
"""Stands in until somebody tells where we are."""
_UNREPEATABLE = frozenset({"stop", "say-again", "what-heard"})
"""Words we never say ourselves, since they are live while we speak; and the question itself."""
_SIMPLE = {"wait": "waiting", "there": "still-here", "what-time": "the-time"} | dict.fromkeys(VOICE_CHANGES, "like-this")
"""Commands that always have the same reply."""
_LEAVE = Ask("leave-now", expects="yes_no")


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
        record: Callable[[Record], None] = forget,
        equipment: Equipment = NOTHING_KNOWN,
    ) -> None:
        """Take the stages in order and what is known of site and equipment; ``record`` is called before anything is acted upon."""
        self._stages = tuple(stages)
        self._site = site
        self._record = record
        self._equipment = equipment
        self._terse: bool | None = None
        self._last_heard: str | None = None
        self._runs: list[StageRun] = []
        self._reprompts = Reprompts()
        self._leaving = False
        self._left = False
        self._doubted: Heard | None = None

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
        return any(note.what == KEEP for note in self._notes())

    def words(self, saying: Say | Ask, time: datetime) -> str:
        """Return the words of a saying, spoken when our own clock reads ``time``."""
        observer = self.equipment.observer
        if self._terse is not None:
            observer = replace(observer, terse=self._terse)
        return words_for(saying, self.moment(time), observer)

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
            run = StageRun(stage, self._context(kept.started), kept.answers, kept.result)
            run.decisions.extend(kept.notes)
            self._runs.append(run)
        if len(self._runs) == len(self._stages):
            return self._turn(())
        return self._turn((Say("going-on"), *self._open_next_stage(time)))

    def hear(self, hearing: Hearing, time: datetime) -> Turn:
        """Take what was heard and answer it."""
        question = self._open_question()
        sayings: tuple[Say | Ask, ...]
        if isinstance(hearing, NotNow) and hearing.command in question.also:
            hearing = Heard(hearing.phrase, hearing.command, hearing.slots, hearing.confidence)
        match hearing:
            case Heard():
                self._reprompts.understood(hearing.command)
                sayings = self._weighed(hearing, time)
                if hearing.command not in _UNREPEATABLE:
                    self._last_heard = hearing.phrase
            case NotNow():
                sayings = self._reprompts.not_now(hearing.phrase, question)
            case NotUnderstood():
                sayings = self._reprompts.not_understood(question)
            case Silence():
                sayings = self._reprompts.silence()
        return self._turn(sayings)

    # --- what was heard ----------------------------------------------------------------------------------------------

    def _weighed(self, heard: Heard, time: datetime) -> tuple[Say | Ask, ...]:
        """Act on what is sure or costs nothing; ask the rest back."""
        doubted, self._doubted = self._doubted, None
        if doubted is not None and heard.command == "yes":
            return self._heard(doubted, time)
        if doubted is not None and heard.command == "no":
            return (self._open_question(),)
        if heard.confidence >= SURE or heard.command in FREE:
            return self._heard(heard, time)
        if heard.command in ("yes", "no"):
            # Asking back would only be answered by another yes or no.
            return (Say("not-understood"),)
        self._doubted = heard
        return (self._open_question(),)

    def _heard(self, heard: Heard, time: datetime) -> tuple[Say | Ask, ...]:
        """Answer a word that works anywhere here; any other word goes to the script."""
        asked = self._answered_at_once(heard)
        if asked is not None:
            return asked
        sayings: tuple[Say | Ask, ...]
        match heard.command:
            case "good-night":
                self._leaving = True
                sayings = (_LEAVE,)
            case "go-back":
                sayings = self._current.sayings if self._leaving else self._go_back()
                self._leaving = False
            case command if self._leaving:
                self._leaving, self._left = False, command == "yes"
                if self._left:
                    self._record({"kind": "end"})
                sayings = (Say("good-night"),) if self._left else self._current.sayings
            case "leave-part":
                sayings = (Say("part-left"), *self._close_stage(SKIPPED, time))
            case "begin-part-again":
                self._record({"kind": "anew"})
                self._runs.pop()
                sayings = self._open_next_stage(time)
            case command:
                sayings = self._answer(Answer(command, self.moment(time).time, heard.slots), time)
        return sayings

    def _answered_at_once(self, heard: Heard) -> tuple[Say | Ask, ...] | None:
        """Answer what only asks, and changes nothing; None for all else."""
        sayings: tuple[Say | Ask, ...] | None = None
        match heard.command:
            case "say-again" | "carry-on":
                sayings = (_LEAVE,) if self._leaving else self._current.sayings
            case "help":
                sayings = self._reprompts.help(self._open_question())
            case "words":
                sayings = (Say("you-can-say", {"rule": self._open_question().expects}),)
            case "why":
                sayings = (Say("help-with-step", {"question": self._open_question().phrase}),)
            case "stop":
                sayings = (Say("how-to-hold-the-mount" if self._current.stage.mount_may_move else "stopped"),)
            case "what-heard":
                sayings = (Say("last-heard", {"heard": self._last_heard}) if self._last_heard else Say("heard-nothing-yet"),)
            case "briefly" | "in-full":
                self._terse = heard.command == "briefly"
                sayings = (Say("few-words" if self._terse else "every-word"), self._open_question())
            case "lost":
                sayings = (Say("where-we-are", {"stage": self._current.stage.name}), self._open_question())
            case command if command in _SIMPLE:
                sayings = (Say(_SIMPLE[command]),)
        return sayings

    def _answer(self, answer: Answer, time: datetime) -> tuple[Say | Ask, ...]:
        self._record(answer_record(answer))
        for decision in self._current.answer(answer):
            self._record(decision_record(decision))
        result = self._current.result
        return self._current.sayings if result is None else self._current.sayings + self._close_stage(result, time)

    def _close_stage(self, result: Result, time: datetime) -> tuple[Say | Ask, ...]:
        self._current.result = result
        self._record({"kind": "result", "stage": self._current.stage.name, "result": plain(result)})
        return self._open_next_stage(time)

    def _open_next_stage(self, time: datetime) -> tuple[Say | Ask, ...]:
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

    def _resume_stage(self, stage: Stage, kept: StageMemory, time: datetime) -> tuple[Say | Ask, ...]:
        """Replay the stage that was under way; at the first difference begin it anew."""
        run = _replayed(stage, self._context(kept.started), kept)
        if run is None:
            self._record({"kind": "anew"})
            return (Say("stage-anew"), *self._open_next_stage(time))
        self._runs.append(run)
        # What was decided after the last line that reached the disk is recorded now.
        for decision in run.decisions[len(kept.decisions) :]:
            self._record(decision_record(decision))
        sayings = (Say("going-on"), *run.sayings)
        return sayings if run.result is None else sayings + self._close_stage(run.result, time)

    def _context(self, started: datetime) -> Context:
        results = {run.stage.name: run.result for run in self._runs if run.result is not None}
        told = {note.what for note in self._notes()}
        return Context(
            self.moment(started).site,
            started,
            results,
            self.equipment,
            site_is_known=self._site is not None or OUR_PLACE in told,
            something_learned=bool(told & {OUR_PLACE, LEARNED}),
        )

    def _decisions(self) -> Iterator[Ask | Note]:
        return (decision for run in self._runs for decision in run.decisions)

    def _notes(self) -> Iterator[Note]:
        return (decision for decision in self._decisions() if isinstance(decision, Note))

    def _go_back(self) -> tuple[Say | Ask, ...]:
        """Stand again at the question answered last, in this stage or the one before."""
        for kept in range(len(self._runs), 0, -1):
            if self._runs[kept - 1].take_back():
                self._record({"kind": "back"})
                del self._runs[kept:]
                return self._current.sayings
        return (Say("nothing-to-go-back-to"), *self._current.sayings)

    # --- where we stand ----------------------------------------------------------------------------------------------

    @property
    def _current(self) -> StageRun:
        return self._runs[-1]

    def _open_question(self) -> Ask:
        if self._doubted is not None:
            return Ask("did-you-say", expects="yes_no", facts={"heard": self._doubted.phrase})
        question = _LEAVE if self._leaving else self._current.question
        if question is None:
            raise RuntimeError("the evening is over; nothing more can be heard")
        return question

    def _turn(self, sayings: tuple[Say | Ask, ...]) -> Turn:
        over = self._left or (self._current.result is not None and len(self._runs) == len(self._stages))
        return Turn(sayings, None if over else self._open_question(), self._current.stage.name)


def _replayed(stage: Stage, context: Context, kept: StageMemory) -> StageRun | None:
    """Return the stage run through its recorded answers, or None where it no longer decides as was recorded."""
    try:
        run = StageRun(stage, context, kept.answers)
    except Exception:  # whatever a changed script makes of old answers, the evening must go on
        return None
    decided = [decision_record(decision) for decision in run.decisions[: len(kept.decisions)]]
    return run if decided == kept.decisions else None
