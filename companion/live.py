"""The companion in the field, in real time. Here: typed lines in and printed lines out, one line an utterance."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from companion.dialogue import Conversation, Journal, JournalError, Recollection, Record, Turn, recollect, remember
from companion.events import Ask, Heard, Say
from companion.hearing import understand
from companion.procedure import EVENING
from companion.sky import Moment, Site
from companion.vocabulary import Vocabulary
from companion.wording import words_for

Clock = Callable[[], datetime]


def clock_from(time: datetime) -> Clock:
    """Return a clock that reads ``time`` now and runs on from there."""
    ahead = time - datetime.now(UTC)
    return lambda: datetime.now(UTC) + ahead


@dataclass
class TypedEvening:
    """An evening over typed lines. What was said before a break is found in the journal, and offered to go on from."""

    site: Site
    vocabulary: Vocabulary
    clock: Clock
    say: Callable[[str], None]
    """Receives one utterance a call, without a line break inside, so that a screen reader or braille display can follow."""
    journal: Journal
    _journal_lost: bool = False

    def hold(self, lines: Iterable[str]) -> bool:
        """Hold the evening; return whether it came to its end (else the lines ran out)."""
        typed = iter(lines)
        turn = self._open(typed)
        for line in typed:
            if turn is None or turn.question is None:
                break
            turn = self._conversation.hear(
                understand(line, self.vocabulary.active(turn.question.expects), self.vocabulary.everything), self.clock()
            )
            self._tell(turn)
            if turn.finished:
                break
        return turn is not None and turn.finished

    def _open(self, typed: Iterator[str]) -> Turn | None:
        """Begin a new evening, or go on with the one in the journal if that is wanted; None when the lines end before that is known."""
        kept = recollect(self.journal.path)
        memory = remember(kept.records)
        self._tell_flaw(kept)
        self._conversation = Conversation(EVENING, self.site, self._record)
        if memory.stages and not memory.ended:
            go_on = self._ask_yes_no(Ask("go-on-there", "yes_no", {"started": memory.stages[0].started.isoformat()}), typed)
            if go_on is None:
                return None
            if go_on:
                if kept.flaw:
                    self._keep(lambda: self.journal.begin_anew(kept.records, keep_old=True))
                turn = self._conversation.resume(memory, self.clock())
                self._tell(turn)
                return turn
        self._keep(lambda: self.journal.begin_anew(keep_old=not memory.ended))
        turn = self._conversation.begin(self.clock())
        self._tell(turn)
        return turn

    def _ask_yes_no(self, question: Ask, typed: Iterator[str]) -> bool | None:
        self._say(question)
        for line in typed:
            heard = understand(line, self.vocabulary.active(question.expects))
            if isinstance(heard, Heard) and heard.command in ("yes", "no"):
                return heard.command == "yes"
            self._say(question)
        return None

    def _tell(self, turn: Turn) -> None:
        """Speak a turn; what it rests on reaches the disk meanwhile."""
        self._say(*turn.sayings)
        self._keep(self.journal.sync)

    def _tell_flaw(self, kept: Recollection) -> None:
        if kept.flaw:
            self._say(Say(f"journal-{kept.flaw}"))

    def _say(self, *sayings: Say | Ask) -> None:
        words = " ".join(words_for(saying, Moment(self.site, self.clock())) for saying in sayings)
        if words:
            self.say(words)

    def _record(self, record: Record) -> None:
        self._keep(lambda: self.journal.append(record))

    def _keep(self, write: Callable[[], None]) -> None:
        """Write to the journal; when the disk refuses, say so once and go on without it."""
        if self._journal_lost:
            return
        try:
            write()
        except JournalError as error:
            self._journal_lost = True
            self.say(error.spoken)


def journal_path(home: Path) -> Path:
    """Return where the journal of the evening lies."""
    return home / "evening.jsonl"
