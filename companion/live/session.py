"""An evening with its journal, however it is held: what was heard goes in, what to say comes out, and a broken-off one is gone on with."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from companion.dialogue import Conversation, EveningMemory, Journal, JournalError, Recollection, Record, Turn, read_journal, rebuild
from companion.equipment import Equipment
from companion.messages import Ask, Heard, Hearing, Say
from companion.procedure import EVENING
from companion.sky import Site

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

    def __init__(self, site: Site | None, clock: Clock, journal: Journal, equipment: Equipment, trouble: Callable[[str], None]) -> None:
        """Take place (None: to be asked for), clock, journal and equipment, and who is told in words when the disk refuses the journal."""
        self._clock = clock
        self._journal = journal
        self._trouble = trouble
        self._conversation = Conversation(EVENING, site, self._record, equipment)
        self._broken_off: tuple[Recollection, EveningMemory] | None = None
        self._journal_lost = False

    def begin(self) -> Turn:
        """Open the evening, or ask whether to go on with the one that was broken off."""
        kept = read_journal(self._journal.path)
        memory = rebuild(kept.records)
        flaw = (Say(f"journal-{kept.flaw}"),) if kept.flaw else ()
        if memory.stages and not memory.ended:
            self._broken_off = (kept, memory)
            question = Ask("go-on-there", "yes_no", {"started": memory.stages[0].started.isoformat()})
            return Turn((*flaw, question), question, memory.stages[-1].name)
        turn = self._anew(keep_old=not memory.ended)
        return Turn((*flaw, *turn.sayings), turn.question, turn.stage)

    def hear(self, hearing: Hearing) -> Turn:
        """Take what was heard and answer it."""
        if self._broken_off is None:
            return self._conversation.hear(hearing, self._clock())
        kept, memory = self._broken_off
        if isinstance(hearing, Heard) and hearing.command == "yes":
            self._broken_off = None
            if kept.flaw:
                self._keep(lambda: self._journal.begin_anew(kept.records, keep_old=True))
            return self._conversation.resume(memory, self._clock())
        if isinstance(hearing, Heard) and hearing.command == "no":
            self._broken_off = None
            return self._anew(keep_old=True)
        return self.begin()

    def words(self, *sayings: Say | Ask) -> str:
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
        self._keep(lambda: self._journal.append(record))

    def _keep(self, write: Callable[[], None]) -> None:
        """Write to the journal; when the disk refuses, say so once and go on without it."""
        if self._journal_lost:
            return
        try:
            write()
        except JournalError as error:
            self._journal_lost = True
            self._trouble(error.spoken)
