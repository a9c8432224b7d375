"""What is typed, taken as it comes, without anybody waiting for it."""

from __future__ import annotations

import os
import queue
import threading
from collections.abc import Callable, Iterable, Iterator
from typing import Protocol, TextIO

from companion.lines import bounded_lines


class Typing(Protocol):
    """Where typed lines and strokes of the talking key come from."""

    @property
    def ended(self) -> bool:
        """Whether no line will come any more."""
        ...

    def waiting(self) -> Iterator[str]:
        """Yield the lines that have come."""
        ...

    def strokes(self) -> Iterator[float]:
        """Yield when the talking key was struck, repeats of a held one included; monotonic seconds."""
        ...

    def close(self) -> None:
        """Leave everything as it was found."""
        ...


def unheeded(_: str) -> None:
    """Take no notice of a key as such: where nothing can be halted."""


class Lines:
    """Reads lines on a thread of its own; keys can't be told from them, so the talking key is an empty line."""

    def __init__(self, source: Iterable[str], pressed: Callable[[str], None] = unheeded) -> None:
        """Begin to read ``source``, such as standard input; ``pressed`` gets each line at once, on the reading thread."""
        self._source = source
        self._pressed = pressed
        self._queue: queue.Queue[str] = queue.Queue()
        self._reader = threading.Thread(target=self._read, name="lines", daemon=True)
        self._reader.start()

    @property
    def ended(self) -> bool:
        """Whether no line will come any more."""
        return not self._reader.is_alive() and self._queue.empty()

    def waiting(self) -> Iterator[str]:
        """Yield the lines that have come."""
        while not self._queue.empty():
            yield self._queue.get()

    def strokes(self) -> Iterator[float]:
        """Yield nothing."""
        return iter(())

    def close(self) -> None:
        """Do nothing."""

    def _read(self) -> None:
        for line in self._source:
            self._pressed(line)
            self._queue.put(line)


def open_terminal(source: TextIO, pressed: Callable[[str], None] = unheeded) -> Typing:
    """Return how to read what is typed: key by key on a terminal where that can be done, else line by line.

    ``pressed`` gets each letter, or line, as soon as it is there, on the reading thread.
    """
    if os.name == "posix" and source.isatty():
        from companion.live.keyboard import Keyboard  # noqa: PLC0415 -- it can only be imported there

        return Keyboard(source, pressed=pressed)
    return Lines(bounded_lines(source), pressed)
