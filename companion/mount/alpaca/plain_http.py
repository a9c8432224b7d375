"""One HTTP connection to one server whose whole exchange has one time limit: the connection, the headers and the body together.

The usual clients limit each read on its own, so that an answer that trickles in never ends. This one also goes nowhere else: no
proxy is asked, no redirect followed.
"""

from __future__ import annotations

import contextlib
import http.client
import io
import select
import socket
import time
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

LARGEST_BODY = 1 << 20
"""Bytes; the standard's answers take less than a thousandth. Judgement."""


class NothingSent(OSError):
    """The server can't be reached: the request was not sent."""


class NoAnswer(OSError):
    """The request was sent, or a part of it; no whole answer came in time."""


@dataclass(frozen=True)
class HttpAnswer:
    """What came back."""

    status: int
    headers: dict[str, str]
    body: bytes


class PlainHttp:
    """A connection that is kept between requests and made anew where it was dropped. For one thread at a time."""

    def __init__(self, host: str, port: int) -> None:
        """Take the server; nothing is sent yet."""
        self._host, self._port = host, port
        self._socket: socket.socket | None = None

    def exchange(self, method: str, path: str, body: bytes, headers: Mapping[str, str], limit_s: float) -> HttpAnswer:
        """Send one request and return its answer; raise ``NothingSent`` or ``NoAnswer`` within ``limit_s`` seconds.

        Looking up a host's name may take longer: the system has no limit for it.
        """
        deadline = time.monotonic() + limit_s
        request = _request_bytes(method, path, body, {"Host": _host_header(self._host, self._port), **headers})
        line = self._connected(deadline)
        try:
            line.settimeout(_left(deadline))
            line.sendall(request)
            answer, keep = _read_answer(line, method, deadline)
        except (OSError, http.client.HTTPException, ValueError) as error:
            self.close()
            raise NoAnswer(f"{type(error).__name__}: {error}") from error
        if not keep:
            self.close()
        return answer

    def close(self) -> None:
        """Drop the connection; the next request makes another."""
        if self._socket is not None:
            with contextlib.suppress(OSError):
                self._socket.close()
            self._socket = None

    def _connected(self, deadline: float) -> socket.socket:
        if self._socket is not None and _is_dropped(self._socket):
            self.close()
        if self._socket is None:
            try:
                self._socket = socket.create_connection((self._host, self._port), _left(deadline))
                self._socket.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            except (OSError, UnicodeError) as error:  # a host's name may be one no resolver takes
                raise NothingSent(f"{type(error).__name__}: {error}") from error
        return self._socket


def _left(deadline: float) -> float:
    """Return the seconds left, for a socket's limit; TimeoutError where there are none."""
    left = deadline - time.monotonic()
    if left <= 0:
        raise TimeoutError("out of time")
    return left


def _is_dropped(line: socket.socket) -> bool:
    """Say whether an idle connection has been closed by the other side, or has something on it that nobody asked for."""
    readable, _, _ = select.select([line], [], [], 0)
    return bool(readable)


def _host_header(host: str, port: int) -> str:
    # A link-local address has its interface after a per cent sign, which is no business of the server's.
    return f"[{host.partition('%')[0]}]:{port}" if ":" in host else f"{host}:{port}"


def _request_bytes(method: str, path: str, body: bytes, headers: Mapping[str, str]) -> bytes:
    if body or method == "PUT":
        headers = {**headers, "Content-Length": str(len(body))}
    lines = [f"{method} {path} HTTP/1.1", *(f"{name}: {value}" for name, value in headers.items()), "", ""]
    return "\r\n".join(lines).encode("latin-1") + body


class _TimedReader(io.RawIOBase):
    """Reads a socket, each time with no more than the time that is left."""

    def __init__(self, line: socket.socket, deadline: float) -> None:
        self._line, self._deadline = line, deadline

    def readable(self) -> bool:
        return True

    def readinto(self, buffer: Any) -> int:
        self._line.settimeout(_left(self._deadline))
        return self._line.recv_into(buffer)


class _Readable:
    """What ``HTTPResponse`` wants of a socket."""

    def __init__(self, line: socket.socket, deadline: float) -> None:
        self._reader = _TimedReader(line, deadline)

    def makefile(self, mode: str) -> io.BufferedReader:
        return io.BufferedReader(self._reader)


def _read_answer(line: socket.socket, method: str, deadline: float) -> tuple[HttpAnswer, bool]:
    """Return the answer and whether the connection may be used again."""
    response = http.client.HTTPResponse(_Readable(line, deadline), method=method)  # type: ignore[arg-type]
    response.begin()
    body = response.read(LARGEST_BODY + 1)
    if len(body) > LARGEST_BODY:
        raise ValueError("the answer is too long")
    if response.length:
        raise http.client.IncompleteRead(body, response.length)
    return HttpAnswer(response.status, dict(response.getheaders()), body), not response.will_close
