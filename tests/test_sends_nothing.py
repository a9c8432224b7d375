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
from pathlib import Path

import pytest

_SWITCHED_OFF_BY = ("CI", "ORT_DISABLE_TELEMETRY", "ORT_RUNNING_UNIT_TESTS")
"""What keeps onnxruntime quiet already; taken away here, so that only the program's own switch does."""
_INTERNET = re.compile(r"socket\(AF_INET6?\b")
_MADE = re.compile(r'(?:openat|open|creat|mkdir|mkdirat)\((?:AT_FDCWD, )?"([^"]+)"(?:, [^"]*O_CREAT[^"]*|, 0\d+)\) = \d')


def _trace(arguments: list[str], folder: Path) -> tuple[list[str], list[str]]:
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
    subprocess.run(watched, env=environment, check=True, capture_output=True, timeout=300)
    lines = trace.read_text("utf-8", "replace").splitlines()
    allowed = (str(home / "companion"), str(temp), "/dev/null")
    made = [found[1] for line in lines if (found := _MADE.search(line)) and not found[1].startswith(allowed)]
    left = [str(path) for path in (*home.rglob("*"), *temp.rglob("*")) if (home / "companion") not in (path, *path.parents)]
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
