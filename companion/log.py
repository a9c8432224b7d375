"""The log file: what went wrong inside or with devices, for whoever mends the companion. Users see one line instead."""

from __future__ import annotations

import logging
from logging.handlers import RotatingFileHandler
from pathlib import Path

LARGEST_BYTES, FILES_KEPT = 200_000, 3


def keep_log(folder: Path, name: str) -> None:
    """Have what the logger of this name is told written to the rotating log in ``folder``, where it can be."""
    handler = _opened(folder)
    if handler is not None:
        logging.getLogger(name).addHandler(handler)


def log_trouble(folder: Path, error: BaseException) -> Path | None:
    """Write an unexpected error with its trace to the rotating log in ``folder``; return the file, or None where it can't be written."""
    handler = _opened(folder)
    if handler is None:
        return None
    logger = logging.Logger("companion")
    logger.addHandler(handler)
    logger.error("unexpected", exc_info=error)
    handler.close()
    return Path(handler.baseFilename)


def _opened(folder: Path) -> RotatingFileHandler | None:
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        handler = RotatingFileHandler(folder / "companion.log", maxBytes=LARGEST_BYTES, backupCount=FILES_KEPT, encoding="utf-8")
    except OSError:
        return None
    handler.setFormatter(logging.Formatter("%(asctime)s %(message)s"))
    return handler
