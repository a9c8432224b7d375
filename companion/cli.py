"""The command line: which function a command is, and what its end means to the shell."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Mapping, Sequence

from companion.arguments import read_arguments
from companion.commands import evenings, heavens, profiles, sound
from companion.errors import CompanionError
from companion.log import log_trouble
from companion.profile import home

DONE, BROKEN, INTERRUPTED = 0, 3, 130

COMMANDS: Mapping[str, Callable[[argparse.Namespace], int]] = {
    "start": evenings.start,
    "rehearse": evenings.rehearse,
    "hear": sound.hear,
    "say": sound.say,
    "model": sound.model,
    "profile": profiles.profile,
    "check": sound.check,
    "where": heavens.where,
    "what": heavens.what,
    "night": heavens.night,
    "stars": heavens.stars,
    "tonight": heavens.tonight,
    "fit": heavens.fit,
    "diagnose": heavens.diagnose,
    "declination": heavens.declination,
    "settings": heavens.settings,
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code; every complaint is one line on standard error."""
    try:
        options = read_arguments(arguments)
        return COMMANDS[options.command](options)
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
        log = log_trouble(home(), error)
        print(f"companion: error: something broke inside ({type(error).__name__}); the details are in {log or 'no log'}", file=sys.stderr)
        return BROKEN
