"""What several test folders share."""

from __future__ import annotations

import socket
from pathlib import Path

import pytest

FIRST_EVENING = Path(__file__).parent.parent / "audio_fixtures" / "first_evening"


@pytest.fixture
def no_sockets(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make every attempt to open a socket a failure."""

    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("something tried to open a socket")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    monkeypatch.setattr(socket.socket, "connect_ex", refuse)
    monkeypatch.setattr(socket, "create_connection", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)
