"""The log file: what went wrong inside or with devices, for whoever mends the companion. Users see one line instead."""

from __future__ import annotations

import logging
import os
import tempfile
import traceback
from io import TextIOWrapper
from logging.handlers import RotatingFileHandler
from pathlib import Path

from companion.files import open_to_add

LARGEST_BYTES, FILES_KEPT = 200_000, 3
_FILE_NAME = "companion.log"


class _Log(RotatingFileHandler):
    """Is read by its owner only, and keeps its own troubles to itself: a full disk must not print traces into an evening."""

    def __init__(self, file: Path) -> None:
        self.is_well = True
        super().__init__(file, maxBytes=LARGEST_BYTES, backupCount=FILES_KEPT, encoding="utf-8", errors="backslashreplace")
        self.setFormatter(logging.Formatter("%(asctime)s %(message)s"))

    def _open(self) -> TextIOWrapper:
        return os.fdopen(open_to_add(self.baseFilename), "a", encoding=self.encoding, errors=self.errors)

    def handleError(self, record: logging.LogRecord) -> None:  # noqa: N802 -- the library's name for it
        """Remember that it wasn't written."""
        self.is_well = False

    def close(self) -> None:
        """Close the file; what couldn't be written is given up."""
        try:
            super().close()
        except OSError:
            self.is_well = False


def keep_log(folder: Path, name: str) -> None:
    """Have what the logger of this name is told written to the rotating log in ``folder``, where it can be."""
    handler = _opened(folder)
    if handler is not None:
        logging.getLogger(name).addHandler(handler)


def log_trouble(folder: Path, error: BaseException) -> Path | None:
    """Write an unexpected error with its trace to the rotating log in ``folder``, else to a file of its own among the temporary ones.

    Return the file, or None where neither can be written.
    """
    return _written(folder, error) or _written(None, error)


def last_place(error: BaseException) -> str:
    """Return the file and line where an error came up."""
    frames = traceback.extract_tb(error.__traceback__)
    return f"{Path(frames[-1].filename).name}:{frames[-1].lineno}" if frames else "nowhere"


def _written(folder: Path | None, error: BaseException) -> Path | None:
    try:
        handler = _opened(folder or Path(tempfile.mkdtemp(prefix="companion-log-")))
    except OSError:
        return None
    if handler is None:
        return None
    logger = logging.Logger("companion")
    logger.addHandler(handler)
    logger.error("unexpected", exc_info=error)
    handler.close()
    return Path(handler.baseFilename) if handler.is_well else None


def _opened(folder: Path) -> _Log | None:
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        return _Log(folder / _FILE_NAME)
    except OSError:
        return None
