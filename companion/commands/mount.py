"""The commands ``mount`` and ``mount stop``: what the mount on the line says of itself, and stopping it."""

from __future__ import annotations

import argparse
import math
import time
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

from companion import mount as mounts
from companion.commands.options import known_site, profile_of, time_of
from companion.errors import BadRequest, CompanionError, MissingPart, MountMissing
from companion.mount import CAPABILITIES, Failed, Line, MountAddress, MountReading
from companion.printing import Printer, site_time
from companion.sky import Site, angle_deg

DONE = 0
ANSWER_WITHIN_S = 5.0
"""Where nothing has answered by then nobody is there."""
ALL_WITHIN_S = 30.0
"""All that is asked, of a mount that answers slowly."""
LOOK_EVERY_S = 0.02
EARTH_RADIUS_KM = 6371.0088
"""The mean radius of the Earth: H. Moritz, Geodetic Reference System 1980, Journal of Geodesy 74 (2000) 128."""

_WHY = {
    "unreachable": "no connection is taken there",
    "unanswered": "no answer comes",
    "lost": "it says that it isn't connected",
    "nonsense": "what answers there speaks another language",
}


def show(options: argparse.Namespace) -> int:
    """Say what the mount says of itself."""
    return _told_after(options, lambda line, address: None)


def stop(options: argparse.Namespace) -> int:
    """Stop the mount, then say what it says of itself."""
    return _told_after(options, lambda line, address: Printer(options.json).progress(_stop(line, address)))


def _told_after(options: argparse.Namespace, deed: Callable[[Line, MountAddress], None]) -> int:
    """Do something on the line to the mount meant, then print what it tells."""
    site = known_site(options)
    address = _address(options)
    began, started = time_of(options), datetime.now(UTC)
    line = mounts.open_line(address, lambda: began + (datetime.now(UTC) - started))
    try:
        deed(line, address)
        found = _reading(line)
        if isinstance(found, Failed):
            raise _nobody(address, "it answers too slowly" if found.why == "unanswered" and line.has_answered else _why(found))
    finally:
        line.close()
    document = mount_document(found, site)
    printer = Printer(options.json)
    printer.lines(*(f"{name.replace('_', ' ')}: {_told(value)}" for name, value in document.items()))
    printer.document(document)
    return DONE


def _reading(line: Line) -> MountReading | Failed:
    """Return what it tells, however slowly; nobody is there where nothing has answered in time."""
    reading, nobody_s = line.read(ALL_WITHIN_S), time.monotonic() + ANSWER_WITHIN_S
    while (found := reading.outcome()) is None:
        if not line.has_answered and time.monotonic() >= nobody_s:
            return Failed("unanswered", "no answer in time")
        time.sleep(LOOK_EVERY_S)
    return found


def mount_document(found: MountReading, site: Site | None) -> dict[str, Any]:
    """Return what a mount tells as the plain values of the JSON document; None for what it doesn't tell or can't be compared."""
    identity, state, settings = found.identity, found.state, found.settings
    return {
        "name": identity.name,
        "standard": identity.standard,
        "connected": True,
        "can": [ability for ability in CAPABILITIES if ability in identity.can],
        "altitude_deg": _rounded(state.altitude_deg, 5),
        "azimuth_deg": _turn(state.azimuth_deg),
        "ra_deg": _turn(state.ra_deg),
        "dec_deg": _rounded(state.dec_deg, 5),
        "epoch": state.epoch,
        "slewing": state.slewing,
        "tracking": state.tracking,
        "parked": state.parked,
        "time": _site_time(settings.time, site),
        "latitude_deg": _rounded(settings.latitude_deg, 6),
        "longitude_deg": _rounded(settings.longitude_deg, 6),
        "time_error_s": _rounded(settings.time_error_s, 1),
        "distance_from_site_km": _distance_km(settings.latitude_deg, settings.longitude_deg, site),
    }


def _address(options: argparse.Namespace) -> MountAddress:
    named = options.mount or profile_of(options).equipment.mount.address
    if named is None:
        raise BadRequest("I need to know which mount: give --mount with its address, or --mount discover to look for one next to us")
    return named_mount(named)


def named_mount(named: str) -> MountAddress:
    """Return the address a mount was named by; ``discover`` looks for the one next to us. BadRequest or MountMissing says why not."""
    if named.strip().casefold() != "discover":
        return mounts.mount_address(named)
    found = mounts.discover()
    if not found:
        raise MountMissing("no mount answers on the local network: see that it is switched on and on the same network, or give its address")
    if len(found) > 1:
        listed = ", ".join(f"{one.address} ({one.name or 'no name'})" for one in found)
        raise BadRequest(f"several mounts answer, give --mount with one of: {listed}")
    return found[0].address


def _stop(line: Line, address: MountAddress) -> str:
    stopped = line.stop().wait()
    if isinstance(stopped, Failed):
        raise MissingPart(
            f"the mount at {address} could not be stopped ({_why(stopped)}): press a key on its hand control or pull the power"
        )
    return "stopped" if stopped.confirmed else "the mount took the stop, but doesn't say that it stands: watch it"


def _nobody(address: MountAddress, why: str) -> CompanionError:
    return MountMissing(f"no mount answers at {address} ({why}): see that it is switched on and on the same network")


def _why(failed: Failed) -> str:
    """Return what went wrong in words; what the mount itself says of a refusal is told as it is."""
    return _WHY.get(failed.why) or failed.detail


def _site_time(time: datetime | None, site: Site | None) -> str | None:
    """Return a time with the site's offset, with that of Universal Time where no site is known."""
    return site_time(time, site or Site(0.0, 0.0))


def _distance_km(latitude_deg: float | None, longitude_deg: float | None, site: Site | None) -> float | None:
    """Return how far the mount's place is from the site along the Earth, taken as a ball."""
    if site is None or latitude_deg is None or longitude_deg is None:
        return None
    apart_deg = angle_deg(latitude_deg, longitude_deg, site.latitude_deg, site.longitude_deg)
    return round(math.radians(apart_deg) * EARTH_RADIUS_KM, 3)


def _rounded(value: float | None, digits: int) -> float | None:
    return None if value is None else round(value, digits) + 0.0  # no minus nought


def _turn(angle_deg: float | None) -> float | None:
    """Return an angle rounded and still below a full turn."""
    return None if angle_deg is None else round(angle_deg, 5) % 360.0


def _told(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(value)
    return "not told" if value is None else str(value)
