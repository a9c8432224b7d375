"""An evening with its journal, however it is held: what was heard goes in, what to say comes out, and a broken-off one is gone on with."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial
from pathlib import Path

from companion.dialogue import Conversation, EveningMemory, Journal, JournalError, Recollection, Record, Turn, read_journal, rebuild
from companion.dialogue.device_calls import failed
from companion.dialogue.journal import Flaw
from companion.documents.reader import read
from companion.equipment import Equipment
from companion.errors import CompanionError
from companion.languages import Language
from companion.live.mount_link import MountLink
from companion.live.own_clock import Clock
from companion.messages import Answer, Heard, Hearing, NotNow, NotUnderstood, Prior, Silence
from companion.observation_log import LogError, log_path, withdraw, write_down
from companion.procedure import EVENING
from companion.procedure.notes import Observed
from companion.sky import Body, Moment, Site
from companion.talk.advice import HALTS, Advice
from companion.talk.answers import HandsAnswer, TurningAnswer, UniversalAnswer, YesNoAnswer
from companion.talk.check_in_phrases import ClockMayHaveStood, ClockSetToTheLastAnswer
from companion.talk.guidance_phrases import GoOnThere, JournalDamaged, JournalOtherVersion, JournalTooLong, JournalTorn
from companion.talk.help_phrases import HelpWithStep
from companion.talk.live_phrases import JournalMended, JournalRefused, LogMended, LogRefused, ProfileRefused
from companion.talk.mount_phrases import ItMayStillTurn, ItSaysItTurns, WhileItTurns
from companion.talk.question_answers import AdviceQuestionAnswer
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Answers, Call, Say, Saying
from companion.talk.tour_phrases import TourOffered

_LOG = logging.getLogger("companion.live")
_LOG.addHandler(logging.NullHandler())
_FLAWS: Mapping[Flaw, Say] = {
    "torn": JournalTorn(),
    "damaged": JournalDamaged(),
    "other-version": JournalOtherVersion(),
    "too-long": JournalTooLong(),
}
_HELP = (UniversalAnswer.HELP, UniversalAnswer.DONT_KNOW, UniversalAnswer.WHY)
_BACK_AT_MOST, _ON_AT_MOST = timedelta(minutes=1), timedelta(days=366)
"""Between two sessions of one evening the clock may be set right by so much, and so much time may pass; else it went wrong meanwhile."""


def journal_path(home: Path) -> Path:
    """Return where the journal of the evening lies."""
    return home / "evening.jsonl"


def _nowhere(site: Site, equipment: Equipment) -> None:
    """Remember nothing: for evenings without a profile."""


class Session:
    """Begins a new evening, or goes on with the one in the journal if that is wanted.

    What the disk refuses isn't lost: it waits here, in order, and is tried again with every answer. That is said when it begins, with each
    new part of the evening, and when it is over: not before every reply, where it would drown what matters.
    """

    def __init__(
        self,
        site: Site | None,
        clock: Clock,
        journal: Journal,
        equipment: Equipment,
        *,
        language: Language,
        by_voice: bool = False,
        remember: Callable[[Site, Equipment], None] = _nowhere,
        own: tuple[Body, ...] = (),
        mount: MountLink | None = None,
        clock_runs_on: bool = True,
        is_newcomer: bool = False,
    ) -> None:
        """Take place (None: to be asked for), clock, journal, equipment and language.

        ``by_voice``: whether we are spoken to, and not only typed to. ``remember`` keeps place and equipment for the next evening, or
        raises CompanionError. ``own``: the observer's own objects.
        ``mount``: the mount on the line, where there is one. ``clock_runs_on``: whether the clock does while the machine is off; else an
        evening that is gone on with begins with the time. ``is_newcomer``: whether nothing tells of an evening before.
        """
        self.mount = mount
        self._clock = clock
        self._clock_runs_on = clock_runs_on
        self._journal = journal
        self._remember = remember
        self._site = site
        self._last_evening: datetime | None = None
        self._of_observer = partial(
            Conversation, equipment=equipment, by_voice=by_voice, own=own, calls=None if mount is None else self._call
        )
        self._language = language
        self._is_newcomer = is_newcomer
        self._conversation = self._new_conversation(site)
        self._broken_off: tuple[Recollection, EveningMemory, GoOnThere] | None = None
        self._unwritten: list[Callable[[], None]] = []
        self._held_end: Record | None = None
        self._beginning: list[Record] | None = None
        self._refused: list[Say] = []
        self._refused_in: str | None = None
        """The part of the evening in which it was last said that the disk refuses the journal; None while it doesn't."""
        self._remembered = False
        self._unlogged: list[Callable[[], None]] = []
        self._log_refused = False
        self.unremembered: CompanionError | None = None
        """Why place and equipment couldn't be kept, where that was wanted."""

    def say_first(self, news: Say) -> None:
        """Have something said before the evening's first words."""
        self._refused.append(news)

    def begin(self) -> Turn:
        """Open the evening, or ask whether to go on with the one that was broken off."""
        return self._with_refusals(self._begun())

    def hear(self, hearing: Hearing) -> Turn:
        """Take what was heard and answer it."""
        if self.mount is not None and isinstance(hearing, Heard | NotNow) and hearing.command == UniversalAnswer.STOP and self.mount.halt():
            # It is silent now; what came of the halt is said when it is known.
            return self._standing_turn()
        if self.mount is not None and isinstance(hearing, Heard | NotNow) and _halts(hearing):
            self.mount.key_pressed()
        turn = self._heard(hearing)
        if self._conversation.wants_to_be_remembered:
            self._keep_for_next_time()
        # Who said nothing, or wasn't understood, needn't hear of the disk again.
        return turn if isinstance(hearing, Silence | NotUnderstood) else self._with_refusals(turn)

    def command(self, word: UniversalAnswer) -> Turn:
        """Do what a universal word does, though nobody said it."""
        if self._broken_off is not None:
            return self.begin()
        return self._with_refusals(self._conversation.command(word, self._clock()))

    def mount_is_turning(self) -> bool:
        """Say whether a mount on the line turns: then a word that may be a halt is one."""
        return self.mount is not None and self.mount.is_turning

    def mount_news(self) -> Iterator[Say]:
        """Yield what the mount does of itself, and how a slew of ours ended that no script waits for any more."""
        if self.mount is not None:
            yield from self.mount.news()
            if self._broken_off is not None or not self._conversation.awaits(TurningAnswer):
                yield from self.mount.ended_unawaited()

    def mount_hearings(self) -> Iterator[Hearing]:
        """Yield that a slew of ours is over, where that is what is waited for."""
        if self.mount is not None and self._broken_off is None and self._conversation.expects(TurningAnswer):
            yield from self.mount.hearings()

    @property
    def expected(self) -> Prior | None:
        """What is known of the answer to the open question before it is heard; None where nothing is."""
        return None if self._broken_off is not None else self._conversation.expected(self._clock())

    @property
    def instead(self) -> tuple[type[Answers], ...]:
        """The rules whose answers are taken at the open question beside those it expects."""
        return () if self._broken_off is not None else self._conversation.instead

    def words(self, *sayings: Saying) -> str:
        """Return sayings in words, as they are true now."""
        now = self._clock()
        return " ".join(words for saying in sayings if (words := self._conversation.words(saying, now)))

    def sync(self) -> None:
        """Make sure that what was recorded survives a power cut; to be called while the turn it led to is spoken."""
        if self._unwritten[-1:] == [self._journal.sync]:
            self._write()
        else:
            self._put(self._journal.sync)

    def said_good_night(self) -> None:
        """Record that the evening is over: not before its last words were spoken, so that they are offered again where they weren't."""
        if self._held_end is not None:
            end, self._held_end = self._held_end, None
            self._put(lambda: self._journal.append(end))
            self.sync()

    # --- beginning and going on --------------------------------------------------------------------------------------

    def _begun(self) -> Turn:
        kept = read_journal(self._journal.path)
        memory = rebuild(kept.records)
        self._last_evening = memory.began
        if memory.believed < len(kept.records):
            kept = Recollection(kept.records[: memory.believed], "damaged")
        flaw = (_FLAWS[kept.flaw],) if kept.flaw else ()
        if memory.stages and memory.began is not None and not memory.ended:
            # It goes on where it began, whatever place this call names or leaves out.
            self._conversation = self._new_conversation(memory.site or self._site)
            question = GoOnThere(memory.placed(self._conversation.moment(memory.began)))
            self._broken_off = (kept, memory, question)
            if memory.stages[-1].name == EVENING[-1].name and memory.stages[-1].result is not None:
                # Only its last words were missing: they are offered this once.
                self._put(lambda: self._journal.append({"kind": "end"}))
            return Turn((*flaw, question), question, memory.stages[-1].name)
        turn = self._anew(keep_old=not memory.ended)
        return Turn((*flaw, *turn.sayings), turn.question, turn.stage)

    def _heard(self, hearing: Hearing) -> Turn:
        if self._broken_off is None:
            return self._conversation.hear(hearing, self._clock())
        kept, memory, question = self._broken_off
        answer = hearing.command if isinstance(hearing, Heard) and not hearing.is_guess else None
        if answer == YesNoAnswer.YES:
            self._broken_off = None
            return self._resumed(kept, memory)
        if answer == YesNoAnswer.NO:
            self._broken_off = None
            return self._anew(keep_old=True)
        if answer in _HELP:
            return Turn((HelpWithStep(GoOnThere), question), question, memory.stages[-1].name)
        told = self._answered_there(hearing, memory)
        return Turn((*told, AskedAgain(question) if told else question), question, memory.stages[-1].name)

    def _answered_there(self, hearing: Hearing, memory: EveningMemory) -> tuple[Saying, ...]:
        """Answer what only asks as it would be where that evening broke off; whatever a journal holds that isn't ours, the offer stands."""
        there = Conversation(EVENING, memory.site or self._site, self._language, last_evening=self._last_evening)
        try:
            there.resume(memory, self._clock())
            return there.asked(hearing, self._clock())
        except Exception:
            _LOG.exception("a journal that nothing can be asked of")
            return ()

    def _resumed(self, kept: Recollection, memory: EveningMemory) -> Turn:
        if kept.flaw:
            self._put(lambda: self._journal.begin_anew(kept.records, keep_old=True))
        try:
            went_wrong = self._clock_went_wrong(memory)
            turn = self._conversation.resume(memory, self._clock())
            if (went_wrong or not self._clock_runs_on) and not turn.finished:
                turn = self._conversation.go_to(EVENING[0].name, self._clock())
                why = ClockSetToTheLastAnswer() if went_wrong else ClockMayHaveStood()
                return replace(turn, sayings=(why, *turn.sayings))
            return self._as_the_mount_is(turn)
        except Exception:  # whatever a journal holds that isn't ours, an evening can be held
            _LOG.exception("a journal that can't be gone on with")
            turn = self._anew(keep_old=True)
            return Turn((JournalDamaged(), *turn.sayings), turn.question, turn.stage)

    def _as_the_mount_is(self, turn: Turn) -> Turn:
        """Not say "it's turning" of a slew that was cut off with us: the line tells what became of it, and without one nobody knows."""
        if not isinstance(turn.question, WhileItTurns | ItSaysItTurns):
            return turn
        told = () if self.mount is not None and self.mount.is_up else (ItMayStillTurn(),)
        return replace(turn, sayings=(*(saying for saying in turn.sayings if saying is not turn.question), *told))

    def _new_conversation(self, site: Site | None) -> Conversation:
        return self._of_observer(EVENING, site, self._language, self._record, last_evening=self._last_evening)

    def _clock_went_wrong(self, memory: EveningMemory) -> bool:
        """Say whether our clock can't have been right throughout; if so it is set to the last answer from now on."""
        if memory.last_time is None:
            return False
        clock, since = self._clock, self._clock() + memory.clock_set_by - memory.last_time
        if -_BACK_AT_MOST <= since <= _ON_AT_MOST:
            return False
        self._clock = lambda: clock() - since
        return True

    def _anew(self, *, keep_old: bool) -> Turn:
        """Begin an evening; its first records take the place of the old journal in one step, so that none is ever without any."""
        records: list[Record] = []
        self._beginning = records
        self._conversation = self._new_conversation(self._site)
        turn = self._conversation.begin(self._clock())
        self._beginning = None
        self._put(lambda: self._journal.begin_anew(records, keep_old=keep_old))
        if self._is_newcomer:
            self._is_newcomer = False
            greeting, *rest = turn.sayings
            return replace(turn, sayings=(greeting, TourOffered(), *rest))
        return turn

    # --- what is kept ------------------------------------------------------------------------------------------------

    def _record(self, record: Record) -> None:
        """Record a line; what was seen is written to its log first, so that a crash between the two costs nothing."""
        if record.get("what") == Observed.code():
            self._write_down(record)
        if record["kind"] == "end":
            self._held_end = record
        elif self._beginning is not None:
            self._beginning.append(record)
        else:
            self._put(lambda: self._journal.append(record))

    def _call(self, call: Call, id: str, moment: Moment) -> Answer:
        """Have the mount asked or told; what acts only once its record is safely on the disk, and never against the observer's wish."""
        assert self.mount is not None
        if call.acts:
            if self._conversation.hands_off:
                return failed("hands-off", moment.time)
            self.sync()
            if self._unwritten or self._beginning is not None:
                return failed("journal", moment.time)
        answer = self.mount(call, id, moment)
        if self._conversation.hands_off and "can" in answer.slots:
            # Left alone it is a mount that can only be read.
            return replace(answer, slots={**answer.slots, "can": "read", "left_alone": "yes"})
        return answer

    def _standing_turn(self) -> Turn:
        """Return where the conversation stands, with nothing to say."""
        if self._broken_off is not None:
            _, memory, question = self._broken_off
            return Turn((), question, memory.stages[-1].name)
        return self._conversation.standing()

    def _put(self, write: Callable[[], None]) -> None:
        """Write behind what still waits."""
        self._unwritten.append(write)
        self._write()

    def _write(self) -> None:
        try:
            while self._unwritten:
                self._unwritten[0]()
                del self._unwritten[0]
        except JournalError:
            return

    def _with_refusals(self, turn: Turn) -> Turn:
        """Say before a turn what the disk refuses, once in each part of the evening; once, that it no longer does."""
        self._write()
        if self._unwritten and self._refused_in != turn.stage:
            self._refused.append(JournalRefused())
        elif self._refused_in is not None and not self._unwritten:
            self._refused.append(JournalMended())
        self._refused_in = turn.stage if self._unwritten else None
        self._write_log()
        if bool(self._unlogged) is not self._log_refused:
            self._log_refused = not self._log_refused
            self._refused.append(LogRefused() if self._log_refused else LogMended())
        said, self._refused = tuple(self._refused), []
        return replace(turn, sayings=(*said, *turn.sayings))

    def _keep_for_next_time(self) -> None:
        """Have place and equipment remembered as soon as that is wanted; the last words may never be spoken."""
        if self._remembered:
            return
        self._remembered = True
        try:
            self._remember(self._conversation.moment(self._clock()).site, self._conversation.equipment)
        except CompanionError as error:
            self.unremembered = error
            self._refused.append(ProfileRefused())

    def _write_down(self, record: Record) -> None:
        """Keep or take back an observation, behind those that the disk refused."""
        observation = read(record["facts"], Observed).observation
        do = withdraw if record["kind"] == "withdrawn" else write_down
        self._unlogged.append(partial(do, log_path(self._journal.path.parent), observation))
        self._write_log()

    def _write_log(self) -> None:
        try:
            while self._unlogged:
                self._unlogged[0]()
                del self._unlogged[0]
        except LogError:
            return


def _halts(hearing: Heard | NotNow) -> bool:
    """Say whether something halts a mount that turns, whatever else it means: hands off, or a danger told of."""
    return hearing.command == HandsAnswer.HANDS_OFF or (
        hearing.command == AdviceQuestionAnswer.ADVISE and Advice(hearing.slots["advice"]) in HALTS
    )
