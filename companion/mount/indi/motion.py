"""What an INDI mount is told. A driver answers by the state of the property: Ok or Busy where it takes it, Alert where it doesn't."""

from __future__ import annotations

from datetime import UTC

from companion.mount.commands import Command, Park, SetPlace, SetTime, Slew, Sync, Track
from companion.mount.indi.connection import IndiDevice, Property
from companion.mount.indi.reading import equatorial_name
from companion.mount.values import Equatorial, fault


def perform(device: IndiDevice, command: Command, deadline: float) -> None:
    """Send a command; ``LineFault`` where it fails."""
    match command:
        case SetTime(time):
            offset = time.utcoffset()
            assert offset is not None
            values = {"UTC": time.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S"), "OFFSET": f"{offset.total_seconds() / 3600:.2f}"}
            _set(device, "TIME_UTC", values, deadline)
        case SetPlace(latitude_deg, longitude_deg, elevation_m):
            place = {"LAT": f"{latitude_deg:.8f}", "LONG": f"{longitude_deg % 360.0:.8f}", "ELEV": f"{elevation_m:.2f}"}
            _set(device, "GEOGRAPHIC_COORD", place, deadline)
        case Sync(Equatorial() as direction):
            _coordinates(device, "SYNC", direction, deadline)
            # A later slew of someone else's must not find the mount set to sync.
            _choose(device, _after_a_slew(device), deadline)
        case Slew(Equatorial() as direction):
            _coordinates(device, _after_a_slew(device), direction, deadline)
        case Track(on):
            _switch(device, "TELESCOPE_TRACK_STATE", _one_of("TRACK_ON", "TRACK_OFF", on), deadline)
        case Park(parked):
            _switch(device, "TELESCOPE_PARK", _one_of("PARK", "UNPARK", parked), deadline)
        case _:
            raise fault("cannot", f"INDI mounts are given no {type(command).__name__} by us")


def _one_of(first: str, second: str, is_first: bool) -> dict[str, str]:
    return {first: "On" if is_first else "Off", second: "Off" if is_first else "On"}


def _set(device: IndiDevice, name: str, values: dict[str, str], deadline: float) -> None:
    version = device.send(name, values, deadline)
    device.answer(name, version, lambda said: said.state in ("Ok", "Busy"), deadline)


def _switch(device: IndiDevice, name: str, values: dict[str, str], deadline: float) -> None:
    """Set two switches; where they stand so already, drivers may not answer at all. Off may be Idle: the switches are the answer."""
    known = device.get(name)
    if known is None or known.values != values:
        version = device.send(name, values, deadline)
        device.answer(name, version, lambda said: said.values == values, deadline)


def _after_a_slew(device: IndiDevice) -> str:
    """Return what the mount shall do when it is there: follow the sky, where it can."""
    setting = device.get("ON_COORD_SET")
    return "TRACK" if setting is not None and "TRACK" in setting.values else "SLEW"


def _choose(device: IndiDevice, choice: str, deadline: float) -> None:
    setting = device.get("ON_COORD_SET")
    if setting is None or choice not in setting.values:
        raise fault("cannot", f"the driver knows no {choice}")
    if setting.values.get(choice) != "On":
        version = device.send("ON_COORD_SET", {name: "On" if name == choice else "Off" for name in setting.values}, deadline)
        device.answer("ON_COORD_SET", version, lambda said: said.values.get(choice) == "On", deadline)


def _coordinates(device: IndiDevice, choice: str, direction: Equatorial, deadline: float) -> None:
    _choose(device, choice, deadline)
    name = equatorial_name(device)
    if name is None:
        raise fault("cannot", "the driver takes no right ascension")
    version = device.send(name, {"RA": f"{direction.ra_deg / 15.0:.8f}", "DEC": f"{direction.dec_deg:.8f}"}, deadline)

    def taken(said: Property) -> bool:
        # What it said of its way before it took the new coordinates may still come in between; only a slew makes it Busy.
        return said.state == ("Ok" if choice == "SYNC" else "Busy")

    device.answer(name, version, taken, deadline)
