"""Temporary folders go when we do, and with the next start where we were killed."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from companion.temporary import PREFIX, temporary_folder

HOLDS_ONE = """
import sys, time
from companion.__main__ import run
from companion import cli
from companion.temporary import temporary_folder

def main(loaded):
    loaded()
    with temporary_folder() as folder:
        (folder / "sentence.wav").write_text("sound")
        print(folder, flush=True)
        time.sleep(60)

cli.main = main
raise SystemExit(run())
"""


def _held(temp: Path, ending: signal.Signals) -> Path:
    """Start a program that holds a folder, end it with a signal, return the folder."""
    environment = {**os.environ, "TMPDIR": str(temp)}
    with subprocess.Popen([sys.executable, "-c", HOLDS_ONE], stdout=subprocess.PIPE, text=True, env=environment) as process:
        assert process.stdout is not None
        folder = Path(process.stdout.readline().strip())
        assert (folder / "sentence.wav").exists()
        with temporary_folder(temp):
            assert folder.exists(), "a folder that is in use was taken away"
        process.send_signal(ending)
        process.wait(30)
    return folder


@pytest.mark.parametrize("ending", [signal.SIGTERM, signal.SIGHUP])
def test_gone_when_we_are_ended(tmp_path: Path, ending: signal.Signals) -> None:
    """TERM and HUP unwind: nothing is left."""
    assert not _held(tmp_path, ending).exists()


def test_gone_with_the_next_start_when_we_were_killed(tmp_path: Path) -> None:
    """KILL leaves the folder; the next that needs one takes it away, and nothing that isn't ours."""
    (tmp_path / f"{PREFIX}new").mkdir()
    (tmp_path / "companion-log-1").mkdir()
    folder = _held(tmp_path, signal.SIGKILL)
    assert folder.exists()
    with temporary_folder(tmp_path) as mine:
        assert mine.stat().st_mode & 0o777 == 0o700
        assert sorted(path.name for path in tmp_path.iterdir()) == sorted(["companion-log-1", f"{PREFIX}new", mine.name])
    assert not mine.exists()
