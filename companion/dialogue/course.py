"""The course of an evening: its parts one after another, or as the observer goes to them, every step recorded before it counts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import datetime

from companion.dialogue.device_calls import Calls, ask_nobody, failed
from companion.dialogue.journal import Record
from companion.dialogue.memory import (
    EveningMemory,
    StageMemory,
    answer_record,
    begun_record,
    decision_record,
    oneself_record,
    result_from,
    result_record,
    same_decisions,
    sending_record,
    stage_record,
    told_anew_record,
    withdrawal_record,
)
from companion.dialogue.progress import Progress, undone_by
from companion.dialogue.stage_run import StageRun
from companion.dialogue.visits import set_aside, step_back, take_up
from companion.dialogue.whereabouts import where_we_are
from companion.equipment import Equipment, Oneself
from companion.messages import Answer
from companion.procedure import Context, Stage
from companion.procedure.mount_calls import MountTold, ReadMount
from companion.procedure.notes import Learned, Observed, OurPlace, corrected, learned
from companion.sky import Body, Moment, Site
from companion.talk.guidance_phrases import GoingOn, StageAnew
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Note, Saying

NOWHERE = Site(0.0, 0.0)
"""Stands in until somebody tells where we are."""


class Course:
    """The stages of an evening, one after another or as the observer goes to them; every step is recorded before it counts."""

    def __init__(
        self,
        stages: Sequence[Stage],
        site: Site | None,
        record: Callable[[Record], None],
        equipment: Equipment,
        own: tuple[Body, ...] = (),
        *,
        calls: Calls | None = None,
        last_evening: datetime | None = None,
    ) -> None:
        """Take the stages in their usual order, what is known of site and equipment, who keeps the records, and the observer's objects.

        ``calls`` is who asks the mount on the line; None where there is none. ``last_evening``: when the one before was, where known.
        """
        self.progress = Progress(stages)
        self._site = site
        self._record = record
        self._equipment = equipment
        self._own = own
        self._linked = calls is not None
        self._calls = calls or ask_nobody
        self._sent = 0
        self._last_evening = last_evening
        self._is_over = False
        self._oneself: Oneself | None = None

    # --- where it stands ---------------------------------------------------------------------------------------------

    @property
    def current(self) -> StageRun:
        """The stage under way; the last one once the evening is over."""
        return self.progress.current

    @property
    def began(self) -> datetime:
        """When the first stage was begun."""
        return self.progress.gone[0].context.started

    @property
    def is_over(self) -> bool:
        """Whether the last stage has ended."""
        return self._is_over

    @property
    def place_is_known(self) -> bool:
        """Whether anybody told where we are."""
        return self._site is not None or any(isinstance(note, OurPlace) for note in self.notes())

    @property
    def equipment(self) -> Equipment:
        """What the observer has, by all that was told so far."""
        known = learned(self._equipment, self.progress.decisions(len(self.progress.gone)))
        return known if self._oneself is None else self._oneself.put_into(known)

    @property
    def has_no_place(self) -> bool:
        """Whether nobody has told where we are, and parts are to come that go by the sky."""
        return not self.place_is_known and bool(self.progress.to_come)

    @property
    def oneself(self) -> Oneself | None:
        """What observers told of themselves this evening; None where they told nothing."""
        return self._oneself

    def tell(self, oneself: Oneself) -> None:
        """Keep what observers told of themselves for the rest of the evening; the script under way isn't begun again for it."""
        self._record(oneself_record(oneself))
        self._oneself = oneself

    def moment(self, time: datetime) -> Moment:
        """Return where and when we are while our own clock reads ``time``, by all that was corrected so far."""
        return corrected(Moment(self._site or NOWHERE, time), self.progress.decisions(len(self.progress.gone)))

    def notes(self) -> Iterator[Note]:
        """Yield all that was noted."""
        return (decision for decision in self.progress.decisions(len(self.progress.gone)) if isinstance(decision, Note))

    # --- steps -------------------------------------------------------------------------------------------------------

    def begin(self, time: datetime) -> tuple[Saying, ...]:
        """Open the first stage."""
        self._record(begun_record(self._site, self._last_evening))
        return self._open(self.progress.first, time)

    def answer(self, answer: Answer, time: datetime) -> tuple[Saying, ...]:
        """Give the open question its answer, and go on."""
        self._take(answer)
        self._see_to_calls(time)
        return self.current.sayings + self._on_from_here(time)

    def leave(self, time: datetime) -> tuple[Saying, ...]:
        """Leave the stage under way, and go on with the next."""
        self._leave()
        return self._open_next(time)

    def begin_again(self, time: datetime) -> tuple[Saying, ...]:
        """Begin the stage under way again."""
        self._record({"kind": "anew"})
        return self._open(self.progress.gone.pop().name, time)

    def go_to(self, stage: str, time: datetime) -> tuple[Saying, ...]:
        """Go to another stage. What lies between is left out; what is under way waits where an earlier one is gone to.

        Not where the earlier one undoes it. The one under way itself is begun again.
        """
        if stage == self.current.name:
            return self.begin_again(time)
        if not self.progress.is_before(stage):
            passed = self.progress.passed_over_to(stage)[1:]
            self._leave()
            for name in passed:
                self._pass_over(name, time)
        elif self.current.name in undone_by(stage):
            self._leave()
        else:
            self._record({"kind": "aside"})
            set_aside(self.progress.gone, self.progress.waiting)
        return self._open(stage, time)

    def go_back(self) -> bool:
        """Stand again at the question answered last, or where another part was gone to; False when there is neither."""
        observed = [note for note in self.notes() if isinstance(note, Observed)]
        if not step_back(self.progress.gone, self.progress.waiting):
            return False
        self._record({"kind": "back"})
        left = [note for note in self.notes() if isinstance(note, Observed)]
        for note in observed:
            if note not in left:
                earlier = [other for other in left if other.observation.is_of_the_same_look(note.observation)]
                self._record(told_anew_record(earlier[-1]) if earlier else withdrawal_record(note))
        return True

    def end(self) -> None:
        """Record that the evening is over."""
        self._record({"kind": "end"})
        self._is_over = True

    def resume(self, memory: EveningMemory, time: datetime) -> tuple[Saying, ...]:
        """Go on where a recorded evening broke off.

        Finished stages are believed; those under way or set aside are replayed. Where a script now decides otherwise than was recorded
        (other code, other data), that stage begins anew, and what is said says so.
        """
        self._last_evening, self._oneself = memory.last_evening, memory.oneself
        for kept in memory.stages:
            stage = self.progress.stages.get(kept.name)
            if stage is None:
                break
            if kept.result is None:
                self._remember_waiting(memory.waiting)
                return self._resume_stage(stage, kept, time)
            place = len(self.progress.gone) if kept.begun_at is None else kept.begun_at
            result = result_from(stage.result, kept.result)
            context = self._context(kept.started, place, linked=kept.linked, oneself=kept.oneself)
            run = StageRun(stage, context, kept.answers, result, was_left=kept.was_left)
            run.decisions.extend(kept.notes)
            run.aside_at, run.begun_at = kept.aside_at, kept.begun_at
            self.progress.gone.append(run)
        if not self.progress.gone:
            return (GoingOn(), *self.begin(time))
        self._remember_waiting(memory.waiting)
        self._is_over = memory.ended
        if not memory.ended and not self.progress.to_come and not self.current.was_left:
            # Only the good night was still to be said.
            last = self.progress.gone.pop()
            return self._resume_stage(last.stage, memory.stages[-1], time)
        return () if memory.ended else (GoingOn(), *self._open_next(time))

    # --- how ---------------------------------------------------------------------------------------------------------

    def _on_from_here(self, time: datetime) -> tuple[Saying, ...]:
        """Close the stage under way where it has ended, and open the next; nothing where it stands at a question."""
        if self.current.result is None:
            return ()
        self._record(result_record(self.current.name, self.current.result))
        return self._open_next(time)

    def _open_next(self, time: datetime) -> tuple[Saying, ...]:
        if not self.progress.to_come:
            self.end()
            return ()
        return self._open(self.progress.to_come[0], time)

    def _open(self, stage: str, time: datetime) -> tuple[Saying, ...]:
        """Go on with a stage where it was set aside, else begin it; one that asks nothing is passed through at once."""
        if self.progress.waits(stage):
            self._record({"kind": "taken-up", "stage": stage})
            run = take_up(stage, self.progress.gone, self.progress.waiting)
            return (where_we_are(run), *(AskedAgain(question) for question in (run.question,) if question is not None))
        started = self.moment(time).time
        self._record(stage_record(stage, started, linked=self._linked, oneself=self._oneself))
        context = self._context(started, len(self.progress.gone), linked=self._linked, oneself=self._oneself)
        self.progress.gone.append(StageRun(self.progress.stages[stage], context))
        for decision in self.current.decisions:
            self._record(decision_record(decision))
        self._see_to_calls(time)
        return self.current.sayings + self._on_from_here(time)

    def _leave(self) -> None:
        self._record(result_record(self.current.name, self.current.leave(), left=True))

    def _pass_over(self, stage: str, time: datetime) -> None:
        """Have a stage stand as left out that was never opened."""
        started = self.moment(time).time
        left_out = self.progress.stages[stage].when_left
        self._record(stage_record(stage, started, oneself=self._oneself))
        self._record(result_record(stage, left_out))
        self.progress.gone.append(
            StageRun(self.progress.stages[stage], self._context(started, len(self.progress.gone), oneself=self._oneself), [], left_out)
        )

    def _resume_stage(self, stage: Stage, kept: StageMemory, time: datetime) -> tuple[Saying, ...]:
        """Replay the stage that was under way; at the first difference begin it anew."""
        run = self._replayed(stage, kept)
        if run is None:
            self._record({"kind": "anew"})
            return (StageAnew(), *self._open(stage.name, time))
        run.aside_at, run.begun_at = kept.aside_at, kept.begun_at
        self.progress.gone.append(run)
        # What was decided after the last line that reached the disk is recorded now.
        for decision in run.decisions[len(kept.decisions) :]:
            self._record(decision_record(decision))
        self._see_to_calls(time, cut_off=True)
        return (GoingOn(), *run.sayings, *self._on_from_here(time))

    def _remember_waiting(self, waiting: Sequence[StageMemory]) -> None:
        """Replay what was set aside; what doesn't come out as recorded isn't waited for."""
        for kept in waiting:
            stage = self.progress.stages.get(kept.name)
            run = None if stage is None else self._replayed(stage, kept)
            if run is not None:
                run.aside_at, run.begun_at = kept.aside_at, kept.begun_at
                self.progress.waiting.append(run)

    def _replayed(self, stage: Stage, kept: StageMemory) -> StageRun | None:
        """Return the stage run through its recorded answers, or None where it no longer decides as was recorded."""
        place = len(self.progress.gone) if kept.begun_at is None else kept.begun_at
        try:
            run = StageRun(stage, self._context(kept.started, place, linked=kept.linked, oneself=kept.oneself), kept.answers)
        except Exception:  # whatever a changed script makes of old answers, the evening must go on
            return None
        decided = [decision_record(decision) for decision in run.decisions[: len(kept.decisions)]]
        return run if same_decisions(decided, kept.decisions) else None

    def read_mount(self, time: datetime) -> MountTold | None:
        """Ask the mount on the line where it points, for somebody who asked us; None where it doesn't answer."""
        return MountTold.of(self._calls(ReadMount(), f"{time.isoformat()} asked", self.moment(time)))

    def _take(self, answer: Answer) -> None:
        """Record an answer, and what was decided on it."""
        self._record(answer_record(answer))
        for decision in self.current.answer(answer):
            self._record(decision_record(decision))

    def _see_to_calls(self, time: datetime, *, cut_off: bool = False) -> None:
        """Have the mount asked, or told, what the script wants of it, until the script asks the observer or ends.

        Where we were ``cut_off`` before that, it is only asked: whether a command was sent then nobody knows, and one that follows was
        wanted by who has perhaps gone home meanwhile. Then the script asks anew.
        """
        while (call := self.current.call) is not None:
            moment = self.moment(time)
            if cut_off and call.acts:
                self._take(failed("interrupted", moment.time))
                continue
            id = f"{moment.time.isoformat()} {self._sent}"
            if call.acts:
                self._sent += 1
                self._record(sending_record(call, id))
            self._take(self._calls(call, id, moment))

    def _context(self, started: datetime, place: int, *, linked: bool = False, oneself: Oneself | None = None) -> Context:
        """Return what a stage may know that is begun when so many visits are gone through."""
        results = {run.name: run.result for run in self.progress.gone[:place] if run.result is not None}
        decisions = list(self.progress.decisions(place))
        told = {type(decision) for decision in decisions}
        site = corrected(Moment(self._site or NOWHERE, started), decisions).site
        equipment = learned(self._equipment, decisions)
        return Context(
            site,
            started,
            results,
            equipment if oneself is None else oneself.put_into(equipment),
            site_is_known=self._site is not None or OurPlace in told,
            own=self._own,
            last_evening=self._last_evening,
            something_learned=bool(told & {OurPlace, Learned}) or (oneself is not None and oneself != Oneself.of(self._equipment)),
            linked=linked,
        )
