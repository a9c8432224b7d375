"""Lines to real parts on loopback, at free ports: the two published simulators and the tests' own mount."""

from __future__ import annotations

import itertools
import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from companion.mount import Command, Effect, Failed, Finished, Line, MountReading, MountState, mount_address, open_line

_IDS = itertools.count()


def free_port() -> int:
    """Return a port nobody listens at."""
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        port: int = listening.getsockname()[1]
        return port


def until(condition: Callable[[], Any], limit_s: float = 10.0) -> Any:
    """Return a condition's value once it is true; fail after so many seconds."""
    deadline = time.monotonic() + limit_s
    while not (value := condition()):
        assert time.monotonic() < deadline, "it never came true"
        time.sleep(0.01)
    return value


@contextmanager
def alpaca_simulator() -> Iterator[str]:
    """Run the published Alpaca simulator; yield the address of its mount."""
    pytest.importorskip("alpaca_simulators", reason="alpaca-simulators is not installed; the test extra brings it")
    port = free_port()
    command = [sys.executable, "-m", "alpaca_simulators.run_simulator", "--host", "127.0.0.1", "--port", str(port)]
    with _running(command, port):
        yield f"alpaca://127.0.0.1:{port}/0"


@contextmanager
def indi_simulator(home: Path, port: int | None = None) -> Iterator[str]:
    """Run Debian's INDI server with its simulated mount; yield the mount's address. ``home`` keeps what the driver remembers."""
    if not shutil.which("indiserver") or not shutil.which("indi_simulator_telescope"):
        pytest.skip("indiserver and indi_simulator_telescope are needed; on Debian: apt-get install indi-bin")
    port = port or free_port()
    with _running(["indiserver", "-p", str(port), "indi_simulator_telescope"], port, home):
        yield f"indi://127.0.0.1:{port}/Telescope%20Simulator"


@contextmanager
def _running(command: list[str], port: int, home: Path | None = None) -> Iterator[None]:
    environment = {**os.environ, **({"HOME": str(home)} if home else {})}
    process = subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        until(lambda: process.poll() is not None or _listens(port), 30.0)
        assert process.poll() is None, f"{command[0]} ended at once"
        yield
    finally:
        process.terminate()
        process.wait(10)


def _listens(port: int) -> bool:
    try:
        socket.create_connection(("127.0.0.1", port), 0.5).close()
    except OSError:
        return False
    return True


@contextmanager
def line_to(address: str) -> Iterator[Line]:
    """Hold an open line."""
    line = open_line(mount_address(address))
    try:
        until(lambda: line.is_up)
        yield line
    finally:
        line.close()


def reading(line: Line) -> MountReading:
    """Return all the mount tells; fail where it fails."""
    outcome = line.read().wait()
    assert isinstance(outcome, MountReading), outcome
    return outcome


def state(line: Line) -> MountState:
    """Return what the mount does now."""
    return reading(line).state


def tell(line: Line, command: Command) -> Finished | Failed:
    """Send a command under an id of its own and return what came of it."""
    return line.send(Effect(f"test {next(_IDS)}", command)).wait()
