"""The file of what was seen and noted: one JSON object a line, each with its checksum. No sound is ever in it.

Lines are only added, and each is on the disk before anything else happens. The last line about an observation counts, so that one told
anew replaces the old one, and a line that is written twice, as after a crash, does no harm.
"""

from __future__ import annotations

import json
import os
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, TypeAlias

from companion.documents.reader import plain, read
from companion.errors import BadRequest, CompanionError
from companion.files import open_to_add, read_file
from companion.observing.observation import Observation

_SCHEMA_VERSION = 1
LARGEST_BYTES = 50_000_000
"""A hundred thousand observations: more than a life's."""
_Key: TypeAlias = tuple[datetime, str]
"""What makes an observation the same one, told anew: when it began, and of what."""


@dataclass(frozen=True)
class _Withdrawal:
    """An observation that was taken back."""

    time: datetime
    target: str


@dataclass(frozen=True)
class _Line:
    """A line without its version and checksum: one of both."""

    seen: Observation | None = None
    withdrawn: _Withdrawal | None = None


@dataclass(frozen=True)
class ObservationLog:
    """What the file says."""

    observations: tuple[Observation, ...]
    """By time."""
    unreadable: int = 0
    """How many lines can't be read: cut off by a crash, damaged, or of another version of us."""


class LogError(CompanionError):
    """The disk won't take the observation log, or won't give it."""

    exit_code = 3

    def __init__(self, path: Path, cause: OSError) -> None:
        """Take the file and what the system said."""
        super().__init__(
            f"{path}: the observation log can't be used ({cause.strerror or cause}); "
            "free some space and check the folder, or set COMPANION_HOME to another one"
        )


def log_path(home: Path) -> Path:
    """Return where the observation log lies."""
    return home / "observations.jsonl"


def write_down(path: Path, observation: Observation) -> None:
    """Add an observation; one of the same time and target is replaced. Raises LogError."""
    _add(path, {"seen": plain(observation) | {"time": observation.time.isoformat()}})


def withdraw(path: Path, observation: Observation) -> None:
    """Take an observation back. Raises LogError."""
    _add(path, {"withdrawn": {"time": observation.time.isoformat(), "target": observation.target}})


def read_log(path: Path) -> ObservationLog:
    """Read all that can be read; a missing file has nothing in it. Raises LogError."""
    try:
        lines = read_file(path, LARGEST_BYTES).splitlines()
    except FileNotFoundError:
        return ObservationLog(())
    except OSError as error:
        raise LogError(path, error) from error
    found: dict[_Key, Observation] = {}
    unreadable = 0
    for line in filter(None, lines):
        said = _read(line)
        if said is None:
            unreadable += 1
        elif said.seen is not None:
            found[_key(said.seen)] = said.seen
        elif said.withdrawn is not None:
            found.pop(_key(said.withdrawn), None)
    return ObservationLog(tuple(sorted(found.values(), key=_key)), unreadable)


def _key(entry: Observation | _Withdrawal) -> _Key:
    return entry.time.astimezone(UTC), entry.target


def _add(path: Path, entry: Mapping[str, Any]) -> None:
    line = _line(entry)
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        file = open_to_add(path)
        try:
            # What a crash cut off must not swallow this line.
            if (size := os.fstat(file).st_size) and _byte_at(file, size - 1) != b"\n":
                line = b"\n" + line
            if os.write(file, line) < len(line):
                raise OSError("the disk is full")
            os.fsync(file)
        finally:
            os.close(file)
    except OSError as error:
        raise LogError(path, error) from error


def _byte_at(file: int, place: int) -> bytes:
    os.lseek(file, place, os.SEEK_SET)
    return os.read(file, 1)


def _line(entry: Mapping[str, Any]) -> bytes:
    body = json.dumps(entry, ensure_ascii=False, sort_keys=True)
    return f'{{"schema": {_SCHEMA_VERSION}, "sum": "{zlib.crc32(body.encode()):08x}", "entry": {body}}}\n'.encode()


def _read(line: bytes) -> _Line | None:
    try:
        document = json.loads(line)
        if document["schema"] != _SCHEMA_VERSION or line + b"\n" != _line(document["entry"]):
            return None
        return read(document["entry"], _Line)
    except (ValueError, KeyError, TypeError, RecursionError, BadRequest):
        return None
