"""The journal: an evening as one JSON object a line, each with its schema version and checksum, so that nothing said is lost.

``append`` writes a line before it is acted upon; ``sync`` forces the lines to the disk, once a turn, together with the spoken reply.
A lock keeps a second companion out. The file is readable by its owner only.
"""

from __future__ import annotations

import contextlib
import errno
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

from companion.errors import AlreadyAtWork, CompanionError
from companion.files import open_to_add, read_file, write_whole

SCHEMA_VERSION = 1

Record: TypeAlias = Mapping[str, Any]
"""One line of a journal, without its version and checksum: ``kind`` says what it is, plain values say the rest."""

Flaw = Literal["torn", "damaged", "other-version", "too-long"]
"""``torn``: the last line was cut off while it was written; ``damaged``: a line in the middle can't be trusted;
``other-version``: written by a version of us whose lines we don't know; ``too-long``: longer than any evening, so that none is read."""
LONGEST_BYTES = 20_000_000
"""A hundred times the longest evening."""


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
        """Open ``path`` for appending, making it and its folder where they are missing. AlreadyAtWork when another companion holds it."""
        try:
            path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            self._lock = filelock.FileLock(path.with_suffix(".lock"), timeout=0, mode=0o600)
            self._lock.acquire()
            self._file = _open(path)
            self._size = os.fstat(self._file).st_size
        except filelock.Timeout as error:
            raise AlreadyAtWork(
                f"another companion is already at work with {path.parent}; end that one, or set COMPANION_HOME to another folder"
            ) from error
        except OSError as error:
            raise JournalError(path, error) from error
        self.path = path

    def append(self, record: Record) -> None:
        """Write one record, whole or not at all: no good line may follow half a one."""
        rest = memoryview(_line(record))
        end = self._size + len(rest)
        try:
            if os.fstat(self._file).st_size != self._size:
                os.ftruncate(self._file, self._size)  # What was cut last time couldn't be taken away then.
            while rest:
                taken = os.write(self._file, rest)
                if taken == 0:
                    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
                rest = rest[taken:]
            self._size = end
        except OSError as error:
            raise JournalError(self.path, error) from error
        finally:
            if self._size != end:
                with contextlib.suppress(OSError):
                    os.ftruncate(self._file, self._size)

    def sync(self) -> None:
        """Make sure that what was appended survives a power cut."""
        try:
            os.fsync(self._file)
        except OSError as error:
            raise JournalError(self.path, error) from error

    def begin_anew(self, records: Iterable[Record] = (), *, keep_old: bool) -> None:
        """Replace what the journal holds by ``records``, in one step; with ``keep_old`` what was there is kept beside it under a number."""
        try:
            if keep_old and self._size:
                _keep(self.path, self._free_name())
            write_whole(self.path, b"".join(map(_line, records)))
            replaced, self._file = self._file, _open(self.path)
            os.close(replaced)
            self._size = os.fstat(self._file).st_size
        except OSError as error:
            raise JournalError(self.path, error) from error

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
    file = open_to_add(path)
    if hasattr(os, "fchmod"):
        os.fchmod(file, 0o600)  # It may be older than our care.
    return file


def _keep(path: Path, name: Path) -> None:
    """Give a file a second name, under which it stays when another takes its place; a copy where the disk knows no second names."""
    try:
        os.link(path, name)
    except OSError:
        write_whole(name, path.read_bytes())


def read_journal(path: Path) -> Recollection:
    """Read a journal as far as it can be trusted; a missing one has no records and no flaw."""
    try:
        lines = read_file(path, LONGEST_BYTES).splitlines(keepends=True)
    except FileNotFoundError:
        return Recollection((), None)
    except OSError as error:
        if error.errno == errno.EFBIG:
            return Recollection((), "too-long")
        raise JournalError(path, error) from error
    records: list[Record] = []
    for number, line in enumerate(lines, 1):
        record = _record(line)
        if record is None or record == _OTHER_VERSION:
            flaw: Flaw = "other-version" if record == _OTHER_VERSION else "torn" if number == len(lines) else "damaged"
            return Recollection(tuple(records), flaw)
        records.append(record)
    return Recollection(tuple(records), None)


def forget(_: Record) -> None:
    """Keep no record: for evenings that need no journal."""


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
        return record if isinstance(record["kind"], str) and line == _line(record) else None
    except (ValueError, KeyError, TypeError, RecursionError):
        return None
