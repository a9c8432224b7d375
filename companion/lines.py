"""Lines to and from a terminal: none that steers it, none without end, and one that can't be written is said instead of a crash."""

from __future__ import annotations

import contextlib
import json
import os
import sys
from collections.abc import Callable, Iterator
from typing import TextIO
from unicodedata import category

from companion.errors import MissingPart

_STEERING = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
"""Kinds of characters that move the cursor, turn the writing round, break the line or are no characters at all."""
_JOINERS = "\u200c\u200d"
"""Letters of some scripts hang together by these."""

LONGEST_LINE = 1_000
"""Letters of a typed line; the rest of a longer one is passed over."""


class OutputLost(MissingPart):
    """Standard output takes no more."""


def printable(text: str) -> str:
    r"""Return a line with its control characters shown, such as ``\x1b``."""
    return _shown(text, lambda letter: letter.encode("unicode_escape").decode())


def json_line(document: object, *, ascii_only: bool = False) -> str:
    """Return a document as one line of JSON; control characters are written as JSON's own escapes."""
    return _shown(json.dumps(document, ensure_ascii=ascii_only, allow_nan=False), lambda letter: json.dumps(letter)[1:-1])


def _shown(text: str, escape: Callable[[str], str]) -> str:
    if text.isprintable():
        return text
    return "".join(escape(letter) if category(letter) in _STEERING and letter not in _JOINERS else letter for letter in text)


def put_line(line: str, stream: TextIO | None = None) -> None:
    """Print a line at once, on standard output unless told otherwise. Raises OutputLost, or BrokenPipeError when the reader has gone."""
    stream = stream or sys.stdout
    try:
        print(line, file=stream, flush=True)
    except BrokenPipeError:
        raise
    except OSError as error:
        let_go_of(stream)
        raise OutputLost(f"standard output can't be written ({error.strerror}); free some space, or send it elsewhere") from error


def complain(*lines: str) -> None:
    """Print what was amiss on standard error, where that can be written."""
    for line in lines:
        try:
            print(printable(line), file=sys.stderr, flush=True)
        except OSError:
            let_go_of(sys.stderr)


def bounded_lines(source: TextIO) -> Iterator[str]:
    """Yield the lines of a stream without their ends; of one without ends, such as a device, only as much as anybody types."""
    begun = False
    while piece := source.readline(LONGEST_LINE):
        if not begun:
            yield piece.rstrip("\n")
        begun = not piece.endswith("\n")


def let_go_of(stream: TextIO) -> None:
    """Give a stream that can't be written a sink: what it still holds would be tried, and complained of, once more at the end."""
    with contextlib.suppress(OSError, ValueError):  # ValueError: it stands for no file
        sink = os.open(os.devnull, os.O_WRONLY)
        os.dup2(sink, stream.fileno())
        os.close(sink)
