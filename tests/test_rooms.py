"""Which room may import which: the contracts in pyproject.toml hold."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path


def test_rooms_import_only_what_they_may() -> None:
    """The table in DEVELOPERS.md is true. In a process of its own, since the linter sets up logging for the whole process."""
    linter = [str(Path(sys.executable).with_name("lint-imports")), "--no-cache"]
    done = subprocess.run(linter, cwd=Path(__file__).parents[1], capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stdout
