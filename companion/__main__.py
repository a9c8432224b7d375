"""The program: ``companion`` and ``python -m companion``."""

import contextlib
import os
import signal
import sys
from types import FrameType
from typing import NoReturn

INTERRUPTED = 130
_ENDINGS = ("SIGTERM", "SIGHUP")
"""Sent by who ends a session or the machine."""


def run() -> int:
    """Run the command line."""
    # While modules are loaded nothing is under way that could be lost, and a library that is interrupted then says so in its own ways.
    interrupted = signal.getsignal(signal.SIGINT)
    _on_signal("SIGINT", lambda *_: os._exit(INTERRUPTED))
    for name in _ENDINGS:
        _on_signal(name, lambda number, _: os._exit(128 + number))
    _standard_streams()
    # Two BLAS threads that share their cores with anything else wait for each other: a decision took 4.2 s instead of 0.28 s. numpy
    # reads this when it is loaded, hence before the import; whoever sets it keeps what they set.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # All we write is its owner's alone, whoever writes it: libraries and children included.
    os.umask(0o077)
    from companion.cli import main  # noqa: PLC0415

    def loaded() -> None:
        _on_signal("SIGINT", interrupted)
        for name in _ENDINGS:
            _on_signal(name, _end)

    exit_code = main(loaded=loaded)
    _on_signal("SIGINT", lambda *_: os._exit(INTERRUPTED))
    return exit_code


def _on_signal(name: str, handler: object) -> None:
    """Answer a signal, where the system has it and whoever started us didn't have it ignored."""
    number = getattr(signal, name, None)
    if number is not None and signal.getsignal(number) is not signal.SIG_IGN:
        signal.signal(number, handler)  # type: ignore[arg-type]


def _end(number: int, frame: FrameType | None) -> NoReturn:
    """End by unwinding, so that temporary files are put away and the terminal is left as it was."""
    raise SystemExit(128 + number)


def _standard_streams() -> None:
    """Have all three streams, and none that a byte or a letter it can't take would break.

    Where one was closed, the first file opened would take its number, and whatever a library prints would go into that file.
    """
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, mode, encoding="utf-8"))  # noqa: SIM115 -- for as long as we run
    for stream, errors in ((sys.stdin, "replace"), (sys.stdout, "backslashreplace"), (sys.stderr, "backslashreplace")):
        with contextlib.suppress(AttributeError):  # put there by somebody else
            stream.reconfigure(errors=errors)  # type: ignore[union-attr]


if __name__ == "__main__":
    sys.exit(run())
