"""The command line: which function a command is, and what its end means to the shell."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from pkgutil import resolve_name

from companion.arguments import language_named, read_arguments
from companion.errors import BrokenInside, CompanionError, with_remedy
from companion.lines import complain, let_go_of

DONE, INTERRUPTED = 0, 130


def main(arguments: Sequence[str] | None = None, loaded: Callable[[], None] = lambda: None) -> int:
    """Run one command and return its exit code; every complaint is one line on standard error.

    ``loaded`` is called when all that the command needs has been loaded, before it begins.
    """
    try:
        options = read_arguments(arguments)
        function = resolve_name(f"companion.commands.{options.function}")
        loaded()
        exit_code: int = function(options)
        return exit_code
    except BrokenPipeError:
        # Whoever read our output has gone; nobody is left to tell.
        let_go_of(sys.stdout)
        return DONE
    except KeyboardInterrupt:
        return INTERRUPTED
    except Exception as error:
        known = with_remedy(error)
        if known is None:
            # A mistake of ours: one line for the user, the trace for whoever mends it.
            known = BrokenInside(f"something broke inside ({type(error).__name__}); {_where_it_is_told(error)}")
        complain(f"companion: error: {_in_their_words(known, arguments)}")
        return known.exit_code


def _in_their_words(error: CompanionError, arguments: Sequence[str] | None) -> str:
    """Return an error's line; in another language its words for it, and the line behind them, which has all details."""
    line, code = " ".join(str(error).split()), language_named(arguments)
    if code is None:
        return line
    from companion.languages import load_language  # noqa: PLC0415 - loaded only now, since hardly any call needs it

    try:
        language = load_language(code)
    except CompanionError:
        return line
    return language.with_details(language.error_words(error), line)


def _where_it_is_told(error: Exception) -> str:
    """Log an error; return where its trace is, or what there is to say of it. Loaded only now, since hardly any call needs it."""
    from companion.log import last_place, log_trouble  # noqa: PLC0415
    from companion.user_files import home  # noqa: PLC0415

    log = log_trouble(home(), error)
    return f"the details are in {log}" if log else f"no log can be written, it was: {' '.join(str(error).split())} ({last_place(error)})"
