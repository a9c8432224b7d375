"""What an Alpaca mount tells of itself. Its right ascensions are in hours; its places have east positive, as ours have."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any, Literal

from alpaca.telescope import Telescope, TelescopeAxes

from companion.mount.alpaca.connection import AlpacaTelescope, flag, number, text
from companion.mount.protocol import Clock
from companion.mount.values import Capability, Epoch, Identity, LineFault, MountState, Settings, fault, sensible

_EPOCHS: dict[int, Epoch] = {1: "of_date", 2: "J2000"}
"""EquatorialSystem: 0 other, 1 topocentric of the day, 2 J2000, 3 J2050, 4 B1950."""
_ALTAZIMUTH = 0
"""AlignmentMode: 0 alt-azimuth, 1 polar, 2 German polar."""
_CAPABILITIES: dict[Capability, str] = {
    "slew": "CanSlewAsync",
    "slew_altaz": "CanSlewAltAzAsync",
    "park": "CanPark",
    "track": "CanSetTracking",
}


def read_identity(telescope: AlpacaTelescope) -> Identity:
    """Connect the mount where it isn't, and ask who it is and what it can. ``LineFault`` where no mount answers.

    The standard has no word for whether time and place can be set: whoever tells them, or says they are not set yet, takes them.
    """
    if telescope.call(lambda scope: scope.Connected) is not True:
        telescope.call(_connect)
    can: set[Capability] = {"read"}
    can |= {ability for ability, property_name in _CAPABILITIES.items() if _can(telescope, property_name)}
    syncs_on: set[Literal["equatorial", "horizontal"]] = set()
    if _can(telescope, "CanSync"):
        syncs_on.add("equatorial")
    if _can(telescope, "CanSyncAltAz"):
        syncs_on.add("horizontal")
    can |= {"sync"} if syncs_on else set()
    if all(_can_move(telescope, axis) for axis in (TelescopeAxes.axisPrimary, TelescopeAxes.axisSecondary)):
        can.add("nudge")
    can |= {"abort"} if can & {"slew", "slew_altaz", "nudge", "park"} else set()
    can |= {"set_time"} if _settable(telescope, "UTCDate") else set()
    can |= {"set_place"} if _settable(telescope, "SiteLatitude") else set()
    alignment = telescope.told(lambda scope: scope.AlignmentMode)
    return Identity(
        standard="alpaca",
        name=text(telescope.told(lambda scope: scope.Name)),
        can=frozenset(can),
        epoch=read_epoch(telescope),
        is_altazimuth=None if alignment is None else int(alignment) == _ALTAZIMUTH,
        syncs_on=frozenset(syncs_on),
    )


def _connect(scope: Telescope) -> None:
    scope.Connected = True


def _can(telescope: AlpacaTelescope, property_name: str) -> bool:
    return telescope.told(lambda scope: getattr(scope, property_name)) is True


def _can_move(telescope: AlpacaTelescope, axis: TelescopeAxes) -> bool:
    return telescope.told(lambda scope: scope.CanMoveAxis(axis)) is True


def _settable(telescope: AlpacaTelescope, property_name: str) -> bool:
    try:
        telescope.call(lambda scope: getattr(scope, property_name))
    except LineFault as error:
        if error.failed.why in ("unreachable", "unanswered", "lost"):
            raise
        return error.failed.why == "refused"
    return True


def read_epoch(telescope: AlpacaTelescope) -> Epoch | None:
    """Return what its right ascension and declination refer to, None where it doesn't say or we don't know it."""
    system = telescope.told(lambda scope: scope.EquatorialSystem)
    return None if system is None else _EPOCHS.get(int(system))


def read_state(telescope: AlpacaTelescope, epoch: Epoch | None, clock: Clock) -> MountState:
    """Return where it points and what it does. ``LineFault`` of ``nonsense`` where it tells no direction at all."""
    begun = clock()
    right_ascension_h = number(telescope.told(lambda scope: scope.RightAscension), 0.0, 24.0)
    state = MountState(
        at=begun,
        ra_deg=None if right_ascension_h is None else right_ascension_h * 15.0 % 360.0,
        dec_deg=number(telescope.told(lambda scope: scope.Declination), -90.0, 90.0),
        epoch=epoch,
        altitude_deg=number(telescope.told(lambda scope: scope.Altitude), -90.0, 90.0),
        azimuth_deg=_azimuth(telescope.told(lambda scope: scope.Azimuth)),
        slewing=flag(telescope.told(lambda scope: scope.Slewing)),
        tracking=flag(telescope.told(lambda scope: scope.Tracking)),
        parked=flag(telescope.told(lambda scope: scope.AtPark)),
    )
    if state.equatorial is None and state.horizontal is None:
        raise fault("nonsense", "it tells no direction")
    return replace(state, at=begun + (clock() - begun) / 2)


def read_settings(telescope: AlpacaTelescope, clock: Clock) -> Settings:
    """Return the time and place it believes in."""
    before = clock()
    told = telescope.told(lambda scope: scope.UTCDate)
    at = before + (clock() - before) / 2
    return Settings(
        at=at,
        time=_aware(told),
        latitude_deg=number(telescope.told(lambda scope: scope.SiteLatitude), -90.0, 90.0),
        longitude_deg=number(telescope.told(lambda scope: scope.SiteLongitude), -180.0, 180.0),
        elevation_m=number(telescope.told(lambda scope: scope.SiteElevation), -500.0, 100_000.0),
    )


def _azimuth(value: Any) -> float | None:
    azimuth = number(value, -180.0, 360.0)
    return None if azimuth is None else azimuth % 360.0


def _aware(value: object) -> datetime | None:
    """Return a time as UTC; the standard has no other, so one without an offset is UTC too."""
    if not isinstance(value, datetime):
        return None
    try:
        time = value.replace(tzinfo=UTC) if value.utcoffset() is None else value.astimezone(UTC)
    except (OverflowError, ValueError):
        return None
    return sensible(time)
