"""Opens the line to an address, or looks for one. The libraries that speak the standards are loaded here and nowhere before."""

from __future__ import annotations

from datetime import UTC, datetime

from companion.errors import MissingPart
from companion.mount.address import FoundMount, MountAddress
from companion.mount.line import Line
from companion.mount.protocol import Adapter, Clock, Stopper
from companion.quiet_loading import quiet_loading


def open_line(address: MountAddress, clock: Clock = lambda: datetime.now(UTC)) -> Line:
    """Return a line to a mount that is being reached. MissingPart where the library for its standard isn't installed."""
    adapter, stopper = parts(address, clock)
    line = Line(adapter, stopper, clock)
    line.start()
    return line


def discover() -> tuple[FoundMount, ...]:
    """Ask on the local network for mounts; INDI has no such question. MissingPart where the library isn't installed."""
    try:
        with quiet_loading():
            from companion.mount.alpaca import discover as alpaca  # noqa: PLC0415 - an optional extra
    except ModuleNotFoundError as error:
        raise _missing(error) from error
    return alpaca.discover(alpaca.local_networks())


def parts(address: MountAddress, clock: Clock) -> tuple[Adapter, Stopper]:
    """Return what speaks with a mount and what stops it."""
    try:
        if address.standard == "alpaca":
            with quiet_loading():
                from companion.mount.alpaca import adapter as alpaca  # noqa: PLC0415 - an optional extra
            return alpaca.parts(address, clock)
        from companion.mount.indi import adapter as indi  # noqa: PLC0415 - an optional extra

        return indi.parts(address, clock)
    except ModuleNotFoundError as error:
        raise _missing(error) from error


def _missing(error: ModuleNotFoundError) -> MissingPart:
    return MissingPart(f"the library {error.name} is missing; mend it with: pip install 'dark-field-companion[mount]'")
