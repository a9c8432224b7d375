"""Where a mount is reached, as its owner writes it: ``alpaca://HOST:PORT/NUMBER`` or ``indi://HOST:PORT/DEVICE%20NAME``."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import SplitResult, quote, unquote, urlsplit

from companion.errors import BadRequest
from companion.mount.values import Standard

HOW = "write it like alpaca://192.168.4.1:11111/0 or indi://mount.local:7624/My%20Mount"


@dataclass(frozen=True)
class MountAddress:
    """One mount on one server."""

    standard: Standard
    host: str
    port: int
    device: str
    """Alpaca: the device's number. INDI: its name."""

    def __str__(self) -> str:
        """Return it as its owner writes it."""
        return f"{self.standard}://{self.server}/{quote(self.device, safe='')}"

    @property
    def server(self) -> str:
        """The host and port as a URL has them."""
        return f"[{self.host}]:{self.port}" if ":" in self.host else f"{self.host}:{self.port}"


@dataclass(frozen=True)
class FoundMount:
    """A mount that answered when we looked for one."""

    address: MountAddress
    name: str | None


def mount_address(text: str) -> MountAddress:
    """Read an address. BadRequest says what is wrong with it."""
    try:
        parts = urlsplit(text.strip())
        host, port = parts.hostname, parts.port
        device = unquote(parts.path.removeprefix("/"), errors="strict")
    except ValueError as error:
        raise _malformed(text, str(error)) from error
    if wrong := _complaint(parts, host, port, device):
        raise _malformed(text, wrong)
    assert host is not None
    assert port is not None
    return MountAddress("alpaca" if parts.scheme == "alpaca" else "indi", host, port, device)


def _complaint(parts: SplitResult, host: str | None, port: int | None, device: str) -> str | None:
    if parts.scheme not in ("alpaca", "indi"):
        return "it begins with neither alpaca:// nor indi://"
    if not host or not host.isprintable() or any(letter.isspace() for letter in host):
        return "it has no host"
    if not port:
        return "it has no port"
    if parts.username is not None or parts.query or parts.fragment:
        return "there is more in it than host, port and device"
    if parts.scheme == "alpaca":
        # A device number is an unsigned 32-bit integer: ASCOM Alpaca API Reference, "Device number".
        return None if device.isascii() and device.isdigit() and int(device) < 2**32 else "a device number must follow the port"
    return None if device.strip() and device.isprintable() else "a device's name must follow the port"


def _malformed(text: str, why: str) -> BadRequest:
    return BadRequest(f"{text!r} is no address of a mount: {why}; {HOW}")
