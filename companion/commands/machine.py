"""The parts of this machine that an evening needs."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import fields

from companion.commands.options import language_of, profile_of
from companion.doctor import SOMEWHERE, PartChecked, check_parts
from companion.documents.profile_tables import VoicePreference
from companion.errors import MissingPart
from companion.factories import open_voices
from companion.hearing.vosk import get_model
from companion.languages import Language
from companion.lines import complain
from companion.live.tell_aloud import tell_aloud
from companion.printing import Printer
from companion.talk.live_phrases import LoudspeakerLost
from companion.talk.machine_phrases import EveryVoiceMissing, LoudspeakerMissing, NothingMissing, RemediesArePrinted
from companion.talk.saying import Say
from companion.user_files import home

DONE = 0
_IN_THE_DOCUMENT = [field.name for field in fields(PartChecked) if field.name != "aloud"]
"""What ``--json`` tells of a part."""
_WHY_IT_IS_SILENT: frozenset[Say] = frozenset({LoudspeakerMissing(), EveryVoiceMissing()})
"""Told first: whoever reads it wonders why nothing is heard."""


def check(options: argparse.Namespace) -> int:
    """Look at every part this machine needs, and name the remedies: in print and, where that is asked for, aloud."""
    language, voice = language_of(options), profile_of(options).voice
    parts = check_parts(language, voice)
    printer = Printer(options.json)
    for part in parts:
        needed = "" if part.ok or part.required else " (not required)"
        printer.lines(f"{part.part}: {'well' if part.ok else 'missing'}{needed}; {part.remedy or part.detail}")
    printer.document([{name: getattr(part, name) for name in _IN_THE_DOCUMENT} for part in parts])
    if options.aloud:
        _tell(parts, language, voice, printer)
    missing = next((part for part in parts if part.required and not part.ok), None)
    if missing:
        raise MissingPart(f"{missing.part}: {missing.remedy}")
    return DONE


def _tell(parts: Sequence[PartChecked], language: Language, voice: VoicePreference, printer: Printer) -> None:
    """Say what is missing, each with what helps; where nothing can be said, that is printed, too."""

    def show(text: str) -> None:
        printer.progress(f"it:  {text}")

    def words(saying: Say) -> str:
        return language.words(saying, SOMEWHERE)

    missing = sorted((part.aloud for part in parts if part.aloud is not None), key=lambda saying: saying not in _WHY_IT_IS_SILENT)
    told = [words(saying) for saying in (*missing, RemediesArePrinted() if missing else NothingMissing())]
    if not tell_aloud(told, open_voices(voice, language), show) and not set(missing) & _WHY_IT_IS_SILENT:
        show(words(LoudspeakerLost()))


def model(options: argparse.Namespace) -> int:
    """Fetch a recogniser's model: the one command that uses the internet."""
    directory = get_model(options.model_language, home(), complain)
    printer = Printer(options.json)
    printer.lines(f"The model is in {directory}; 'auto' listens with it from now on.")
    printer.document({"model": str(directory)})
    return DONE
