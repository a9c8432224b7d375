"""The command line: which function a command is, and what its end means to the shell."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from pkgutil import resolve_name

from companion.arguments import read_arguments
from companion.errors import CompanionError

DONE, BROKEN, INTERRUPTED = 0, 3, 130


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code; every complaint is one line on standard error."""
    try:
        options = read_arguments(arguments)
        exit_code: int = resolve_name(f"companion.commands.{options.function}")(options)
        return exit_code
    except CompanionError as error:
        print(f"companion: error: {' '.join(str(error).split())}", file=sys.stderr)
        return error.exit_code
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # Whoever read our output has gone; nobody is left to tell. Python would complain again at exit, so give it a sink.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except Exception as error:
        # A mistake of ours: one line for the user, the trace for whoever mends it.
        print(f"companion: error: something broke inside ({type(error).__name__}); the details are in {_logged(error)}", file=sys.stderr)
        return BROKEN


def _logged(error: Exception) -> str:
    """Log an error; return the file, or that there is none. Loaded only now, since hardly any call needs it."""
    from companion.log import log_trouble  # noqa: PLC0415
    from companion.user_files import home  # noqa: PLC0415

    return str(log_trouble(home(), error) or "no log")
