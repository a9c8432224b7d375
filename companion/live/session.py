"""An evening with its journal, however it is held: what was heard goes in, what to say comes out, and a broken-off one is gone on with."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path

from companion.dialogue import Conversation, EveningMemory, Journal, JournalError, Recollection, Record, Turn, read_journal, rebuild
from companion.dialogue.journal import Flaw
from companion.documents.reader import read
from companion.equipment import Equipment
from companion.languages import Language
from companion.messages import Heard, Hearing
from companion.observation_log import LogError, log_path, withdraw, write_down
from companion.procedure import EVENING
from companion.procedure.notes import Observed
from companion.sky import Site
from companion.talk.answers import UniversalAnswer, YesNoAnswer
from companion.talk.guidance_phrases import GoOnThere, JournalDamaged, JournalOtherVersion, JournalTorn
from companion.talk.live_phrases import JournalRefused, LogRefused
from companion.talk.saying import Say, Saying

_FLAWS: Mapping[Flaw, Say] = {"torn": JournalTorn(), "damaged": JournalDamaged(), "other-version": JournalOtherVersion()}
Clock = Callable[[], datetime]


def clock_from(time: datetime) -> Clock:
    """Return a clock that reads ``time`` now and runs on from there."""
    ahead = time - datetime.now(UTC)
    return lambda: datetime.now(UTC) + ahead


def journal_path(home: Path) -> Path:
    """Return where the journal of the evening lies."""
    return home / "evening.jsonl"


class Session:
    """Begins a new evening, or goes on with the one in the journal if that is wanted."""

    def __init__(
        self,
        site: Site | None,
        clock: Clock,
        journal: Journal,
        equipment: Equipment,
        *,
        language: Language,
        trouble: Callable[[str], None],
        by_voice: bool = False,
    ) -> None:
        """Take place (None: to be asked for), clock, journal, equipment and language, and who is told when the disk refuses the journal.

        ``by_voice``: whether we are spoken to, and not only typed to.
        """
        self._clock = clock
        self._journal = journal
        self._trouble = trouble
        self._conversation = Conversation(EVENING, site, language, self._record, equipment, by_voice=by_voice)
        self._broken_off: tuple[Recollection, EveningMemory] | None = None
        self._journal_lost = False
        self._log_lost = False

    def begin(self) -> Turn:
        """Open the evening, or ask whether to go on with the one that was broken off."""
        kept = read_journal(self._journal.path)
        memory = rebuild(kept.records)
        flaw = (_FLAWS[kept.flaw],) if kept.flaw else ()
        if memory.stages and not memory.ended:
            self._broken_off = (kept, memory)
            question = GoOnThere(memory.stages[0].started)
            return Turn((*flaw, question), question, memory.stages[-1].name)
        turn = self._anew(keep_old=not memory.ended)
        return Turn((*flaw, *turn.sayings), turn.question, turn.stage)

    def hear(self, hearing: Hearing) -> Turn:
        """Take what was heard and answer it."""
        if self._broken_off is None:
            return self._conversation.hear(hearing, self._clock())
        kept, memory = self._broken_off
        if isinstance(hearing, Heard) and hearing.command == YesNoAnswer.YES:
            self._broken_off = None
            if kept.flaw:
                self._keep(lambda: self._journal.begin_anew(kept.records, keep_old=True))
            return self._conversation.resume(memory, self._clock())
        if isinstance(hearing, Heard) and hearing.command == YesNoAnswer.NO:
            self._broken_off = None
            return self._anew(keep_old=True)
        return self.begin()

    def command(self, word: UniversalAnswer) -> Turn:
        """Do what a universal word does, though nobody said it."""
        return self.begin() if self._broken_off is not None else self._conversation.command(word, self._clock())

    def words(self, *sayings: Saying) -> str:
        """Return sayings in words, as they are true now."""
        now = self._clock()
        return " ".join(words for saying in sayings if (words := self._conversation.words(saying, now)))

    @property
    def to_remember(self) -> tuple[Site, Equipment] | None:
        """Place and equipment, where the observer wants them kept for the next evening."""
        if not self._conversation.wants_to_be_remembered:
            return None
        return self._conversation.moment(self._clock()).site, self._conversation.equipment

    def sync(self) -> None:
        """Make sure that what was recorded survives a power cut; to be called while the turn it led to is spoken."""
        self._keep(self._journal.sync)

    def _anew(self, *, keep_old: bool) -> Turn:
        self._keep(lambda: self._journal.begin_anew(keep_old=keep_old))
        return self._conversation.begin(self._clock())

    def _record(self, record: Record) -> None:
        """Record a line; what was seen is written to its log first, so that a crash between the two costs nothing."""
        if record.get("what") == Observed.code():
            self._write_down(record)
        self._keep(lambda: self._journal.append(record))

    def _write_down(self, record: Record) -> None:
        """Keep or take back an observation; when the disk refuses, say so once: the journal still has it."""
        observation = read(record["facts"], Observed).observation
        try:
            (withdraw if record["kind"] == "withdrawn" else write_down)(log_path(self._journal.path.parent), observation)
        except LogError:
            if not self._log_lost:
                self._trouble(self.words(LogRefused()))
            self._log_lost = True

    def _keep(self, write: Callable[[], None]) -> None:
        """Write to the journal; when the disk refuses, say so once and go on without it."""
        if self._journal_lost:
            return
        try:
            write()
        except JournalError:
            self._journal_lost = True
            self._trouble(self.words(JournalRefused()))
