"""The parts of this machine that an evening needs."""

from __future__ import annotations

import argparse
from dataclasses import asdict

from companion.commands.options import language_of
from companion.doctor import check_parts
from companion.errors import MissingPart
from companion.hearing.vosk import get_model
from companion.lines import complain
from companion.printing import Printer
from companion.user_files import home

DONE = 0


def check(options: argparse.Namespace) -> int:
    """Look at every part this machine needs, and say the remedies."""
    parts = check_parts(language_of(options))
    printer = Printer(options.json)
    for part in parts:
        needed = "" if part.ok or part.required else " (not required)"
        printer.lines(f"{part.part}: {'well' if part.ok else 'missing'}{needed}; {part.remedy or part.detail}")
    printer.document([asdict(part) for part in parts])
    missing = next((part for part in parts if part.required and not part.ok), None)
    if missing:
        raise MissingPart(f"{missing.part}: {missing.remedy}")
    return DONE


def model(options: argparse.Namespace) -> int:
    """Fetch a recogniser's model: the one command that uses the internet."""
    directory = get_model(options.model_language, home(), complain)
    printer = Printer(options.json)
    printer.lines(f"The model is in {directory}; 'auto' listens with it from now on.")
    printer.document({"model": str(directory)})
    return DONE
