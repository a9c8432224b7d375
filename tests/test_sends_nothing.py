"""Nothing is sent anywhere and nothing is left in the user's cache, as the kernel sees it.

A hook in Python sees no socket that a native library opens, so the program runs under strace, in a network namespace of its own
where whatever it might try to reach isn't there.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tomllib
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

_SWITCHED_OFF_BY = ("CI", "ORT_DISABLE_TELEMETRY", "ORT_RUNNING_UNIT_TESTS")
"""What keeps onnxruntime quiet already; taken away here, so that only the program's own switch does."""
_INTERNET = re.compile(r"socket\(AF_INET6?\b")
_MADE = re.compile(r'(?:openat|open|creat|mkdir|mkdirat)\((?:AT_FDCWD, )?"([^"]+)"(?:, [^"]*O_CREAT[^"]*|, 0\d+)\) = \d')


def _trace(arguments: list[str], folder: Path, typed: str = "") -> tuple[list[str], list[str]]:
    """Run Python with these arguments in an empty home under ``folder``; return its internet sockets and the files it made elsewhere."""
    if not shutil.which("strace") or not shutil.which("unshare") or os.getuid() != 0:
        pytest.skip("strace, unshare and root are needed to see native sockets; .ci/run has them")
    home, temp, trace = folder / "home", folder / "temp", folder / "trace"
    home.mkdir()
    temp.mkdir()
    environment = {name: value for name, value in os.environ.items() if name not in _SWITCHED_OFF_BY}
    environment |= {"HOME": str(home), "TMPDIR": str(temp), "COMPANION_HOME": str(home / "companion"), "PYTHONDONTWRITEBYTECODE": "1"}
    calls = "trace=socket,open,openat,creat,mkdir,mkdirat"
    watched = ["unshare", "-n", "strace", "-f", "--seccomp-bpf", "-e", calls, "-o", str(trace), sys.executable, *arguments]
    subprocess.run(watched, env=environment, input=typed.encode(), check=True, capture_output=True, timeout=300)
    lines = trace.read_text("utf-8", "replace").splitlines()
    # The sound server's libraries talk to it through shared memory and folders of theirs.
    of_sound = ("/dev/shm/", str(home / ".config"), str(temp / "pulse-"))
    allowed = (str(home / "companion"), str(temp), "/dev/null", *of_sound)
    made = [found[1] for line in lines if (found := _MADE.search(line)) and not found[1].startswith(allowed)]
    left = [str(path) for path in (*home.rglob("*"), *temp.rglob("*")) if not str(path).startswith((str(home / "companion"), *of_sound))]
    return [line for line in lines if _INTERNET.search(line)], [*made, *left]


def test_the_trace_sees_a_socket_and_a_file(tmp_path: Path) -> None:
    """A program that opens an internet socket and writes into the home is found out: this check can fail."""
    code = "import socket, pathlib; socket.socket().close(); (pathlib.Path.home() / 'id').write_text('x')"
    sockets, files = _trace(["-c", code], tmp_path)
    assert len(sockets) == 1
    assert str(tmp_path / "home" / "id") in files


def test_the_voice_detector_opens_no_socket(tmp_path: Path) -> None:
    """Loading onnxruntime and its model through us reaches for no network and leaves no device id behind."""
    code = "import numpy, companion.hearing.vad as voice; voice.SileroDetector().probability(numpy.zeros(512, 'f4'))"
    assert _trace(["-c", code], tmp_path) == ([], [])


@pytest.mark.slow
def test_a_whole_rehearsal_opens_no_socket(tmp_path: Path) -> None:
    """A whole evening through recogniser, sky and voice: no internet socket, no file but in its own folders."""
    assert _trace(["-m", "companion", "rehearse"], tmp_path) == ([], [])


TYPED = "yes\nyes\nhelp\nready\nwhat time is it\ngood night\nyes\n"
HERE = ["--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T20:00:00-03:00"]


@pytest.mark.slow
@pytest.mark.parametrize("how", [["--text"], []])
def test_an_evening_opens_no_socket(tmp_path: Path, how: list[str]) -> None:
    """A typed evening, and a spoken one: recogniser, voice detector and voices are loaded, whether there is a sound device or not."""
    assert _trace(["-m", "companion", "start", *how, *HERE], tmp_path, TYPED) == ([], [])
    assert (tmp_path / "home" / "companion" / "evening.jsonl").stat().st_size


@pytest.mark.slow
def test_no_dependency_opens_a_socket(tmp_path: Path) -> None:
    """Each package we depend on, those of the mount's line too, asked by itself: loading it reaches for nothing and leaves nothing."""
    project = tomllib.loads((Path(__file__).parent.parent / "pyproject.toml").read_text("utf-8"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["mount"]]
    names = {re.split(r"[ ;<>=!~\[]", requirement)[0] for requirement in wanted}
    modules = {module for module, providers in packages_distributions().items() if names & set(providers) and not module.startswith("_")}
    assert len(modules) >= len(names)
    code = (
        "import importlib, sys\nfrom companion.hearing.vosk.engine import load_library\nload_library()\n"
        "for name in sys.argv[1:]:\n    importlib.import_module(name)"
    )
    assert _trace(["-c", code, *sorted(modules)], tmp_path) == ([], [])
