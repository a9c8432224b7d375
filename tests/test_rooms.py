"""The house stays as it is drawn: rooms import only what they may."""

from __future__ import annotations

from pathlib import Path

from importlinter.cli import lint_imports

PYPROJECT = Path(__file__).parent.parent / "pyproject.toml"


def test_rooms_import_only_what_they_may() -> None:
    """Every contract of pyproject's importlinter section holds."""
    assert lint_imports(config_filename=str(PYPROJECT), no_cache=True) == 0
