"""Killed at a write, a sync, a rename: ``python -m tests.kills [POINTS [SEED]]`` tries so many of them (default: every one there is).

In this process, by a shim: at the chosen call half of what was to be written is, and from then on nothing reaches the disk, as nothing
does after SIGKILL. What lies there is then read by the next start.
"""

from __future__ import annotations

import io
import os
import random
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout, suppress
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import partial
from itertools import count
from pathlib import Path

from companion.cli import main
from companion.dialogue import Journal, read_journal, rebuild
from companion.equipment import Equipment, Instrument
from companion.errors import CompanionError
from companion.languages import load_language
from companion.live import Session, journal_path
from companion.log import log_trouble
from companion.messages import Heard
from companion.observation_log import log_path, read_log, withdraw, write_down
from companion.observing.observation import Observation
from companion.profile import load_profile, write_profile
from companion.sky import Site
from companion.talk.guidance_phrases import GoOnThere

ANSWERS = (
    *("yes", "yes", "ready", "briefly", "ready", "ready", "go-back", "ready", "ready", "ready", "ready", "ready", "no"),
    *("before-power", "ready", "card", "which-way", "ready", "ready", "dead", "ready", "next", "go-back", "zone", "next"),
    *("good-night", "yes"),
)
NO_ANSWERS = ("briefly", "go-back", "good-night")
"""What works at any time is no answer of a script's."""
NIGHT = datetime(2026, 10, 15, 22, 0, tzinfo=UTC)
_CALLS = ("write", "fsync", "replace", "link", "ftruncate", "unlink", "rename")


class Killed(BaseException):
    """The process is no more."""


@contextmanager
def killed_at(point: int | None) -> Iterator[Callable[[], int]]:
    """Be killed at the call of that number (None: never); yields how many there were so far."""
    made, real = 0, {name: getattr(os, name) for name in _CALLS}

    def shim(name: str) -> Callable[..., object]:
        def call(*given: object, **named: object) -> object:
            nonlocal made
            made += 1
            if point is not None and made > point:
                raise Killed
            if made == point:
                if name == "write":
                    real[name](given[0], given[1][: len(given[1]) // 2])  # type: ignore[index, arg-type]
                raise Killed
            return real[name](*given, **named)

        return call

    try:
        for name in _CALLS:
            setattr(os, name, shim(name))
        yield lambda: made
    finally:
        for name in _CALLS:
            setattr(os, name, real[name])


def _clock() -> Callable[[], datetime]:
    times = (datetime(2026, 10, 15, 22, 0, tzinfo=UTC) + timedelta(minutes=number) for number in count())
    return lambda: next(times)


def hold(folder: Path, told: list[str]) -> None:
    """Hold the evening after one that was broken off, which is begun anew; ``told`` gets each answer as soon as it was acted upon."""
    with Journal(journal_path(folder)) as journal:
        session = Session(Site(46.31, -67.52), _clock(), journal, Equipment(), language=load_language())
        turn = session.begin()
        if isinstance(turn.question, GoOnThere):
            session.hear(Heard("no", "no"))
        for command in ANSWERS:
            session.hear(Heard(command, command))
            session.sync()
            told.append(command)
        session.said_good_night()


def evening_killed_at(point: int | None) -> tuple[int, list[str]]:
    """Return how many calls there were, and what is wrong with what the next start finds."""
    with tempfile.TemporaryDirectory() as name:
        folder, told = Path(name), list[str]()
        with Journal(journal_path(folder)) as journal:
            Session(Site(46.31, -67.52), _clock(), journal, Equipment(), language=load_language()).begin()
        with killed_at(point) as made, suppress(Killed):
            hold(folder, told)
        calls = made()
        kept = read_journal(journal_path(folder))
        memory = rebuild(kept.records)
        wrong = []
        if not kept.records or kept.flaw == "damaged" or memory.believed < len(kept.records):
            wrong.append(f"{len(kept.records)} records, {kept.flaw}")
        given = [record["command"] for record in kept.records if record["kind"] == "answer"]
        due = [command for command in told if command not in NO_ANSWERS][: -1 if "good-night" in told[:-1] else None]
        if given[: len(due)] != due:
            wrong.append(f"{given} of {due}")
        with Journal(journal_path(folder)) as journal:
            session = Session(Site(46.31, -67.52), _clock(), journal, Equipment(), language=load_language())
            turn = session.begin()
            if isinstance(turn.question, GoOnThere):
                turn = session.hear(Heard("yes", "yes"))
            session.words(*turn.sayings)
        return calls, wrong


def profile_killed_at(point: int | None) -> tuple[int, list[str]]:
    """Return the same of a change to a profile: it must be the old one or the new one, and the next start must be able to change it."""
    with tempfile.TemporaryDirectory() as name:
        file = Path(name) / "profile.toml"
        file.write_text('# mine\nengine = "builtin"\n')
        old = load_profile(str(file))
        new = replace(old, equipment=Equipment(Instrument(aperture_mm=200)))
        with killed_at(point) as made, suppress(Killed):
            write_profile(new, file, old)
        wrong = [] if load_profile(str(file)) in (old, new) else ["neither the old nor the new profile"]
        write_profile(new, file, old)
        left = sorted(path.name for path in file.parent.iterdir())
        if load_profile(str(file)) != new or left != ["profile.toml"]:
            wrong.append(f"afterwards {left}")
        return made(), wrong


def _observations(folder: Path) -> None:
    """Write six down, one of them told anew, and take one back."""
    place = Site(46.31, -67.52)
    seen = [Observation(NIGHT + timedelta(minutes=number), place, f"M {number}", "nebula", 40.0, 90.0) for number in range(1, 6)]
    for observation in (*seen, replace(seen[0], seen="easily")):
        write_down(log_path(folder), observation)
    withdraw(log_path(folder), seen[1])


def _mistake(folder: Path) -> None:
    """Log a mistake of ours."""
    log_trouble(folder, ValueError("a mistake"))


def _call(*words: str) -> Callable[[Path], None]:
    def call(_: Path) -> None:
        with redirect_stdout(io.StringIO()), redirect_stderr(io.StringIO()):
            assert main([*words]) == 0

    return call


WORK: dict[str, tuple[Callable[[Path], None], ...]] = {
    "observations": (_observations,),
    "a mistake logged": (_mistake,),
    "profile set": (_call("profile", "near", "Nairobi"), _call("profile", "set", "instrument.aperture_mm", "200")),
    "profile near": (_call("profile", "near", "Nairobi"),),
    "autostart on": (_call("autostart", "on"),),
    "autostart off": (_call("autostart", "on"), _call("autostart", "off")),
    "log forget": (_observations, lambda folder: hold(folder, []), _call("log", "forget")),
}
"""What else changes the disk: what goes before, and last what is killed. Done once more it must end as if nothing had happened."""


def work_killed_at(name: str, point: int | None) -> tuple[int, list[str]]:
    """Return how many calls there were, and what is wrong with what is found afterwards, and what is made of it."""
    *before, work = WORK[name]
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        os.environ |= {"COMPANION_HOME": place, "XDG_CONFIG_HOME": f"{place}/config"}
        for step in before:
            step(folder)
        with killed_at(point) as made, suppress(Killed):
            work(folder)
        calls, wrong = made(), []
        try:
            read_log(log_path(folder))
            read_journal(journal_path(folder))
            load_profile(None)
            work(folder)
        except (CompanionError, AssertionError) as error:
            wrong.append(f"{type(error).__name__}: {error}")
        # Locks and drafts that nobody holds are no loss; the log of mistakes may say the same twice.
        found = (path for path in folder.rglob("*") if path.is_file() and path.suffix not in (".lock", ".log", ".jsonl"))
        left = {path.name: path.read_bytes().replace(place.encode(), b"") for path in found}
        kept = [(seen.target, seen.seen) for seen in read_log(log_path(folder)).observations]
        if point is None:
            _AS_IT_SHOULD_BE[name] = left, kept
        if (left, kept) != _AS_IT_SHOULD_BE[name]:
            wrong.append(f"afterwards {sorted(left)}, {kept}")
        return calls, wrong


_AS_IT_SHOULD_BE: dict[str, tuple[dict[str, bytes], list[tuple[str, str | None]]]] = {}


def sweep(points: int | None, seed: int) -> Iterator[tuple[str, int, list[str]]]:
    """Yield name, point and what is wrong, for so many points of each, or all."""
    work = ((name, partial(work_killed_at, name)) for name in WORK)
    for name, run in (("evening", evening_killed_at), ("profile", profile_killed_at), *work):
        calls, wrong = run(None)
        yield name, 0, wrong
        every = range(1, calls + 1)
        for point in every if points is None or points >= calls else random.Random(seed).sample(every, points):
            yield name, point, run(point)[1]


if __name__ == "__main__":
    os.environ["COMPANION_HOME"] = tempfile.mkdtemp()
    limit = int(sys.argv[1]) if len(sys.argv) > 1 else None
    found = list(sweep(limit, int(sys.argv[2]) if len(sys.argv) > 2 else 1))
    for name, point, wrong in found:
        if wrong:
            print(f"{name}, killed at call {point}: {'; '.join(wrong)}")
    print(f"{len(found)} points, {sum(bool(wrong) for *_, wrong in found)} with something lost")
    sys.exit(any(wrong for *_, wrong in found))
