"""Only the address its owner named is contacted, and only by a command that was given one: as the kernel sees it."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.mount.altaz_server import altaz_server
from tests.mount.evening import NIGHT, SITE, knowing
from tests.mount.lines import indi_simulator

_REACHED = re.compile(r'(?:connect|sendto|sendmsg)\(.*?sin6?_port=htons\((\d+)\).*?(?:inet_addr|inet_pton\(AF_INET6, )\(?"([^"]+)"')


def _reached(arguments: list[str], folder: Path, typed: str = "") -> set[tuple[str, int]]:
    """Run the program under strace; return every internet address it turned to, and with port 0 each of its sockets that turned to none."""
    if not shutil.which("strace"):
        pytest.skip("strace is needed to see where sockets go; .ci/run has it")
    trace = folder / "trace"
    environment = {
        **os.environ,
        "COMPANION_HOME": str(folder / "home"),
        "http_proxy": "http://127.0.0.3:9",
        "HTTP_PROXY": "http://127.0.0.3:9",
    }
    watched = ["strace", "-f", "-e", "trace=socket,connect,sendto,sendmsg", "-o", str(trace), sys.executable, "-m", "companion", *arguments]
    subprocess.run(watched, env=environment, input=typed.encode(), check=True, capture_output=True, timeout=240)
    lines = trace.read_text("utf-8", "replace").splitlines()
    reached = [(found[2], int(found[1])) for line in lines if (found := _REACHED.search(line))]
    sockets = sum("socket(AF_INET" in line for line in lines)
    return {*reached, *(("none", 0) for _ in range(sockets - len(reached)))}


@pytest.mark.slow
@pytest.mark.parametrize("action", [[], ["stop"]])
def test_only_the_alpaca_mount_named_is_reached(tmp_path: Path, action: list[str]) -> None:
    """One address, also where the environment names a proxy. The check sees that one, so it can fail."""
    with altaz_server() as server:
        assert _reached(["mount", *action, "--mount", server.address], tmp_path) == {("127.0.0.1", server.port)}


@pytest.mark.slow
def test_only_the_indi_server_named_is_reached(tmp_path: Path) -> None:
    """The same for INDI."""
    with indi_simulator(tmp_path) as address:
        port = int(address.split(":")[2].partition("/")[0])
        assert _reached(["mount", "--mount", address], tmp_path) == {("127.0.0.1", port)}


@pytest.mark.slow
def test_an_evening_reaches_the_mount_named_and_nothing_else(tmp_path: Path) -> None:
    """Typed, from the settings to a step of the tube at a star: one address over all that is asked and sent."""
    place = ["--lat", f"{SITE.latitude_deg}", "--lon", f"{SITE.longitude_deg}", "--at", NIGHT.isoformat()]
    lines = "yes\ngo to the stars\nyes\na bit right\nstop\n"
    with altaz_server(**knowing()) as server:
        assert _reached(["start", "--text", *place, "--mount", server.address], tmp_path, lines) == {("127.0.0.1", server.port)}
        assert "PUT moveaxis" in server.requests


def test_without_a_mount_its_libraries_are_not_even_loaded() -> None:
    """Neither the command line nor the room's front door loads what speaks the standards."""
    code = "import sys, companion.cli, companion.mount; print({'alpaca', 'indipyclient', 'requests', 'ifaddr'} & set(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=120)
    assert done.stdout.strip() == "set()"
