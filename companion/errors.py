"""Everything that can go wrong in a way the user can mend: one small tree.

``str(error)`` is the one line for the screen: what is wrong and how to mend it; ``exit_code`` is the process's answer. What is said
in the dark is a phrase of the language. None of the rooms is imported here, so every room may raise these.
"""

from __future__ import annotations

import errno

_MACHINE_REFUSED = {errno.ENOSPC, errno.EDQUOT, errno.EROFS, errno.EIO, errno.EMFILE, errno.ENFILE, errno.ENOMEM}
"""What the system answers where it lacks something; no mistake of ours."""


class CompanionError(Exception):
    """A problem with a remedy, in words for a person."""

    exit_code = 2


class BadRequest(CompanionError):
    """What was asked for cannot be done as asked: a name, a number, a time or a file is wrong."""


class GrammarError(BadRequest):
    """A grammar file breaks the rules of our JSGF subset, at a place we can name."""

    def __init__(self, message: str, *, file: str, line: int) -> None:
        """Take the complaint and where it belongs (lines count from 1)."""
        super().__init__(f"{file}:{line}: {message}")
        self.file = file
        self.line = line


class AudioFileError(BadRequest):
    """A sound file is missing, empty, damaged, too long or not sound at all."""

    def __init__(self, reason: str, *, file: str) -> None:
        """Take the bare reason (``hear`` reports it alone) and the file it concerns."""
        super().__init__(f"{file}: {reason}")
        self.reason = reason
        self.file = file


class MissingPart(CompanionError):
    """The machine lacks a library, a model, a device or a file; the message says the remedy."""

    exit_code = 3


def with_remedy(error: Exception) -> CompanionError | None:
    """Return what the user can do about an error; None for a mistake of ours."""
    if isinstance(error, CompanionError):
        return error
    if isinstance(error, MemoryError):
        return MissingPart("there isn't enough memory for this; end other programs and try again")
    if isinstance(error, OSError) and error.errno in _MACHINE_REFUSED:
        where = f"{error.filename}: " if error.filename else ""
        return MissingPart(f"{where}this machine refuses ({error.strerror}); free some space, or use another folder")
    if isinstance(error, ValueError) and "null byte" in str(error):
        return BadRequest("a name holds a null character, which no file has; check what you gave")
    return None
