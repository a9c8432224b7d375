"""A companion killed at any turn goes on where it was, with the same end."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from companion.dialogue import read_journal, rebuild

ANSWERS = [
    *("yes", "that's right", "ready"),
    *("ready", "it's level", "ready", "that's done", "ready", "yes"),
    "no",
    *("before switching on", "it's level", "my phone", "magnetic north", "another way", "facing north", "the tube is level"),
    "it's on",
    *("that's in", "it wants the zone", "go back", "next line", "everything's in"),
    *("from its list", "it's in the finder", "going up", "to the right", "dead centre", "it's in the finder", "centred", "it says success"),
    "in the eyepiece",
    *("next target", "found it", "leave this part"),
    *("no", "leave this part"),
]
COMMAND = [sys.executable, "-m", "companion", "start", "--text", "--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T20:00:00-03:00"]


def _start(home: Path) -> subprocess.Popen[str]:
    environment = {**os.environ, "COMPANION_HOME": str(home)}
    return subprocess.Popen(COMMAND, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=environment, bufsize=1)


def _tell(process: subprocess.Popen[str], words: str) -> str:
    """Type a line and return what is said to it."""
    assert process.stdin is not None
    assert process.stdout is not None
    process.stdin.write(words + "\n")
    process.stdin.flush()
    return process.stdout.readline()


def _end_state(home: Path) -> list[object]:
    memory = rebuild(read_journal(home / "evening.jsonl").records)
    assert memory.ended
    return [(stage.name, [answer.command for answer in stage.answers], stage.result) for stage in memory.stages]


def _hold(home: Path, killed_after: int | None) -> list[object]:
    """Hold the evening; after so many answers kill the companion outright and start another."""
    process = _start(home)
    assert process.stdout is not None
    process.stdout.readline()
    for number, words in enumerate(ANSWERS):
        if number == killed_after:
            process.send_signal(signal.SIGKILL)
            process.wait()
            process = _start(home)
            assert process.stdout is not None
            assert "Shall we go on there?" in process.stdout.readline()
            assert "We'll go on from where we were." in _tell(process, "yes")
        assert _tell(process, words)
    process.communicate(timeout=30)
    assert process.returncode == 0
    return _end_state(home)


def test_killed_in_the_middle_of_the_stars(tmp_path: Path) -> None:
    """One SIGKILL between two reference stars changes nothing at the end."""
    assert _hold(tmp_path / "killed", 18) == _hold(tmp_path / "whole", None)


@pytest.mark.slow
def test_killed_at_every_turn(tmp_path: Path) -> None:
    """SIGKILL before each answer of the evening: the same end state, every time. A seeded third, all with COMPANION_FULL_SWEEP=1."""
    whole = _hold(tmp_path / "whole", None)
    turns = range(len(ANSWERS))
    for turn in turns if os.environ.get("COMPANION_FULL_SWEEP") == "1" else random.Random(5).sample(turns, len(turns) // 3):
        assert _hold(tmp_path / str(turn), turn) == whole, turn


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda data: data[:-20], "cut off while writing"),
        (lambda data: data[:200] + b"\n\x00garbage\n" + data[200:], "damaged part of the way"),
        (lambda data: data.replace(b'"schema": 1', b'"schema": 2'), "another version of me"),
    ],
)
def test_what_is_said_of_a_flawed_journal(tmp_path: Path, spoil: object, said: str) -> None:
    """A torn last line, garbage in the middle, another version: each is said, none stops the evening."""
    process = _start(tmp_path)
    assert process.stdout is not None
    process.stdout.readline()
    for words in ANSWERS[:5]:
        _tell(process, words)
    process.kill()
    process.wait()
    journal = tmp_path / "evening.jsonl"
    journal.write_bytes(spoil(journal.read_bytes()))  # type: ignore[operator]
    process = _start(tmp_path)
    out, _ = process.communicate("yes\n", timeout=30)
    assert said in out
    assert process.returncode == 0
    assert read_journal(journal).flaw is None


def test_a_second_companion_is_told(tmp_path: Path) -> None:
    """While one evening is on, another companion in the same home ends with one line."""
    first = _start(tmp_path)
    assert first.stdout is not None
    first.stdout.readline()
    second = subprocess.run(
        COMMAND, input="", capture_output=True, text=True, check=False, env={**os.environ, "COMPANION_HOME": str(tmp_path)}
    )
    first.kill()
    first.wait()
    assert second.returncode == 2
    assert second.stderr.startswith("companion: error: another companion is already at work")
    assert second.stderr.count("\n") == 1
