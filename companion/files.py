"""Files as others left them: opened only where they are files, and read no further than was agreed."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path
from typing import BinaryIO

LARGEST_DOCUMENT_BYTES = 1_000_000
"""More than any profile, scenario or request holds that was written by hand or by a sane program."""


def open_file(path: str | os.PathLike[str]) -> BinaryIO:
    """Open a file to read it. OSError says why it can't be: a pipe or a device, which might never end, isn't even waited for."""
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    except ValueError as error:
        raise OSError(errno.EINVAL, "no file has such a name") from error
    mode = os.fstat(handle).st_mode
    if not stat.S_ISREG(mode):
        os.close(handle)
        raise OSError(errno.EINVAL, "this is a folder" if stat.S_ISDIR(mode) else "this is not a file but a device or a pipe")
    return os.fdopen(handle, "rb")


def read_file(path: str | os.PathLike[str], most_bytes: int) -> bytes:
    """Return what a file holds, at most so many bytes of it. OSError says why it can't be read."""
    with open_file(path) as file:
        data = file.read(most_bytes + 1)
    if len(data) > most_bytes:
        raise OSError(errno.EFBIG, f"larger than {size_in_words(most_bytes)}")
    return data


def is_file(path: Path) -> bool:
    """Tell whether there is a file that may be looked at; a name no file can have, or a folder closed to us, is none."""
    try:
        return stat.S_ISREG(path.stat().st_mode)
    except (OSError, ValueError):
        return False


def size_in_words(size_bytes: int) -> str:
    """Return a limit as people write it."""
    return f"{size_bytes // 1_000_000} MB" if size_bytes >= 1_000_000 else f"{size_bytes // 1_000} kB"
