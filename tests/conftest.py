"""What several test folders share."""

from __future__ import annotations

import atexit
import itertools
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
_HOMES = tempfile.mkdtemp(prefix="companion-tests-")
os.environ["COMPANION_HOME"] = _HOMES
atexit.register(shutil.rmtree, _HOMES, ignore_errors=True)
_HOME_NUMBERS = itertools.count()


_LONGEST = ("test_rehearsal.py", "test_intelligible.py", "test_faulty_evenings.py", "test_crash.py", "test_installed.py")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the longest files: one process is busy with such a file for long, and the other would wait for it at the end."""
    items.sort(key=lambda item: _LONGEST.index(item.path.name) if item.path.name in _LONGEST else len(_LONGEST))


@pytest.fixture(autouse=True)
def own_home(monkeypatch: pytest.MonkeyPatch) -> None:
    """Give every test a home nobody has lived in: a profile that another test left would change what it sees."""
    monkeypatch.setenv("COMPANION_HOME", f"{_HOMES}/{next(_HOME_NUMBERS)}")


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
