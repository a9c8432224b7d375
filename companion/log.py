"""The log file: what went wrong inside, for whoever mends the companion. Users see one line instead."""

from __future__ import annotations

import logging
from logging.handlers import RotatingFileHandler
from pathlib import Path

LARGEST_BYTES, FILES_KEPT = 200_000, 3


def log_trouble(folder: Path, error: BaseException) -> Path | None:
    """Write an unexpected error with its trace to the rotating log in ``folder``; return the file, or None where it can't be written."""
    file = folder / "companion.log"
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        handler = RotatingFileHandler(file, maxBytes=LARGEST_BYTES, backupCount=FILES_KEPT, encoding="utf-8")
    except OSError:
        return None
    handler.setFormatter(logging.Formatter("%(asctime)s %(message)s"))
    logger = logging.Logger("companion")
    logger.addHandler(handler)
    logger.error("unexpected", exc_info=error)
    handler.close()
    return file
