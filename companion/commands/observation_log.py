"""What was seen and noted: listed, exported, forgotten."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from companion import sky
from companion.commands.options import language_of, told
from companion.dialogue import Journal, read_journal, rebuild
from companion.documents.observation_rows import csv_text, full_row, row
from companion.documents.open_astronomy_log import open_astronomy_log
from companion.errors import BadRequest
from companion.languages import Language
from companion.lines import complain, put_line
from companion.live import journal_path
from companion.observation_log import LogError, log_path, read_log
from companion.observing.observation import Observation
from companion.printing import Printer
from companion.sky import Body, Moment
from companion.talk.command_phrases import EveningKept, LogLinesUnreadable
from companion.talk.observation_phrases import NotedOfIt, NothingWrittenDown, WasSeen, WrittenDownIsGone
from companion.user_files import home

DONE = 0
_COLUMNS = (
    "time", "target", "catalogue", "kind", "altitude_deg", "azimuth_deg", "eyepiece_mm", "seen", "looks", "steadiness", "clearness", "note",
    "aperture_mm", "focal_length_mm", "place", "latitude_deg", "longitude_deg", "elevation_m",
)  # fmt: skip


def show(options: argparse.Namespace) -> int:
    """List what was seen, the oldest first, or write all of it in a format for other programs."""
    if options.export not in (None, "json") and options.json:
        raise BadRequest(f"--json and --export {options.export} are two formats; give one of them")
    path, language = log_path(home()), language_of(options)
    found = read_log(path)
    if found.unreadable:
        complain(language.plain_words(LogLinesUnreadable(str(path), found.unreadable)))
    printer = Printer(options.json)
    match options.export:
        case "json":
            put_line(json.dumps([full_row(seen, _note(language, seen)) for seen in found.observations], ensure_ascii=False, indent=2))
        case "csv":
            put_line(csv_text([full_row(seen, _note(language, seen)) for seen in found.observations], _COLUMNS).removesuffix("\n"))
        case "oal":
            put_line(open_astronomy_log(found.observations, lambda seen: _told(language, WasSeen(seen)), _find, language.code))
        case _:
            seen_so_far = [_told(language, WasSeen(seen)) for seen in found.observations]
            printer.lines(*(seen_so_far or [language.plain_words(NothingWrittenDown())]))
            printer.document([row(seen, _note(language, seen)) for seen in found.observations])
    return DONE


def _note(language: Language, seen: Observation) -> str:
    return _told(language, NotedOfIt(seen))


def _told(language: Language, saying: WasSeen | NotedOfIt) -> str:
    return language.words(saying, Moment(saying.observation.site, saying.observation.time))


def _find(name: str) -> Body | None:
    try:
        return sky.find(name)
    except BadRequest:
        return None


def forget(options: argparse.Namespace) -> int:
    """Remove the log, and the journals of past evenings, which hold the same; an evening still to be gone on with keeps its own."""
    kept = _forget_past_evenings(home())
    path = log_path(home())
    try:
        path.unlink(missing_ok=True)
    except OSError as error:
        raise LogError(path, error) from error
    printer = Printer(options.json)
    printer.lines(told(options, WrittenDownIsGone()))
    if kept:
        complain(told(options, EveningKept(str(kept))))
    printer.document([])
    return DONE


def _forget_past_evenings(folder: Path) -> Path | None:
    """Remove the journals of evenings that are over or were put aside; return the one that is still to be gone on with, if any."""
    current = journal_path(folder)
    if not folder.exists():
        return None
    try:
        # Holding it keeps out whoever would write meanwhile.
        with Journal(current):
            memory = rebuild(read_journal(current).records)
        past = [*folder.glob(f"{current.stem}-*{current.suffix}")]
        under_way = bool(memory.stages) and not memory.ended
        for journal in past if under_way else [*past, current]:
            journal.unlink(missing_ok=True)
    except OSError as error:
        raise LogError(current, error) from error
    return current if under_way else None
