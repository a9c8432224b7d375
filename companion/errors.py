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


class WrongCall(BadRequest):
    """The command line makes no sense."""

    def __init__(self, message: str, *, program: str) -> None:
        """Take the complaint and the command it belongs to, such as ``companion where``."""
        super().__init__(f"{message}; '{program} --help' lists what there is")
        self.program = program


class PlaceMissing(BadRequest):
    """Nobody said where the observer is, or only half of it."""


class NameUnknown(BadRequest):
    """No star, planet or object of the sky is called so."""

    def __init__(self, message: str, *, name: str) -> None:
        """Take the complaint and the name."""
        super().__init__(message)
        self.name = name


class TownUnknown(BadRequest):
    """No town is called so."""

    def __init__(self, message: str, *, name: str) -> None:
        """Take the complaint and the name."""
        super().__init__(message)
        self.name = name


class TimeUnclear(BadRequest):
    """A time isn't written as we read it, or has no offset."""

    def __init__(self, message: str, *, given: str) -> None:
        """Take the complaint and what was given."""
        super().__init__(message)
        self.given = given


class FileUnusable(BadRequest):
    """A file isn't there, can't be read or written, or holds something else."""

    def __init__(self, reason: str, *, file: str) -> None:
        """Take the reason with its remedy, and the file."""
        super().__init__(f"{file}: {reason}")
        self.file = file


class AlreadyAtWork(BadRequest):
    """Another companion holds the same folder."""


class GrammarError(BadRequest):
    """A grammar file breaks the rules of our JSGF subset, at a place we can name."""

    def __init__(self, message: str, *, file: str, line: int) -> None:
        """Take the complaint and where it belongs (lines count from 1)."""
        super().__init__(f"{file}:{line}: {message}")
        self.file = file
        self.line = line


class AudioFileError(FileUnusable):
    """A sound file is missing, empty, damaged, too long or not sound at all."""

    def __init__(self, reason: str, *, file: str) -> None:
        """Take the bare reason (``hear`` reports it alone) and the file it concerns."""
        super().__init__(reason, file=file)
        self.reason = reason


class MissingPart(CompanionError):
    """The machine lacks a library, a model, a device or a file; the message says the remedy."""

    exit_code = 3


class DeviceMissing(MissingPart):
    """There is no microphone or no loudspeaker, or none of the name given."""

    def __init__(self, message: str, *, is_microphone: bool) -> None:
        """Take the complaint and which of the two it is."""
        super().__init__(message)
        self.is_microphone = is_microphone


class RecogniserMissing(MissingPart):
    """No recogniser here can hear the language."""


class MachineRefuses(MissingPart):
    """The system gives no memory, or takes no more on its disk."""


class MountMissing(MissingPart):
    """No mount answers."""


class BrokenInside(MissingPart):
    """A mistake of ours."""


def with_remedy(error: Exception) -> CompanionError | None:
    """Return what the user can do about an error; None for a mistake of ours."""
    if isinstance(error, CompanionError):
        return error
    if isinstance(error, MemoryError):
        return MachineRefuses("there isn't enough memory for this; end other programs and try again")
    if isinstance(error, OSError) and error.errno in _MACHINE_REFUSED:
        where = f"{error.filename}: " if error.filename else ""
        return MachineRefuses(f"{where}this machine refuses ({error.strerror}); free some space, or use another folder")
    if isinstance(error, ValueError) and "null byte" in str(error):
        return BadRequest("a name holds a null character, which no file has; check what you gave")
    return None
