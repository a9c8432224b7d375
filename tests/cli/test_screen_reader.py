"""The typed mode as a screen reader, a braille display or a pipe gets it: whole lines, nothing redrawn, no timing, the question last."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from companion.dialogue import Journal
from companion.live import hold_typed
from companion.live.session import Session, journal_path
from companion.messages import NotUnderstood
from companion.talk.saying import Ask
from tests.dialogue.test_jumps import KIT, NIGHT, SITE, TO_STAGE, Evening
from tests.english import ENGLISH, VOCABULARY

TOP = Path(__file__).parents[2]
TYPED = (
    "yes",
    "no that's not it",
    "help",
    "teach me",
    "repeat that",
    "leave the tour",
    "I'm blind",
    "my child looks for me",
    "go back",
    "yes",
)
COMMAND = (sys.executable, "-m", "companion", "start", "--text", "--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T20:30:00-03:00")
BRAILLE_COLUMNS = 40
"""A usual braille display has forty cells. Common practice, no published source."""


def _environment(tmp_path: Path) -> dict[str, str]:
    return {**os.environ, "COMPANION_HOME": str(tmp_path), "COLUMNS": str(BRAILLE_COLUMNS), "LINES": "2", "TERM": "xterm-256color"}


def _through_a_pipe(tmp_path: Path) -> bytes:
    typed = "".join(f"{line}\n" for line in TYPED).encode()
    done = subprocess.run(COMMAND, input=typed, capture_output=True, env=_environment(tmp_path), timeout=60, check=False, cwd=TOP)
    assert done.stderr == b""
    return done.stdout


def _on_a_terminal(tmp_path: Path) -> bytes:
    """Return what a terminal of forty columns and two lines is sent, without what it echoes itself."""
    import fcntl  # noqa: PLC0415 - there are no such terminals everywhere
    import pty  # noqa: PLC0415
    import struct  # noqa: PLC0415
    import termios  # noqa: PLC0415

    ours, its = pty.openpty()
    fcntl.ioctl(its, termios.TIOCSWINSZ, struct.pack("HHHH", 2, BRAILLE_COLUMNS, 0, 0))
    settings = termios.tcgetattr(its)
    settings[3] &= ~termios.ECHO
    termios.tcsetattr(its, termios.TCSANOW, settings)
    program = subprocess.Popen(COMMAND, stdin=its, stdout=its, stderr=its, env=_environment(tmp_path), cwd=TOP, close_fds=True)
    os.close(its)
    os.write(ours, "".join(f"{line}\n" for line in TYPED).encode() + b"\x04")
    sent = b""
    while True:
        try:
            piece = os.read(ours, 4096)
        except OSError:  # the other end is closed
            break
        if not piece:
            break
        sent += piece
    program.wait(timeout=60)
    os.close(ours)
    return sent.replace(b"\r\n", b"\n")


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="no such terminals there")
def test_a_narrow_terminal_gets_what_a_pipe_gets(tmp_path: Path) -> None:
    """The same bytes: whole lines, each an utterance, no control codes, no colours, no bell, no line broken or drawn anew."""
    piped, shown = _through_a_pipe(tmp_path / "pipe"), _on_a_terminal(tmp_path / "terminal")
    assert shown == piped
    text = piped.decode("utf-8")
    assert text.endswith("\n")
    assert re.search(r"[^\n\x20-\x7e]", text) is None
    lines = text.splitlines()
    assert len(lines) == 1 + len(TYPED)
    assert all(line.startswith("it:  ") and len(line) > BRAILLE_COLUMNS / 2 for line in lines)


def test_the_question_is_last_and_alone() -> None:
    """In every turn from the greeting to the targets there is at most one question, and nothing is said behind it."""
    evening = Evening()
    turns = [evening.turn]
    for lines in TO_STAGE.values():
        for line in (*lines[:-1], "where is Vega", "help", *lines[-1:]):
            turns.append(evening.says(line))
    asked = [turn for turn in turns if any(isinstance(saying, Ask) for saying in turn.sayings)]
    assert len(asked) > 20
    for turn in asked:
        assert [isinstance(saying, Ask) for saying in turn.sayings].index(True) == len(turn.sayings) - 1
        assert turn.sayings[-1] == turn.question


@pytest.mark.parametrize("pause", [timedelta(seconds=1), timedelta(hours=2)])
def test_nothing_is_timed(tmp_path: Path, pause: timedelta) -> None:
    """Who takes two hours for a line hears no more and loses nothing: each line is answered by one line, whenever it comes."""
    now, said = NIGHT, list[str]()

    def typed() -> Iterator[str]:
        nonlocal now
        for number, line in enumerate(("yes", "yes", "help", "say that again"), 1):
            now += pause
            assert len(said) == number
            yield line

    def clock() -> datetime:
        return now

    with Journal(journal_path(tmp_path)) as journal:
        hold_typed(Session(SITE, clock, journal, KIT, language=ENGLISH), VOCABULARY, typed(), said.append)
    assert len(said) == 5


def test_a_mistake_is_named_in_words_and_can_be_undone() -> None:
    """What isn't understood is said to be so, then what can be said; an answer is taken back by one phrase; nothing rests on colour."""
    evening = Evening("ground")
    evening.turn = evening.conversation.hear(NotUnderstood(), evening.now)
    assert "didn't get" in " ".join(evening.conversation.words(saying, evening.now) for saying in evening.turn.sayings)
    evening.turn = evening.conversation.hear(NotUnderstood(), evening.now)
    assert "You can say" in " ".join(evening.conversation.words(saying, evening.now) for saying in evening.turn.sayings)
    before = evening.turn.question
    assert evening.says("ready").question != before
    assert evening.says("go back").question == before


def test_every_row_of_the_table_of_access_names_a_test_that_exists() -> None:
    """The table in DEVELOPERS.md: each clause has at least one test, by file and name; none has gone or been renamed."""
    section = (TOP / "DEVELOPERS.md").read_text("utf-8").split("## Access, clause by clause", 1)[1].split("\n## ", 1)[0]
    rows = [line for line in section.splitlines() if line.startswith("| ") and not line.startswith("| clause")]
    assert len(rows) >= 20
    for row in rows:
        named = re.findall(r"`(tests/[\w/]+\.py)`(?: `(test_\w+)`)?", row)
        assert named, row
        for file, test in named:
            text = (TOP / file).read_text("utf-8")
            assert not test or f"def {test}(" in text, (file, test)
