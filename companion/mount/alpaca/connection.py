"""The Alpaca client library over our own timed connection, and what its calls may end in."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any, TypeVar

import requests
from alpaca import exceptions as ascom
from alpaca.telescope import Telescope
from requests.adapters import BaseAdapter

from companion.mount.address import MountAddress
from companion.mount.alpaca.plain_http import NoAnswer, NothingSent, PlainHttp
from companion.mount.values import Failed, LineFault, fault

T = TypeVar("T")

_SAYS_NO = (
    ascom.InvalidOperationException,
    ascom.InvalidValueException,
    ascom.SlavedException,
    ascom.OperationCancelledException,
    ascom.DriverException,
)
_NOT_TOLD = (ascom.NotImplementedException, ascom.ActionNotImplementedException, ascom.ValueNotSetException)


class _OneServer(BaseAdapter):
    """Sends what the client library asks for on one timed connection, and to that server only."""

    def __init__(self, address: MountAddress) -> None:
        super().__init__()
        self.deadline = 0.0
        self.answer_limit_s = 0.0
        self.has_answered = False
        self._line = PlainHttp(address.host, address.port)
        self._server = f"http://{address.server}/"

    def send(self, request: requests.PreparedRequest, *_: Any, **__: Any) -> requests.Response:
        if not (request.url or "").startswith(self._server):
            raise LineFault(Failed("refused", "it sends us to another address"))
        left_s = self.deadline - time.monotonic()
        if left_s <= 0:
            raise NothingSent("out of time")
        headers = {name: str(value) for name, value in request.headers.items() if name.lower() not in ("host", "content-length")}
        # The library sends forms and nothing else, which are text here.
        body = str(request.body or "").encode()
        answer = self._line.exchange(str(request.method), request.path_url, body, headers, min(left_s, self.answer_limit_s))
        self.has_answered = True
        if 300 <= answer.status < 400:
            raise LineFault(Failed("refused", f"HTTP {answer.status}: it sends us to another address"))
        return _response(request, answer.status, answer.headers, answer.body)

    def close(self) -> None:
        self._line.close()


def _response(request: requests.PreparedRequest, status: int, headers: dict[str, str], body: bytes) -> requests.Response:
    response = requests.Response()
    response.status_code, response.url, response.request = status, str(request.url), request
    response.headers.update(headers)
    response.encoding = "utf-8"
    response.raw = _Body(body)
    return response


class _Body:
    """A body already read, as ``Response`` reads it."""

    def __init__(self, body: bytes) -> None:
        self._left = body

    def read(self, size: int) -> bytes:
        piece, self._left = self._left[:size], self._left[size:]
        return piece


class AlpacaTelescope:
    """The library's telescope, with one time limit for several calls and failures we know."""

    def __init__(self, address: MountAddress) -> None:
        """Take the address; nothing is sent yet."""
        self.library = Telescope(address.server, int(address.device))
        # Neither a proxy nor a password file of the environment has anything to do with a mount next to us.
        self.library.rqs.trust_env = False
        self._server = _OneServer(address)
        self.library.rqs.mount("http://", self._server)

    @property
    def has_answered(self) -> bool:
        """Whether anything has answered since it was closed."""
        return self._server.has_answered

    def allow(self, limit_s: float, all_within_s: float | None = None) -> None:
        """Let each call until the next ``allow`` end within so many seconds, and all of them within as many, or those named, from now."""
        self._server.answer_limit_s = limit_s
        self._server.deadline = time.monotonic() + (limit_s if all_within_s is None else all_within_s)

    def call(self, what: Callable[[Telescope], T]) -> T:
        """Return what a call of the library returns; ``LineFault`` where it fails, however it fails."""
        try:
            return what(self.library)
        except LineFault:
            raise
        except NothingSent as error:
            raise fault("unreachable", error) from error
        except (NoAnswer, ascom.NotConnectedException) as error:
            raise fault("unanswered" if isinstance(error, NoAnswer) else "lost", error) from error
        except ascom.ParkedException as error:
            raise fault("parked", error) from error
        except _NOT_TOLD as error:
            raise fault("cannot", error) from error
        except ascom.AlpacaRequestException as error:
            raise fault("refused", f"the server answers HTTP {error.number}: there may be no mount of that number") from error
        except _SAYS_NO as error:
            raise fault("refused", error) from error
        except Exception as error:
            # The library checks nothing of what a server answers: a missing key, a wrong type or no JSON at all ends in anything.
            raise fault("nonsense", f"{type(error).__name__}: {error}") from error

    def told(self, what: Callable[[Telescope], T]) -> T | None:
        """Return what a call returns, None where the mount has no such thing or answers nonsense; ``LineFault`` where the line fails."""
        try:
            return self.call(what)
        except LineFault as error:
            if error.failed.why in ("cannot", "refused", "nonsense", "parked"):
                return None
            raise

    def close(self) -> None:
        """Let go of the connection; the mount stays as it is."""
        self._server.close()
        self._server.has_answered = False


def number(value: object, lowest: float, highest: float) -> float | None:
    """Return a value that is a number within bounds, None for anything else."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    # NaN is within no bounds, and a whole number too large for a float is compared before it is made one.
    return float(value) if lowest <= value <= highest else None


def flag(value: object) -> bool | None:
    """Return a value that is true or false, None for anything else."""
    return value if isinstance(value, bool) else None


def text(value: object) -> str | None:
    """Return a value that is words, on one line, None for anything else."""
    return (" ".join(value.split())[:100] or None) if isinstance(value, str) else None
