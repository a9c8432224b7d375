"""With a mount on the line nothing need be keyed: its time and place are compared with ours, and given to it after one question."""

from __future__ import annotations

import math

from companion.procedure.mount_calls import GivePlace, GiveTime, MountTold, read_mount
from companion.procedure.script import Context, Steps, ask, told_by
from companion.sky import Site, angle_deg
from companion.talk.answers import YesNoAnswer
from companion.talk.mount_phrases import (
    ClockFault,
    GiveItTimeAndPlace,
    ItDidNotTakeThem,
    ItHasThemNow,
    ItHasTheRightOnes,
    MountBelieves,
    PlaceFault,
)

CLOCK_AGREES_S = 20.0
"""Five arcminutes of sky. Judgement: less than a finder shows, more than a slow line takes."""
PLACE_AGREES_DEG = 0.1
"""Six arcminutes of sky. Judgement, as above."""
EARTH_RADIUS_KM = 6371.0088
"""The mean radius of the Earth: H. Moritz, Geodetic Reference System 1980, Journal of Geodesy 74 (2000) 128."""
_QUARTER_S, _DAY_S = 900.0, 86_400.0
"""Offsets of zones are whole quarters of an hour: the tz database has no other in force since 1972."""
_NEAR_S = 150.0
"""A clock set by hand is good to a minute or two."""
_MOST_ZONE_S = 26 * 3600.0
"""From the westernmost zone to the easternmost (-12 to +14 hours)."""


def give_settings(context: Context) -> Steps[bool]:
    """See what the mount believes, say what is wrong with it, and give it ours if that is wanted; return whether it has the right ones."""
    told = yield from read_mount()
    if told is None:
        return False
    seen = believed(told, context.site)
    if seen is None and _is_told(told):
        yield ItHasTheRightOnes()
        return True
    if seen is not None:
        yield seen
    if not {"set_time", "set_place"} & told.can:
        return False
    if (yield from ask(GiveItTimeAndPlace())).command is not YesNoAnswer.YES:
        return False
    if "set_place" in told.can:
        # The place first: some mounts shift their clock with it.
        yield from told_by(GivePlace(context.site.latitude_deg, context.site.longitude_deg, context.site.elevation_m))
    if "set_time" in told.can:
        yield from told_by(GiveTime())
    after = yield from read_mount()
    right = after is not None and _is_told(after) and believed(after, context.site) is None
    yield ItHasThemNow() if right else ItDidNotTakeThem()
    return right


def _is_told(told: MountTold) -> bool:
    """Say whether the mount tells both its time and its place."""
    return told.time_error_s is not None and told.latitude_deg is not None and told.longitude_deg is not None


def believed(told: MountTold, site: Site) -> MountBelieves | None:
    """Return what is wrong in the time and place a mount believes in; None where nothing is, so far as it tells."""
    clock, off = _clock_fault(told.time_error_s)
    place, km = _place_fault(told.latitude_deg, told.longitude_deg, site)
    return None if clock is None and place is None else MountBelieves(clock, off, place, km)


def _clock_fault(error_s: float | None) -> tuple[ClockFault | None, float]:
    """Return what kind of mistake a clock's error looks like, and how much it is: hours, days or minutes, by its kind."""
    if error_s is None or abs(error_s) <= CLOCK_AGREES_S:
        return None, 0.0
    days = round(error_s / _DAY_S)
    if days and abs(error_s - days * _DAY_S) <= _NEAR_S:
        return "date", float(days)
    quarters = round(error_s / _QUARTER_S)
    if quarters and abs(error_s - quarters * _QUARTER_S) <= _NEAR_S and abs(error_s) <= _MOST_ZONE_S:
        return "hours", quarters / 4
    return "clock", error_s / 60


def _place_fault(latitude_deg: float | None, longitude_deg: float | None, site: Site) -> tuple[PlaceFault | None, float]:
    """Return what kind of mistake a place looks like, and how far it is from ours in kilometres."""
    if latitude_deg is None or longitude_deg is None:
        return None, 0.0
    north = abs(latitude_deg - site.latitude_deg) <= PLACE_AGREES_DEG
    east = _apart(longitude_deg, site.longitude_deg) <= PLACE_AGREES_DEG
    if north and east:
        return None, 0.0
    km = math.radians(angle_deg(latitude_deg, longitude_deg, site.latitude_deg, site.longitude_deg)) * EARTH_RADIUS_KM
    if north and _apart(longitude_deg, -site.longitude_deg) <= PLACE_AGREES_DEG:
        return "longitude-side", km
    if east and abs(latitude_deg + site.latitude_deg) <= PLACE_AGREES_DEG:
        return "latitude-side", km
    return ("longitude" if north else "latitude" if east else "place"), km


def _apart(one_deg: float, other_deg: float) -> float:
    return abs((one_deg - other_deg + 180.0) % 360.0 - 180.0)
