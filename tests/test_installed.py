"""Everything works from an installed wheel in an empty directory, and from an editable install."""

from __future__ import annotations

import json
import subprocess
import sys
import tomllib
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


def _run(*command: str, cwd: Path) -> str:
    done = subprocess.run(command, cwd=cwd, capture_output=True, text=True, check=False, timeout=600)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_every_package_is_installed() -> None:
    """Each folder of modules stands among the packages of a wheel: what is forgotten would only be missed once installed."""
    packages = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]["packages"]
    folders = {".".join(file.parent.relative_to(ROOT).parts) for file in (ROOT / "companion").rglob("__init__.py")}
    assert not folders - set(packages)


@pytest.mark.slow
@pytest.mark.parametrize("kind", ["wheel", "editable"])
def test_rehearsal_from_an_installation(tmp_path: Path, kind: str) -> None:
    """A fresh environment with only our dependencies holds the whole evening; grammars, recordings and data come along."""
    home, empty = tmp_path / "venv", tmp_path / "empty"
    empty.mkdir()
    venv.create(home, with_pip=True)
    python = str(home / "bin" / "python")
    if kind == "wheel":
        _run(sys.executable, "-m", "build", "--wheel", "--outdir", str(tmp_path / "dist"), str(ROOT), cwd=empty)
        what = [str(next((tmp_path / "dist").glob("*.whl")))]
    else:
        what = ["-e", str(ROOT)]
    _run(python, "-m", "pip", "install", "-q", *what, cwd=empty)
    document = json.loads(_run(str(home / "bin" / "companion"), "rehearse", "--json", cwd=empty))
    assert document["finished"]
    assert document["recognised"] == document["expected"]
    where = json.loads(_run(str(home / "bin" / "companion"), "where", "M31", "--lat", "46", "--lon", "-67", "--json", cwd=empty))
    assert where["constellation"] == "And"
