"""What ``--out`` names: tried before the work is done, and nothing replaced but a file."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from companion.errors import BadRequest
from companion.files import draft_of


def tried_file(path: Path) -> Path:
    """Return the file if it can be written there, a file being replaced. BadRequest where it can't be, or where something else is."""
    _check_name(path, "a file, such as words.wav")
    if (mode := _mode(path)) is not None and not stat.S_ISREG(mode):
        raise BadRequest(f"--out {path}: there is a {'folder' if stat.S_ISDIR(mode) else 'device or a pipe'} of that name; name a file")
    try:
        draft = draft_of(path)
        draft.unlink(missing_ok=True)
        os.close(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
        draft.unlink()
    except OSError as error:
        raise _refused(path, error) from error
    return path


def tried_folder(path: Path, *names: str) -> Path:
    """Return the folder, made where it is missing, if files of these names can be written there. BadRequest where they can't be."""
    _check_name(path, "a folder, such as tonight")
    if (mode := _mode(path)) is not None and not stat.S_ISDIR(mode):
        raise BadRequest(f"--out {path}: this is no folder; name one")
    try:
        path.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise _refused(path, error) from error
    for name in names:
        tried_file(path / name)
    return path


def _check_name(path: Path, wanted: str) -> None:
    if path.name in ("", ".."):
        raise BadRequest(f"--out needs the name of {wanted}")


def _mode(path: Path) -> int | None:
    """Return what is there, a link of ours followed; None for nothing."""
    try:
        found = path.lstat()
        if not stat.S_ISLNK(found.st_mode):
            return found.st_mode
        if hasattr(os, "geteuid") and found.st_uid != os.geteuid():
            raise BadRequest(f"--out {path}: this is another user's link; choose another place")
        return path.stat().st_mode
    except FileNotFoundError:
        return None
    except OSError as error:
        raise _refused(path, error) from error


def _refused(path: Path, error: OSError) -> BadRequest:
    return BadRequest(f"--out {path}: can't be written ({error.strerror}); choose another place")
