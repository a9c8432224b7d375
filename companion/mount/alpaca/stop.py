"""Stops an Alpaca mount, past the client library: that one holds a lock for the whole process while any of its requests is open.

Plain requests of the standard's own calls, on a connection of their own.
"""

from __future__ import annotations

import json
import time
from typing import Any
from urllib.parse import urlencode

from companion.mount.address import MountAddress
from companion.mount.alpaca.connection import flag
from companion.mount.alpaca.plain_http import NoAnswer, NothingSent, PlainHttp
from companion.mount.values import fault

_PARKED = 0x408
"""Reserved error numbers of the ASCOM Alpaca API Reference."""
_STATUS = "HTTP status"
"""Under this a call that the server itself turned down is told, beside the answers of the mount."""
_CLIENT = {"ClientID": "1", "ClientTransactionID": "1"}
_FORM = {"Content-Type": "application/x-www-form-urlencoded"}


class AlpacaStopper:
    """The stop of one mount."""

    def __init__(self, address: MountAddress) -> None:
        """Take the address; nothing is sent yet."""
        self._line = PlainHttp(address.host, address.port)
        self._path = f"/api/v1/telescope/{int(address.device)}"

    def stop(self, limit_s: float) -> None:
        """End a slew, then any turning of an axis that a driver's AbortSlew leaves going. ``LineFault`` where neither was taken."""
        deadline = time.monotonic() + limit_s
        aborted = self._put("abortslew", {}, deadline)
        # A parked mount stands already. Some have AbortSlew end slews only, though the standard has it end MoveAxis too.
        stood = [_refusal(self._put("moveaxis", {"Axis": axis, "Rate": "0"}, deadline)) for axis in ("0", "1")]
        refusal = _refusal(aborted)
        if refusal is not None and aborted.get("ErrorNumber") != _PARKED and any(stood):
            raise fault("refused", f"the mount would not stop: {refusal}")

    def is_slewing(self, limit_s: float) -> bool | None:
        """Ask whether it turns."""
        path = f"{self._path}/slewing?{urlencode(_CLIENT)}"
        return flag(self._exchange("GET", path, b"", time.monotonic() + limit_s).get("Value"))

    def close(self) -> None:
        """Let go of the connection."""
        self._line.close()

    def _put(self, call: str, parameters: dict[str, str], deadline: float) -> dict[str, Any]:
        return self._exchange("PUT", f"{self._path}/{call}", urlencode({**parameters, **_CLIENT}).encode(), deadline)

    def _exchange(self, method: str, path: str, body: bytes, deadline: float) -> dict[str, Any]:
        try:
            answer = self._line.exchange(method, path, body, _FORM if body else {}, max(deadline - time.monotonic(), 0.001))
        except NothingSent as error:
            raise fault("unreachable", error) from error
        except NoAnswer as error:
            raise fault("unanswered", error) from error
        if answer.status != 200:
            return {_STATUS: answer.status}
        try:
            document = json.loads(answer.body)
        except (ValueError, RecursionError) as error:
            raise fault("nonsense", error) from error
        if not isinstance(document, dict):
            raise fault("nonsense", "the answer is no object")
        return document


def _refusal(document: dict[str, Any]) -> str | None:
    """Return why a call was not taken; None where it was."""
    if _STATUS in document:
        return f"the server answers HTTP {document[_STATUS]}"
    number = document.get("ErrorNumber", 0)
    if not isinstance(number, int):
        return "its error is no number"
    return f"error {number:#x}" if number else None
