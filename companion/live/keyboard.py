"""A terminal read key by key, so that a held space bar can be seen. Lines are typed as usual; POSIX only."""

from __future__ import annotations

import codecs
import contextlib
import os
import queue
import signal
import sys
import termios
import threading
import time
import tty
from collections.abc import Callable, Iterator
from typing import Any, NoReturn, TextIO

from companion.live.terminal import unheeded

_ERASE, _END = ("\b", "\x7f"), "\x04"
_ENTER = ("\r", "\n")


class Keyboard:
    """Reads a terminal on a thread of its own until it is closed; nothing is echoed but the line being typed.

    Made and closed on the main thread: signals that end or suspend us must find the terminal as it was, too.
    """

    def __init__(
        self,
        terminal: TextIO,
        echo: TextIO = sys.stdout,
        clock: Callable[[], float] = time.monotonic,
        pressed: Callable[[str], None] = unheeded,
    ) -> None:
        """Take the terminal, where typed letters are shown, the clock that stamps the strokes, and who wants each key at once."""
        self._pressed = pressed
        self._file = terminal.fileno()
        self._echo = echo
        self._clock = clock
        self._lines: queue.Queue[str] = queue.Queue()
        self._strokes: queue.Queue[float] = queue.Queue()
        self._usual = termios.tcgetattr(self._file)
        tty.setcbreak(self._file)
        handlers = {signal.SIGTERM: _interrupt, signal.SIGHUP: _interrupt, signal.SIGQUIT: self._quit, signal.SIGTSTP: self._suspend}
        # What whoever started us had ignored, as nohup does, stays ignored.
        heeded = {number: handler for number, handler in handlers.items() if signal.getsignal(number) is not signal.SIG_IGN}
        self._handled = {number: signal.signal(number, handler) for number, handler in heeded.items()}
        self._reader = threading.Thread(target=self._read, name="keyboard", daemon=True)
        self._reader.start()

    @property
    def ended(self) -> bool:
        """Whether no line will come any more."""
        return not self._reader.is_alive() and self._lines.empty()

    def waiting(self) -> Iterator[str]:
        """Yield the lines that have come."""
        while not self._lines.empty():
            yield self._lines.get()

    def strokes(self) -> Iterator[float]:
        """Yield when the space bar was struck where no line had been begun, repeats included."""
        while not self._strokes.empty():
            yield self._strokes.get()

    def close(self) -> None:
        """Leave the terminal as it was found."""
        for number, before in self._handled.items():
            signal.signal(number, before)
        self._put_back()

    def _put_back(self) -> None:
        with contextlib.suppress(termios.error):  # the terminal may have gone away
            termios.tcsetattr(self._file, termios.TCSADRAIN, self._usual)

    def _suspend(self, number: int, frame: Any) -> None:
        """Stop as asked, with the terminal as it was found; take it again when we go on."""
        self._put_back()
        signal.signal(number, signal.SIG_DFL)
        os.kill(os.getpid(), number)
        signal.signal(number, self._suspend)
        tty.setcbreak(self._file)

    def _quit(self, number: int, frame: Any) -> None:
        """End at once, as asked, with the terminal as it was found."""
        self._put_back()
        signal.signal(number, signal.SIG_DFL)
        os.kill(os.getpid(), number)

    def _read(self) -> None:
        decode = codecs.getincrementaldecoder("utf-8")("replace").decode
        line = ""
        while data := self._bytes():
            for letter in decode(data):
                self._pressed(letter)
                if letter == _END and not line:
                    return
                line = self._typed(letter, line)

    def _bytes(self) -> bytes:
        try:
            return os.read(self._file, 1024)
        except OSError:
            # The terminal has gone away.
            return b""

    def _typed(self, letter: str, line: str) -> str:
        """Take a letter; return the line so far."""
        if letter in _ENTER:
            self._show("\n" if line else "")
            self._lines.put(line)
            return ""
        if letter == " " and not line:
            self._strokes.put(self._clock())
        elif letter in _ERASE:
            self._show("\b \b" if line else "")
            return line[:-1]
        elif letter.isprintable():
            self._show(letter)
            return line + letter
        return line

    def _show(self, text: str) -> None:
        with contextlib.suppress(OSError):  # keys are worth reading even where nothing can be shown
            self._echo.write(text)
            self._echo.flush()


def _interrupt(number: int, frame: Any) -> NoReturn:
    """End as after Ctrl-C, so that everything is put away on the way out."""
    raise KeyboardInterrupt
