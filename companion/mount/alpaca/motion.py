"""What an Alpaca mount is told. Slews are started and go on by themselves; a nudge is started and stopped here."""

from __future__ import annotations

import threading
from datetime import UTC

from alpaca.telescope import Telescope, TelescopeAxes

from companion.mount.alpaca.connection import AlpacaTelescope
from companion.mount.commands import Command, Nudge, Park, SetPlace, SetTime, Slew, Sync, Track
from companion.mount.values import Equatorial, Horizontal, Identity, LineFault, fault

_STOP_TRIES = 3
"""How often a nudge's end is sent where no answer comes. Judgement: the stopper takes over after that."""


def perform(telescope: AlpacaTelescope, command: Command, identity: Identity, halt: threading.Event) -> None:
    """Send a command; ``LineFault`` where it fails."""
    match command:
        case SetTime(time):
            telescope.call(lambda scope: setattr(scope, "UTCDate", time.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")))
        case SetPlace(latitude_deg, longitude_deg, elevation_m):
            telescope.call(lambda scope: setattr(scope, "SiteLatitude", latitude_deg))
            telescope.call(lambda scope: setattr(scope, "SiteLongitude", longitude_deg))
            # The height hardly matters to where stars stand, and not every mount takes one.
            telescope.told(lambda scope: setattr(scope, "SiteElevation", elevation_m))
        case Sync(Equatorial(ra_deg, dec_deg)):
            telescope.call(lambda scope: scope.SyncToCoordinates(ra_deg / 15.0, dec_deg))
        case Sync(Horizontal(altitude_deg, azimuth_deg)):
            telescope.call(lambda scope: scope.SyncToAltAz(azimuth_deg, altitude_deg))
        case Slew(Equatorial(ra_deg, dec_deg)):
            _let_track(telescope, identity, True)
            telescope.call(lambda scope: scope.SlewToCoordinatesAsync(ra_deg / 15.0, dec_deg))
        case Slew(Horizontal(altitude_deg, azimuth_deg)):
            _let_track(telescope, identity, False)
            telescope.call(lambda scope: scope.SlewToAltAzAsync(azimuth_deg, altitude_deg))
        case Nudge():
            _nudge(telescope, command, halt)
        case Track(on):
            telescope.call(lambda scope: setattr(scope, "Tracking", on))
        case Park(parked):
            telescope.call(lambda scope: scope.Park() if parked else scope.Unpark())


def _let_track(telescope: AlpacaTelescope, identity: Identity, on: bool) -> None:
    """Switch the tracking as a slew needs it: on towards the stars, off towards a direction over the ground.

    Drivers refuse the slew otherwise. From memory of the standard's reference; common practice, no published source at hand.
    """
    if "track" in identity.can and telescope.told(lambda scope: scope.Tracking) is not on:
        telescope.call(lambda scope: setattr(scope, "Tracking", on))


def _nudge(telescope: AlpacaTelescope, nudge: Nudge, halt: threading.Event) -> None:
    axis = TelescopeAxes.axisPrimary if nudge.axis == "primary" else TelescopeAxes.axisSecondary
    rate_deg_s = _nearest_rate(telescope, axis, nudge.rate_deg_s)
    try:
        telescope.call(lambda scope: scope.MoveAxis(axis, rate_deg_s))
        halt.wait(nudge.seconds)
    finally:
        # Also where no answer came to the start: it may turn.
        _stand_still(telescope, axis)


def _stand_still(telescope: AlpacaTelescope, axis: TelescopeAxes) -> None:
    for tries_left in reversed(range(_STOP_TRIES)):
        telescope.allow(1.0)
        try:
            telescope.call(lambda scope: scope.MoveAxis(axis, 0.0))
            return
        except LineFault:
            if not tries_left:
                raise


def _nearest_rate(telescope: AlpacaTelescope, axis: TelescopeAxes, wanted_deg_s: float) -> float:
    """Return the rate nearest to the wanted one that the axis has, with its sign."""
    ranges = telescope.call(lambda scope: _ranges(scope, axis))
    possible = [min(max(abs(wanted_deg_s), low), high) for low, high in ranges if 0 <= low <= high and high > 0]
    if not possible:
        raise fault("cannot", "the axis has no rate it can be turned at")
    nearest = min(possible, key=lambda rate: abs(rate - abs(wanted_deg_s)))
    return nearest if wanted_deg_s > 0 else -nearest


def _ranges(scope: Telescope, axis: TelescopeAxes) -> list[tuple[float, float]]:
    return [(float(rate.Minimum), float(rate.Maximum)) for rate in scope.AxisRates(axis)]
