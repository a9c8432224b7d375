"""Killed at a write, a sync, a rename: ``python -m tests.kills [POINTS [SEED]]`` tries so many of them (default: every one there is).

In this process, by a shim: at the chosen call half of what was to be written is, and from then on nothing reaches the disk, as nothing
does after SIGKILL. What lies there is then read by the next start.
"""

from __future__ import annotations

import os
import random
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

from companion.dialogue import Journal, read_journal, rebuild
from companion.equipment import Equipment, Instrument
from companion.languages import load_language
from companion.live import Session, journal_path
from companion.messages import Heard
from companion.profile import load_profile, write_profile
from companion.sky import Site
from companion.talk.guidance_phrases import GoOnThere

ANSWERS = ("yes", "yes", "ready", "briefly", "ready", "ready", "go-back", "ready", "leave-part", "no", "good-night", "yes")
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
        # What works at any time is no answer of a script's.
        given = [record["command"] for record in kept.records if record["kind"] == "answer"]
        due = [command for command in told if command in ("yes", "ready", "no")][: -1 if "good-night" in told[:-1] else None]
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


def sweep(points: int | None, seed: int) -> Iterator[tuple[str, int, list[str]]]:
    """Yield name, point and what is wrong, for so many points of each, or all."""
    for name, run in (("evening", evening_killed_at), ("profile", profile_killed_at)):
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
