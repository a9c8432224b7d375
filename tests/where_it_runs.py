"""Asks the package index whether the main install resolves from wheels alone, for each system and Python, and prints the table.

    python -m tests.where_it_runs

Nothing is installed and no download is kept: uv resolves against what wheels say of themselves, their platform and Python tags included
(PEP 425, PEP 600), as it would on that system. "Resolves" is no more than that: nothing was run there.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

PYPROJECT = Path(__file__).parent.parent / "pyproject.toml"
PYTHONS = ("3.11", "3.12", "3.13")
SYSTEMS = {
    "Linux x86-64": "x86_64-manylinux_2_28",
    "Linux 64-bit ARM": "aarch64-manylinux_2_28",
    "Windows x86-64": "x86_64-pc-windows-msvc",
    "macOS on Apple's chips": "aarch64-apple-darwin",
}
"""As people call them, and as uv does. glibc 2.28 is that of Debian 10; macOS is what uv takes for it, 13 or newer."""
_NO_WHEEL = re.compile(r"\b([A-Za-z0-9._-]+?)(?:[<>=!~]\S*)? (?:has|have) no (?:usable )?wheels")


@dataclass(frozen=True)
class Answer:
    """What the index says of one system and Python."""

    packages: int
    """How many would be installed; 0 where it doesn't resolve."""
    from_source: tuple[str, ...]
    """Those that have no wheel for it, and would be built from source."""
    complaint: str = ""

    def __str__(self) -> str:
        if not self.packages:
            return f"no: {self.complaint}"
        built = f", but {' and '.join(self.from_source)} from source" if self.from_source else ""
        return f"resolves ({self.packages} packages{built})"


def resolved(requirements: list[str], system: str, python: str) -> Answer:
    """Resolve; what has no wheel is allowed from source, one package after another, and named."""
    from_source: list[str] = []
    while True:
        done = _asked(requirements, system, python, from_source)
        if done.returncode == 0:
            return Answer(len(re.findall(r"^[a-z0-9]", done.stdout, re.MULTILINE)), tuple(from_source))
        complaint = " ".join(done.stderr.split())
        found = _NO_WHEEL.search(complaint)
        if found is None or found[1] in from_source:
            return Answer(0, tuple(from_source), complaint)
        from_source.append(found[1])


def _asked(requirements: list[str], system: str, python: str, from_source: list[str]) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "uv", "pip", "compile", "--quiet", "--no-header", "--no-annotate", "--only-binary", ":all:"]
    command += ["--python-platform", system, "--python-version", python]
    command += [word for name in from_source for word in ("--no-binary", name)]
    index = subprocess.run([sys.executable, "-m", "pip", "config", "get", "global.index-url"], capture_output=True, text=True, check=False)
    if index.stdout.strip():
        command += ["--index-url", index.stdout.strip()]
    with tempfile.TemporaryDirectory() as folder:
        asked = Path(folder) / "main.in"
        asked.write_text("\n".join(requirements))
        return subprocess.run([*command, str(asked)], capture_output=True, text=True, timeout=300, check=False)


def table() -> Iterator[str]:
    """Yield the lines of the table."""
    requirements = tomllib.loads(PYPROJECT.read_text("utf-8"))["project"]["dependencies"]
    yield f"| {date.today().isoformat()} | {' | '.join(f'Python {python}' for python in PYTHONS)} |"
    yield "|---" * (1 + len(PYTHONS)) + "|"
    for name, system in SYSTEMS.items():
        yield f"| {name} | {' | '.join(str(resolved(requirements, system, python)) for python in PYTHONS)} |"


if __name__ == "__main__":
    for line in table():
        print(line, flush=True)
