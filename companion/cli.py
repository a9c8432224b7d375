"""The command line: which function a command is, and what its end means to the shell."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Mapping, Sequence

from companion.arguments import read_arguments
from companion.commands import ear_and_voice, evenings, profiles, sky_answers
from companion.errors import CompanionError
from companion.log import log_trouble
from companion.profile import home

DONE, BROKEN, INTERRUPTED = 0, 3, 130

COMMANDS: Mapping[str, Callable[[argparse.Namespace], int]] = {
    "start": evenings.start,
    "rehearse": evenings.rehearse,
    "hear": ear_and_voice.hear,
    "say": ear_and_voice.say,
    "model": ear_and_voice.model,
    "profile": profiles.profile,
    "check": ear_and_voice.check,
    "where": sky_answers.where,
    "what": sky_answers.what,
    "night": sky_answers.night,
    "stars": sky_answers.stars,
    "tonight": sky_answers.tonight,
    "fit": sky_answers.fit,
    "diagnose": sky_answers.diagnose,
    "declination": sky_answers.declination,
    "settings": sky_answers.settings,
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
