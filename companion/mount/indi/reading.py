"""What an INDI mount tells of itself. Right ascensions are in hours, longitudes run from 0 to 360 degrees east."""

from __future__ import annotations

import math
import time
from datetime import UTC, datetime, timedelta
from typing import Literal

from indipyclient import getfloat

from companion.mount.indi.connection import IndiDevice, Property
from companion.mount.protocol import Clock
from companion.mount.values import Capability, Epoch, Identity, MountState, Settings, fault, sensible

EQUATORIAL: tuple[tuple[str, Epoch], ...] = (("EQUATORIAL_EOD_COORD", "of_date"), ("EQUATORIAL_COORD", "J2000"))
_QUIET_S = 0.3
"""A device that defines nothing for so long after its coordinates has told all. Judgement."""


def read_identity(device: IndiDevice, deadline: float) -> Identity:
    """Connect the mount where it isn't, and see what it can. ``LineFault`` where it is no mount."""
    connection = device.get("CONNECTION")
    if connection is not None and connection.values.get("CONNECT") != "On":
        version = device.send("CONNECTION", {"CONNECT": "On", "DISCONNECT": "Off"}, deadline)
        device.answer("CONNECTION", version, lambda said: said.values.get("CONNECT") == "On" and said.state != "Busy", deadline)
    names = [*(name for name, _ in EQUATORIAL), "HORIZONTAL_COORD"]
    device.wait_for(lambda: any(device.get(name) for name in names), deadline, "refused", "the device tells no direction: it is no mount")
    device.settle(_QUIET_S, deadline)
    can: set[Capability] = {"read"}
    if _writable(device, equatorial_name(device)) and (setting := device.get("ON_COORD_SET")) is not None:
        can |= {"slew"} if setting.values.keys() & {"TRACK", "SLEW"} else set()
        can |= {"sync"} if "SYNC" in setting.values else set()
    properties: tuple[tuple[Capability, str], ...] = (
        ("abort", "TELESCOPE_ABORT_MOTION"),
        ("park", "TELESCOPE_PARK"),
        ("track", "TELESCOPE_TRACK_STATE"),
        ("set_time", "TIME_UTC"),
        ("set_place", "GEOGRAPHIC_COORD"),
    )
    can |= {ability for ability, name in properties if _writable(device, name)}
    syncs_on: set[Literal["equatorial", "horizontal"]] = {"equatorial"} if "sync" in can else set()
    return Identity("indi", device.name, frozenset(can), _epoch(device), is_altazimuth=None, syncs_on=frozenset(syncs_on))


def equatorial_name(device: IndiDevice) -> str | None:
    """Return the property its right ascension and declination are in."""
    return next((name for name, _ in EQUATORIAL if device.get(name) is not None), None)


def read_state(device: IndiDevice, clock: Clock) -> MountState:
    """Return where it points and what it does, as last said. ``LineFault`` where it tells no direction any more."""
    name = equatorial_name(device)
    equatorial = device.get(name) if name else None
    horizontal = device.get("HORIZONTAL_COORD")
    right_ascension_h = _number(equatorial, "RA", 0.0, 24.0)
    azimuth_deg = _number(horizontal, "AZ", -180.0, 360.0)
    state = MountState(
        at=clock(),
        ra_deg=None if right_ascension_h is None else right_ascension_h * 15.0 % 360.0,
        dec_deg=_number(equatorial, "DEC", -90.0, 90.0),
        epoch=_epoch(device),
        altitude_deg=_number(horizontal, "ALT", -90.0, 90.0),
        azimuth_deg=None if azimuth_deg is None else azimuth_deg % 360.0,
        slewing=is_turning(equatorial.state if equatorial else None, horizontal.state if horizontal else None),
        tracking=_switch(device.get("TELESCOPE_TRACK_STATE"), "TRACK_ON", "TRACK_OFF"),
        parked=_is_parked(device.get("TELESCOPE_PARK")),
    )
    if state.equatorial is None and state.horizontal is None:
        raise fault("nonsense", "it tells no direction")
    return state


def is_turning(*states: str | None) -> bool | None:
    """Say whether coordinates of these states are under way, None where there are none."""
    told = [state for state in states if state is not None]
    return "Busy" in told if told else None


def read_settings(device: IndiDevice, clock: Clock) -> Settings:
    """Return the time and place it believes in.

    INDI has no running clock: ``TIME_UTC`` is the time at which it was said. Only what was said while we listened tells the time;
    a place of exactly 0/0 that nobody set is none.
    """
    now = clock()
    place = device.get("GEOGRAPHIC_COORD")
    latitude_deg, longitude_deg = _number(place, "LAT", -90.0, 90.0), _number(place, "LONG", -180.0, 360.0)
    if place is None or latitude_deg is None or longitude_deg is None or (place.state == "Idle" and latitude_deg == longitude_deg == 0.0):
        return Settings(now, _running(device.get("TIME_UTC")))
    eastward_deg = (longitude_deg + 180.0) % 360.0 - 180.0
    return Settings(now, _running(device.get("TIME_UTC")), latitude_deg, eastward_deg, _number(place, "ELEV", -500.0, 100_000.0))


def _running(said: Property | None) -> datetime | None:
    if said is None or not said.is_news:
        return None
    try:
        time_then = datetime.fromisoformat(said.values.get("UTC", ""))
        time_then = time_then.replace(tzinfo=UTC) if time_then.utcoffset() is None else time_then.astimezone(UTC)
        return sensible(time_then + timedelta(seconds=time.monotonic() - said.said_at))
    except (ValueError, OverflowError):
        return None


def _epoch(device: IndiDevice) -> Epoch | None:
    name = equatorial_name(device)
    return dict(EQUATORIAL)[name] if name else None


def _writable(device: IndiDevice, name: str | None) -> bool:
    known = device.get(name) if name else None
    return known is not None and known.writable


def _number(said: Property | None, name: str, lowest: float, highest: float) -> float | None:
    if said is None or name not in said.values:
        return None
    try:
        value = float(getfloat(said.values[name].strip()))
    except (TypeError, ValueError, OverflowError):
        return None
    return value if math.isfinite(value) and lowest <= value <= highest else None


def _is_parked(said: Property | None) -> bool | None:
    """Return whether it is parked; while it is on its way there the switch is on already, but busy."""
    return False if said is not None and said.state == "Busy" else _switch(said, "PARK", "UNPARK")


def _switch(said: Property | None, on: str, off: str) -> bool | None:
    """Return which of two switches is on, None where neither or both are."""
    if said is None:
        return None
    states = said.values.get(on), said.values.get(off)
    return {("On", "Off"): True, ("Off", "On"): False}.get((str(states[0]), str(states[1])))
