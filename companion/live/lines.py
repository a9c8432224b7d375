"""Typed lines, taken as they come, without anybody waiting for them."""

from __future__ import annotations

import queue
import threading
from collections.abc import Iterable, Iterator


class Lines:
    """Reads lines on a thread of its own."""

    def __init__(self, source: Iterable[str]) -> None:
        """Begin to read ``source``, such as standard input."""
        self._source = source
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

    def _read(self) -> None:
        for line in self._source:
            self._queue.put(line)
