"""Killed at any call that changes the disk, with a mount on the line: what was sent stands in the journal, and none of it is sent again."""

from __future__ import annotations

import random
from contextlib import suppress
from pathlib import Path

import pytest

from companion.dialogue import read_journal
from companion.live import journal_path
from companion.mount import SetPlace, SetTime, Slew, Sync
from tests.english import VOCABULARY
from tests.evenings.linked import LinkedEvening, at_the_mount, hurried, scripts
from tests.evenings.script import Script
from tests.kills import Killed, killed_at
from tests.mount.memory_mount import MemoryMount

SCRIPT = Script.read(scripts()[0])
LINES = [line for line in SCRIPT.lines if not line.startswith("it:")]
UP_TO = LINES.index("you: stop")
ACTS = (SetTime, SetPlace, Sync, Slew)


def _held(evening: LinkedEvening) -> None:
    for _ in evening.begin():
        pass
    for line in LINES[:UP_TO]:
        for _ in evening.do(line):
            pass


def _killed_at(point: int | None, home: Path) -> int:
    """Hold an evening that is killed there, and go on with it; return how many calls there were."""
    mount = MemoryMount.of(SCRIPT.facts)
    with hurried():
        with at_the_mount(SCRIPT, VOCABULARY, home, mount) as evening, killed_at(point) as made, suppress(Killed):
            _held(evening)
        sent = [command for command in mount.commands if isinstance(command, ACTS)]
        written = [record for record in read_journal(journal_path(home)).records if record["kind"] == "sending"]
        assert len(sent) <= len(written), f"point {point}: {sent} of {written}"
        with at_the_mount(SCRIPT, VOCABULARY, home, mount) as again:
            for _ in again.begin():
                pass
            for _ in again.do("you: yes"):
                pass
        assert [command for command in mount.commands if isinstance(command, ACTS)] == sent, f"point {point}"
    return made()


@pytest.mark.slow
def test_what_was_sent_is_written_and_never_sent_again(tmp_path: Path) -> None:
    """Nine seeded points of all there are."""
    (tmp_path / "whole").mkdir()
    calls = _killed_at(None, tmp_path / "whole")
    for point in sorted(random.Random(16).sample(range(2, calls), 9)):
        home = tmp_path / str(point)
        home.mkdir()
        _killed_at(point, home)
