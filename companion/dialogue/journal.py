"""The journal: an evening as one JSON object a line, each with its schema version and checksum, so that nothing said is lost.

``append`` writes a line before it is acted upon; ``sync`` forces the lines to the disk, once a turn, together with the spoken reply.
A lock keeps a second companion out. The file is readable by its owner only.
"""

from __future__ import annotations

import json
import os
import zlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from types import TracebackType
from typing import Any, Literal, TypeAlias

import filelock

from companion.errors import BadRequest, CompanionError

SCHEMA_VERSION = 1

Record: TypeAlias = Mapping[str, Any]
"""One line of a journal, without its version and checksum: ``kind`` says what it is, plain values say the rest."""

Flaw = Literal["torn", "damaged", "other-version"]
"""``torn``: the last line was cut off while it was written; ``damaged``: a line in the middle can't be trusted;
``other-version``: written by a version of us whose lines we don't know."""


@dataclass(frozen=True)
class Recollection:
    """What a journal file still says."""

    records: tuple[Record, ...]
    """The records up to the first flaw."""
    flaw: Flaw | None
    """What is wrong with the rest, None when nothing is."""


class Journal:
    """An open journal. Use it in a ``with`` statement, or close it."""

    def __init__(self, path: Path) -> None:
        """Open ``path`` for appending, making it and its folder where they are missing. BadRequest when another companion holds it."""
        try:
            path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            self._lock = filelock.FileLock(path.with_suffix(".lock"), timeout=0)
            self._lock.acquire()
            self._file = _open(path)
        except filelock.Timeout as error:
            raise BadRequest(
                f"another companion is already at work with {path.parent}; end that one, or set COMPANION_HOME to another folder"
            ) from error
        except OSError as error:
            raise JournalError(path, error) from error
        self.path = path

    def append(self, record: Record) -> None:
        """Write one record."""
        try:
            os.write(self._file, _line(record))
        except OSError as error:
            raise JournalError(self.path, error) from error

    def sync(self) -> None:
        """Make sure that what was appended survives a power cut."""
        try:
            os.fsync(self._file)
        except OSError as error:
            raise JournalError(self.path, error) from error

    def begin_anew(self, records: Iterable[Record] = (), *, keep_old: bool) -> None:
        """Replace what the journal holds by ``records``; with ``keep_old`` what was there is kept beside it under a number."""
        try:
            if keep_old and self.path.stat().st_size:
                self.path.rename(self._free_name())
                os.close(self._file)
                self._file = _open(self.path)
            os.truncate(self._file, 0)
        except OSError as error:
            raise JournalError(self.path, error) from error
        for record in records:
            self.append(record)
        self.sync()

    def _free_name(self) -> Path:
        names = (self.path.with_name(f"{self.path.stem}-{number}{self.path.suffix}") for number in count(1))
        return next(name for name in names if not name.exists())

    def close(self) -> None:
        """Let go of the file and the lock."""
        os.close(self._file)
        self._lock.release()

    def __enter__(self) -> Journal:
        """Return the journal."""
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        """Close it."""
        self.close()


def _open(path: Path) -> int:
    return os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND, 0o600)


def read_journal(path: Path) -> Recollection:
    """Read a journal as far as it can be trusted; a missing one has no records and no flaw."""
    try:
        lines = path.read_bytes().splitlines(keepends=True)
    except FileNotFoundError:
        return Recollection((), None)
    except OSError as error:
        raise JournalError(path, error) from error
    records: list[Record] = []
    for number, line in enumerate(lines, 1):
        record = _record(line)
        if record is None or record == _OTHER_VERSION:
            flaw: Flaw = "other-version" if record == _OTHER_VERSION else "torn" if number == len(lines) else "damaged"
            return Recollection(tuple(records), flaw)
        records.append(record)
    return Recollection(tuple(records), None)


class JournalError(CompanionError):
    """The disk won't take the journal."""

    exit_code = 3

    def __init__(self, path: Path, cause: OSError) -> None:
        """Take the file and what the system said."""
        super().__init__(
            f"{path}: the journal can't be used ({cause.strerror or cause}); free some space, or set COMPANION_HOME to another folder"
        )


_OTHER_VERSION: Record = {"kind": "other-version"}


def _line(record: Record) -> bytes:
    body = json.dumps(record, ensure_ascii=False, sort_keys=True)
    return f'{{"schema": {SCHEMA_VERSION}, "sum": "{zlib.crc32(body.encode()):08x}", "record": {body}}}\n'.encode()


def _record(line: bytes) -> Record | None:
    """Return the record of a line, None when the line can't be trusted."""
    try:
        document = json.loads(line)
        if document["schema"] != SCHEMA_VERSION:
            return _OTHER_VERSION
        record: Record = document["record"]
        return record if line == _line(record) else None
    except (ValueError, KeyError, TypeError):
        return None
