"""Where all user files live."""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs


def home() -> Path:
    """Return the one directory all user files live under: COMPANION_HOME, else the platform's data directory."""
    return Path(os.environ.get("COMPANION_HOME") or platformdirs.user_data_dir("companion", appauthor=False))
