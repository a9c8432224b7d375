"""Help for people: how to talk with it, and what to mind."""

from __future__ import annotations

import argparse
import re

from companion.commands.options import language_of, profile_of
from companion.errors import BadRequest, MissingPart
from companion.printing import Printer

DONE = 0


def tell(options: argparse.Namespace) -> int:
    """Print a topic, and speak it where that is wanted; without one, list them."""
    topics, printer = language_of(options).topics, Printer(options.json)
    if options.topic is None:
        lines: list[str] = list(topics)
        printer.document(lines)
    else:
        topic = options.topic.strip().casefold()
        if topic not in topics:
            raise BadRequest(f"there is no help on '{options.topic}'; choose one of: {', '.join(topics)}")
        # Whole lines, a sentence each, are what a screen reader steps through.
        lines = re.split(r"(?<=[.?!])\s+", topics[topic])
        printer.document({"topic": topic, "text": topics[topic]})
    if not options.aloud:
        printer.lines(*lines)
    elif not _spoken(lines, printer, options):
        raise MissingPart("this can't be spoken here; 'companion check --aloud' says what is missing")
    return DONE


def _spoken(lines: list[str], printer: Printer, options: argparse.Namespace) -> bool:
    """Speak line by line, each printed as it is spoken; return whether all of it was."""
    from companion.factories import open_voices  # noqa: PLC0415 - only who wants to hear it waits for voice and sound
    from companion.live.preferred_sound import loudspeaker_opener  # noqa: PLC0415
    from companion.live.tell_aloud import tell_aloud  # noqa: PLC0415

    profile = profile_of(options)
    return tell_aloud(lines, open_voices(profile.voice, language_of(options)), printer.lines, loudspeaker_opener(profile.sound))
