"""What several test folders share."""

from __future__ import annotations

import atexit
import os
import shutil
import signal
import socket
import tempfile
from collections.abc import Iterator

import pytest

import companion  # noqa: F401 - switches a library's usage data off before any test can load that library

# In the background of a script we inherit ignored signals, and so would the programs that tests end by them.
for _ending in (signal.SIGINT, signal.SIGHUP, signal.SIGQUIT):
    if signal.getsignal(_ending) is signal.SIG_IGN:
        signal.signal(_ending, signal.default_int_handler if _ending is signal.SIGINT else signal.SIG_DFL)
# No test may read or write the home of who runs it.
os.environ["COMPANION_HOME"] = tempfile.mkdtemp(prefix="companion-tests-")
atexit.register(shutil.rmtree, os.environ["COMPANION_HOME"], ignore_errors=True)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the rehearsal: one process is busy with it for long, and the other would wait for it at the end."""
    items.sort(key=lambda item: item.path.name != "test_rehearsal.py")


@pytest.fixture
def no_network(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Refuse every attempt to reach a network, as a machine without one does; the list names the attempts."""
    attempts: list[str] = []

    def refuse(*where: object, **_: object) -> None:
        attempts.append(repr(where))
        raise OSError("there is no network in this test")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    monkeypatch.setattr(socket.socket, "connect_ex", refuse)
    monkeypatch.setattr(socket, "create_connection", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)
    return attempts


@pytest.fixture
def no_sockets(no_network: list[str]) -> Iterator[None]:
    """Fail the test when anything tried to reach a network, even if it took the refusal calmly."""
    yield
    assert not no_network
