"""Killed at any write, sync or rename, nothing answered is lost. Every point there is: ``python -m tests.kills``."""

from __future__ import annotations

import os
import random
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.killed_processes import calls, lost
from tests.kills import Killed, killed_at, sweep


def test_a_seeded_part_of_all_points(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Six points of an evening and of whatever else changes the disk."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    assert [(name, point, wrong) for name, point, wrong in sweep(6, 20261126) if wrong] == []


def test_the_shim_kills(tmp_path: Path) -> None:
    """Half of a write reaches the disk, and nothing after it."""
    with (tmp_path / "file").open("wb") as file, killed_at(2):
        os.write(file.fileno(), b"one ")
        for _ in range(2):
            with pytest.raises(Killed):
                os.write(file.fileno(), b"four")
    assert (tmp_path / "file").read_bytes() == b"one fo"


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="forks are what makes so many evenings cheap")
@pytest.mark.parametrize("kind", ["instants", "spoken"])
def test_killed_at_any_moment_nothing_replied_to_is_lost(kind: str) -> None:
    """A few of ``python -m tests.killed_processes instants`` and of ``spoken``, from a process that has no threads."""
    command = [sys.executable, "-m", "tests.killed_processes", kind, "4", "20261127"]
    done = subprocess.run(command, cwd=Path(__file__).parent.parent, capture_output=True, text=True, check=False, timeout=300)
    assert done.stdout.endswith("4 kills, 0 with something lost\n"), done.stdout + done.stderr


def test_a_lost_answer_is_seen(tmp_path: Path) -> None:
    """The sweep can fail: where nothing lies on the disk, three answers are missing."""
    assert lost(tmp_path, 3) == ["[] of ['yes', 'no', 'figures']"]


@pytest.mark.slow
@pytest.mark.skipif(not shutil.which("strace"), reason="strace is needed to kill at a call; .ci/run has it")
def test_a_process_killed_at_a_call_loses_nothing() -> None:
    """A typed evening in a process of its own, killed by the system at two calls that change the disk; all: ``tests.killed_processes``."""
    assert [(where, wrong) for where, wrong in calls(2, random.Random(20261126)) if wrong] == []
