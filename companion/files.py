"""Files: opened only where they are files, read no further than was agreed, and written whole or not at all."""

from __future__ import annotations

import contextlib
import errno
import os
import stat
from pathlib import Path
from typing import BinaryIO

LARGEST_DOCUMENT_BYTES = 1_000_000
"""More than any profile, scenario or request holds that was written by hand or by a sane program."""

_LONGEST_DRAFT_NAME = 60


def open_file(path: str | os.PathLike[str]) -> BinaryIO:
    """Open a file to read it. OSError says why it can't be: a pipe or a device, which might never end, isn't even waited for."""
    return os.fdopen(_file(path, os.O_RDONLY), "rb")


def open_to_add(path: str | os.PathLike[str]) -> int:
    """Open a file to add to it, made for its owner's eyes only where it is missing. OSError as ``open_file``."""
    return _file(path, os.O_RDWR | os.O_CREAT | os.O_APPEND)


def _file(path: str | os.PathLike[str], flags: int) -> int:
    try:
        handle = os.open(path, flags | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0), 0o600)
    except ValueError as error:
        raise OSError(errno.EINVAL, "no file has such a name") from error
    mode = os.fstat(handle).st_mode
    if not stat.S_ISREG(mode):
        os.close(handle)
        raise OSError(errno.EINVAL, "this is a folder" if stat.S_ISDIR(mode) else "this is not a file but a device or a pipe")
    return handle


def read_file(path: str | os.PathLike[str], most_bytes: int) -> bytes:
    """Return what a file holds, at most so many bytes of it. OSError says why it can't be read."""
    with open_file(path) as file:
        data = file.read(most_bytes + 1)
    if len(data) > most_bytes:
        raise OSError(errno.EFBIG, f"larger than {size_in_words(most_bytes)}")
    return data


def write_whole(path: Path, data: bytes) -> None:
    """Write a file for its owner's eyes only, links followed: whoever reads meanwhile, or after a power cut, finds the old or the new one.

    OSError where it can't be written; then nothing has changed, and nothing is left over. What a killed one left is taken away by the next.
    """
    target, draft = Path(os.path.realpath(path)), draft_of(path)
    draft.unlink(missing_ok=True)
    handle = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        draft.replace(target)
    except BaseException:
        draft.unlink(missing_ok=True)
        raise
    sync_folder(target.parent)


def draft_of(path: Path) -> Path:
    """Return where a file is written until it is whole: beside it, so that it can take its place in one step."""
    target = Path(os.path.realpath(path))
    return target.with_name(f".{target.name[:_LONGEST_DRAFT_NAME]}.draft")


def sync_folder(folder: Path) -> None:
    """Make sure that a new name in a folder survives a power cut, where the system can do that."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def is_file(path: Path) -> bool:
    """Tell whether there is a file that may be looked at; a name no file can have, or a folder closed to us, is none."""
    try:
        return stat.S_ISREG(path.stat().st_mode)
    except (OSError, ValueError):
        return False


def size_in_words(size_bytes: int) -> str:
    """Return a limit as people write it."""
    return f"{size_bytes // 1_000_000} MB" if size_bytes >= 1_000_000 else f"{size_bytes // 1_000} kB"
