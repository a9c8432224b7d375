"""Evenings whose clock jumps: ``python -m tests.jumping_clock [EVENINGS [SEED]]``.

Random answers; between them the machine's clock is set three hours or a day on or back, its zone is changed, and the program is cut off
and started again, then with a clock that shows anything, a year without a sky, too. Nothing may be lost, and every sentence must have
words. (Where the system has a clock that nobody sets, an evening under way doesn't see the first kind of jump at all.)
"""

from __future__ import annotations

import os
import random
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

from companion.dialogue import Journal, Turn, read_journal, rebuild
from companion.equipment import Equipment
from companion.live import Session, journal_path
from companion.messages import Heard, NotNow
from companion.sky import Site
from companion.talk.answers import UniversalAnswer
from companion.talk.guidance_phrases import GoOnThere, JournalDamaged, StageAnew
from tests.dialogue.test_walking import answers_to
from tests.english import ENGLISH, VOCABULARY

SITES = (
    Site(46.31, -67.52, zone="America/Moncton"),
    Site(-33.4, 149.6, zone="Australia/Sydney"),
    Site(69.7, 19.0, zone="Europe/Oslo"),
    None,
)
JUMPS = tuple(timedelta(hours=hours) for hours in (3, -3, 24, -24))
LOST = (timedelta(0), *JUMPS, *(timedelta(days=days) for days in (400, -400, 15_000, -20_000)))
"""While it was switched off, or by who sets it."""
ZONES = ("Asia/Tokyo", "America/St_Johns", "UTC", "Australia/Lord_Howe")
ASKED = (
    "where is Vega",
    "what time is it",
    "when does the Moon rise",
    "how long until dark",
    "go to the targets",
    "where are we",
    "go back",
)
TURNS = 60


class Machine:
    """Its clock, which runs a minute an answer."""

    def __init__(self, begins: datetime) -> None:
        """Take when it begins."""
        self.time = begins

    def clock(self) -> datetime:
        """Read it."""
        return self.time


def _answer(turn: Turn, chance: random.Random) -> Heard | NotNow | None:
    assert turn.question is not None
    if chance.random() < 0.15:
        heard = VOCABULARY.understand(chance.choice(ASKED), turn.question.expects)
        return heard if isinstance(heard, Heard | NotNow) else None
    likely = [heard for heard in answers_to(turn.question) if heard.command != UniversalAnswer.GOOD_NIGHT]
    return chance.choice(likely)


def held(chance: random.Random, counts: Counter[str]) -> Iterator[str]:
    """Hold one evening, and yield what went wrong; ``counts`` has what happened in it."""
    machine, site = Machine(datetime(2026, 10, 15, 21, tzinfo=UTC) + timedelta(days=chance.randrange(300))), chance.choice(SITES)
    with tempfile.TemporaryDirectory() as name:
        path, turns = journal_path(Path(name)), count()
        while next(turns) < TURNS:
            before = rebuild(read_journal(path).records)
            with Journal(path) as journal:
                session = Session(site, machine.clock, journal, Equipment(), language=ENGLISH, clock_runs_on=chance.random() < 0.7)
                turn = session.begin()
                if isinstance(turn.question, GoOnThere):
                    counts["resumes"] += 1
                    session.words(*turn.sayings)
                    turn = session.hear(Heard("yes", "yes"))
                    if StageAnew() in turn.sayings or JournalDamaged() in turn.sayings:
                        yield f"a part was begun anew after {before.stages[-1].name}"
                while next(turns) < TURNS:
                    if not all(session.words(saying) for saying in turn.sayings):
                        yield f"no words among {turn.sayings}"
                    if turn.finished or chance.random() < 0.04:
                        break
                    if chance.random() < 0.2:
                        counts["jumps"] += 1
                        machine.time += chance.choice(JUMPS)
                    if chance.random() < 0.05:
                        os.environ["TZ"] = chance.choice(ZONES)
                        time.tzset()
                    machine.time += timedelta(minutes=1)
                    heard = _answer(turn, chance)
                    if heard is not None:
                        turn = session.hear(heard)
                        counts["answers"] += 1
            machine.time += chance.choice(LOST)
            kept = read_journal(path)
            if kept.flaw or rebuild(kept.records).believed < len(kept.records):
                yield f"the journal is {kept.flaw}"
            if turn.finished:
                return


def sweep(evenings: int, seed: int, counts: Counter[str]) -> Iterator[str]:
    """Yield what went wrong in so many evenings."""
    zone = os.environ.get("TZ")
    try:
        for number in range(evenings):
            try:
                yield from (f"evening {number}: {wrong}" for wrong in held(random.Random(f"{seed} {number}"), counts))
            except Exception:
                yield f"evening {number}: {traceback.format_exc()}"
    finally:
        os.environ.pop("TZ") if zone is None else os.environ.update(TZ=zone)
        time.tzset()


def main() -> int:
    """Sweep, and print what went wrong and what was looked at."""
    evenings, seed = (int(number) for number in (*sys.argv[1:3], *("50", "1")[len(sys.argv) - 1 :]))
    counts, found = Counter[str](), 0
    for wrong in sweep(evenings, seed, counts):
        found += 1
        print(wrong, flush=True)
    print(f"{evenings} evenings, {found} findings; {dict(counts)}")
    return int(found > 0)


if __name__ == "__main__":
    sys.exit(main())
