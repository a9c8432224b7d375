"""Everything that can go wrong in a way the user can mend: one small tree.

``str(error)`` is the one line for the screen: what is wrong and how to mend it. ``spoken`` is what to say in the dark, and
``exit_code`` is the process's answer. None of the rooms is imported here, so every room may raise these.
"""

from __future__ import annotations


class CompanionError(Exception):
    """A problem with a remedy, in words for a person."""

    exit_code = 2

    def __init__(self, message: str, *, spoken: str | None = None) -> None:
        """Take the line for the screen and, where it should differ, the sentence for the ear."""
        super().__init__(message)
        self.spoken = spoken or message


class BadRequest(CompanionError):
    """What was asked for cannot be done as asked: a name, a number, a time or a file is wrong."""


class GrammarError(BadRequest):
    """A grammar file breaks the rules of our JSGF subset, at a place we can name."""

    def __init__(self, message: str, *, file: str, line: int) -> None:
        """Take the complaint and where it belongs (lines count from 1)."""
        super().__init__(f"{file}:{line}: {message}", spoken="A grammar file has a mistake in it.")
        self.file = file
        self.line = line


class AudioFileError(BadRequest):
    """A sound file is missing, empty, damaged, too long or not sound at all."""

    def __init__(self, reason: str, *, file: str) -> None:
        """Take the bare reason (``hear`` reports it alone) and the file it concerns."""
        super().__init__(f"{file}: {reason}", spoken="That sound file can't be read.")
        self.reason = reason
        self.file = file


class MissingPart(CompanionError):
    """The machine lacks a library, a model, a device or a file; the message says the remedy."""

    exit_code = 3
