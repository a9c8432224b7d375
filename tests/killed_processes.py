"""Evenings in processes of their own, killed by the system: ``python -m tests.killed_processes instants|spoken|calls [KILLS [SEED]]``.

``instants``: a typed one, SIGKILL at a random moment. ``spoken``: the same of one by voice, with devices and a clock that are stand-ins,
so that ninety minutes take seconds. ``calls``: SIGKILL by strace at a random one of the calls that change what is on the disk. Each evening
learns a place, changes the way of speaking, writes an observation down, and, typed, writes the profile. What lies there is then read by
the next start, and every answer that was replied to must be in it.
"""

from __future__ import annotations

import contextlib
import os
import random
import re
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from functools import partial
from itertools import chain, pairwise
from multiprocessing import get_context
from pathlib import Path

from companion.cli import main as program
from companion.commands import evenings
from companion.dialogue import Journal, read_journal, rebuild
from companion.equipment import Equipment
from companion.languages import load_language
from companion.live import Session, journal_path
from companion.messages import Heard
from companion.observation_log import log_path, read_log
from companion.profile import load_profile
from companion.sky import Site
from companion.talk.guidance_phrases import GoOnThere, JournalDamaged, StageAnew
from tests.english import VOCABULARY
from tests.live.fakes import Night, quiet, voice

TOLD = (
    ("yes", "yes"),
    ("no", "no"),
    ("latitude and longitude", "figures"),
    ("forty six degrees eighteen minutes north", "coordinate"),
    ("sixty seven degrees thirty one minutes west", "coordinate"),
    ("yes", "yes"),
    ("yes", "yes"),
    ("fewer words", None),
    ("ready", "ready"),
    ("go to the targets", None),
    ("yes", None),
    ("seen it", "seen"),
    ("only just", "just"),
    ("that's all", "done"),
    ("three", "three"),
    ("skip this", "skip"),
    ("go to packing up", None),
    ("yes", None),
    ("yes", "yes"),
    *(("done", "done"),) * 7,
)
"""What is typed, and the answer it is to a script; None where it is none."""
NOTED_AT, KEPT_AT = 16, 19
"""After so many replies the observation is written down, and place and equipment are remembered."""
CALLS = ("write", "pwrite64", "fsync", "fdatasync", "ftruncate", "rename", "renameat", "renameat2", "link", "linkat", "unlink", "unlinkat")
START = ("-m", "companion", "start", "--text", "--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T22:00:00-03:00")
NEXT = datetime(2026, 10, 16, 3, 0, tzinfo=UTC)


class _Fork:
    """Work in a fork of this process, which has loaded all that takes its time to load: the rest is as in any other."""

    def __init__(self, folder: Path, work: Callable[[], int]) -> None:
        its_input, self_out = os.pipe()
        self_in, its_output = os.pipe()
        self._pid = os.fork()
        if self._pid == 0:
            try:
                complaints = os.open(folder / "complaints", os.O_WRONLY | os.O_CREAT)
                for number, handle in enumerate((its_input, its_output, complaints)):
                    os.dup2(handle, number)
                os.closerange(3, 256)
                os.environ.update(_environment(folder))
                sys.stdin, sys.stdout, sys.stderr = open(0), open(1, "w", buffering=1), open(2, "w", buffering=1)  # noqa: SIM115
                os._exit(work())
            finally:
                os._exit(99)
        os.close(its_input)
        os.close(its_output)
        self.stdin, self.stdout = os.fdopen(self_out, "w"), os.fdopen(self_in)

    def kill(self) -> None:
        """Kill it outright."""
        os.kill(self._pid, signal.SIGKILL)

    def wait(self) -> None:
        """Wait until it is gone."""
        os.waitpid(self._pid, 0)


def _type() -> int:
    """Hold the evening with typed lines; its words are read once for all."""
    evenings.load_vocabulary = lambda _: VOCABULARY
    return program([*START[2:]])


def _environment(folder: Path) -> dict[str, str]:
    return {"COMPANION_HOME": str(folder), "HOME": str(folder), "PYTHONUNBUFFERED": "1"}


def _process(folder: Path, watched: tuple[str, ...]) -> subprocess.Popen[str]:
    command, pipe = (*watched, sys.executable, *START), subprocess.PIPE
    with (folder / "complaints").open("w") as complaints:
        return subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=complaints, env=os.environ | _environment(folder), text=True)


def held(folder: Path, watched: tuple[str, ...] | None = None, kill_after_s: float | None = None) -> tuple[int, float, str]:
    """Hold the evening until it is killed or over; return to how many lines there was a reply, how long it took, and its complaints.

    In a fork of this process, or where it is ``watched`` (by that command) in a process begun anew.
    """
    evening = _Fork(folder, _type) if watched is None else _process(folder, watched)
    assert evening.stdin is not None
    assert evening.stdout is not None
    replies, began, killer = -1, time.monotonic(), None
    try:
        for words in ("", *(words for words, _ in TOLD)):
            if words:
                evening.stdin.write(f"{words}\n")
                evening.stdin.flush()
            if not evening.stdout.readline():
                break
            replies += 1
            if replies == 0:
                began = time.monotonic()
                if kill_after_s is not None:
                    killer = threading.Timer(kill_after_s, evening.kill)
                    killer.start()
        evening.stdin.close()
    except BrokenPipeError:
        pass
    evening.stdout.read()
    took = time.monotonic() - began
    if killer is not None:
        killer.cancel()
        killer.join()
    evening.wait()
    evening.stdout.close()
    with contextlib.suppress(BrokenPipeError):
        evening.stdin.close()
    return max(replies, 0), took, _complaints(folder)


def _complaints(folder: Path) -> str:
    """Return what was printed to standard error, and what the log says of it."""
    log = folder / "companion.log"
    return (folder / "complaints").read_text() + (log.read_text() if log.exists() else "")


class _Shown(list[str]):
    """What is shown, as the terminal shows it."""

    def append(self, line: str) -> None:
        """Show a line."""
        print(line, flush=True)


def _speak(folder: Path) -> int:
    """Hold the evening by voice."""
    silence = 45.0
    said = (voice(number + 1) if turn else quiet(silence) for number in range(len(TOLD)) for turn in (1, 0))
    evening = Night(folder, chain(quiet(silence), *said), words=[words for words, _ in TOLD])
    evening.shown = _Shown()
    evening.hold()
    return 0


def spoken(folder: Path, kill_after_s: float | None = None) -> tuple[int, float, str]:
    """Do as ``held`` does, by voice."""
    evening = _Fork(folder, lambda: _speak(folder))
    began = time.monotonic()
    killer = threading.Timer(100.0 if kill_after_s is None else kill_after_s, evening.kill)
    killer.start()
    lines = [line[:3] for line in evening.stdout]
    took = time.monotonic() - began
    killer.cancel()
    killer.join()
    evening.wait()
    evening.stdin.close()
    evening.stdout.close()
    replies = sum(pair == ("you", "it:") for pair in pairwise(lines))
    return replies, took, _complaints(folder)


def lost(folder: Path, replies: int, *, keeps: bool = True) -> list[str]:
    """Return what the next start doesn't find of what was replied to, and what keeps it from going on.

    ``keeps``: whether place and equipment are to be remembered.
    """
    wrong = []
    due = [command for _, command in TOLD[:replies] if command]
    kept = read_journal(journal_path(folder))
    given = [record["command"] for record in kept.records if record["kind"] == "answer"]
    if kept.flaw == "damaged" or rebuild(kept.records).believed < len(kept.records):
        wrong.append(f"the journal is {kept.flaw}")
    if given[: len(due)] != due:
        wrong.append(f"{given} of {due}")
    if replies >= NOTED_AT and len(read_log(log_path(folder)).observations) != 1:
        wrong.append("no observation")
    if keeps and replies >= KEPT_AT and load_profile(str(folder / "profile.toml")).site is None:
        wrong.append("no profile")
    if (folder / "profile.toml").exists():
        load_profile(str(folder / "profile.toml"))
    times = (NEXT + timedelta(seconds=number) for number in range(1000))
    with Journal(journal_path(folder)) as journal:
        session = Session(Site(46.31, -67.52), lambda: next(times), journal, Equipment(), language=load_language())
        turn = session.begin()
        if isinstance(turn.question, GoOnThere):
            turn = session.hear(Heard("yes", "yes"))
            if StageAnew() in turn.sayings or JournalDamaged() in turn.sayings:
                wrong.append("a part was begun anew")
        session.words(*turn.sayings)
    return wrong


def _in_a_fork(work: Callable[[], list[str]]) -> list[str]:
    """Return what the work returns in a fork of its own: forks of a process that had opened the ephemeris would share its place there."""
    with get_context("fork").Pool(1) as pool:
        return pool.apply(work)


def instants(kills: int, chance: random.Random, *, by_voice: bool = False) -> Iterator[tuple[str, list[str]]]:
    """Yield where the evening stood at each kill, and what was lost."""
    hold = spoken if by_voice else held
    with tempfile.TemporaryDirectory() as name:
        replies, took, _ = hold(Path(name))
        assert replies == len(TOLD), replies
        yield "never", _in_a_fork(partial(lost, Path(name), replies, keeps=not by_voice))
    for _ in range(kills):
        with tempfile.TemporaryDirectory() as name:
            after_s = chance.uniform(0.0, took)
            replies, _, complaints = hold(Path(name), kill_after_s=after_s)
            wrong = _in_a_fork(partial(lost, Path(name), replies, keeps=not by_voice))
            yield f"after {after_s:.3f} s, {replies} replies", wrong + ([complaints] if complaints else [])


def calls(kills: int, chance: random.Random) -> Iterator[tuple[str, list[str]]]:
    """Yield each call that was killed at, and what was lost."""
    counted = dict[str, int]()
    with tempfile.TemporaryDirectory() as name:
        trace = Path(name) / "trace"
        held(Path(name), ("strace", "-f", "--seccomp-bpf", "-qq", "-o", str(trace), "-e", f"trace={','.join(CALLS)}"))
        main = trace.read_text("utf-8", "replace").split(maxsplit=1)[0]
        for line in trace.read_text("utf-8", "replace").splitlines():
            found = re.match(rf"{main} +(\w+)\(", line)
            if found and found[1] in CALLS:
                counted[found[1]] = counted.get(found[1], 0) + 1
        yield f"never; {counted}", lost(Path(name), len(TOLD))
    points = [(call, number) for call, made in counted.items() for number in range(1, made + 1)]
    for call, number in points if kills >= len(points) else chance.sample(points, kills):
        with tempfile.TemporaryDirectory() as name:
            inject = f"inject={call}:signal=KILL:when={number}"
            watched = ("strace", "-f", "--seccomp-bpf", "-qq", "-o", "/dev/null", "-e", f"trace={call}", "-e", inject)
            replies, _, _ = held(Path(name), watched)
            yield f"{call} {number}, {replies} replies", lost(Path(name), replies)


def main() -> int:
    """Sweep and print what was lost, then the count."""
    kind = {"instants": instants, "spoken": partial(instants, by_voice=True), "calls": calls}[sys.argv[1]]
    kills, seed = (int(number) for number in (*sys.argv[2:4], *("50", "1")[len(sys.argv) - 2 :]))
    found = made = 0
    for made, (where, wrong) in enumerate(kind(kills, random.Random(seed))):
        if wrong or made % 20 == 0:
            print(f"{made} kills. The last {where}: {'; '.join(wrong) or 'nothing lost'}", flush=True)
        found += bool(wrong)
    print(f"{made} kills, {found} with something lost")
    return int(found > 0)


if __name__ == "__main__":
    sys.exit(main())
