"""Temporary folders that don't outlive us: what a killed process left is taken away by the next one that needs such a folder."""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import filelock

PREFIX = "companion-temporary-"
_IN_USE = ".in-use"
_NOT_YET_LOCKED_S = 3600
"""A folder without its lock is being made, unless it is as old as that."""


@contextmanager
def temporary_folder(within: Path | None = None) -> Iterator[Path]:
    """Yield an empty folder of our own, among the temporary files or ``within`` a folder; it is gone afterwards, whatever happens."""
    place = within or Path(tempfile.gettempdir())
    _take_away_what_was_left(place)
    folder = Path(tempfile.mkdtemp(prefix=PREFIX, dir=place))
    lock = filelock.FileLock(folder / _IN_USE, timeout=0, mode=0o600)
    try:
        with lock:
            yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _take_away_what_was_left(place: Path) -> None:
    """Remove our folders that no process holds any more. The system lets go of a killed one's locks."""
    for folder in place.glob(f"{PREFIX}*"):
        # Whatever another user put there under our name is theirs, and a lock that is held is somebody's at work.
        with contextlib.suppress(OSError):
            found = folder.lstat()
            if hasattr(os, "geteuid") and found.st_uid != os.geteuid():
                continue
            if (folder / _IN_USE).exists():
                with filelock.FileLock(folder / _IN_USE, timeout=0, mode=0o600):
                    shutil.rmtree(folder, ignore_errors=True)
            elif time.time() - found.st_mtime > _NOT_YET_LOCKED_S:
                shutil.rmtree(folder, ignore_errors=True)
