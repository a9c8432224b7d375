"""Between what scripts ask and are told of a mount, as plain words, and what the line takes and gives."""

from __future__ import annotations

from datetime import timedelta
from typing import Any, assert_never

from companion import sky
from companion.live.flight import pointing_of
from companion.mount import CAPABILITIES, Command, Failed, Horizontal, MountReading, SetPlace, SetTime
from companion.procedure.mount_calls import GivePlace, GiveTime
from companion.sky import Body, Moment
from companion.talk.mount_phrases import NotTurned


def setting(call: GiveTime | GivePlace, moment: Moment) -> Command:
    """Return the command that gives it our time or place."""
    if isinstance(call, GiveTime):
        return SetTime(moment.time)
    return SetPlace(call.latitude_deg, call.longitude_deg, call.elevation_m)


def why_not(failure: Failed) -> NotTurned:
    """Return why a call came to nothing, as it is told."""
    match failure.why:
        case "cannot":
            return "cannot"
        case "parked":
            return "parked"
        case "refused":
            return "refused"
        case "stopped":
            return "interrupted"
        case "unreachable" | "unanswered" | "nonsense" | "lost" | "late" | "repeated":
            return "line"
        case _:
            assert_never(failure.why)


def horizontal(body: Body, moment: Moment) -> Horizontal:
    """Return where a body stands, airless."""
    seen = sky.sight(body, moment, refraction=False)
    return Horizontal(seen.altitude_deg, seen.azimuth_deg % 360.0)


def slots_of(found: MountReading, moment: Moment, ahead: timedelta) -> dict[str, str]:
    """Return a reading as plain words. ``ahead`` is what the observer has corrected our own clock by."""
    pointing, settings = pointing_of(found.state, moment), found.settings
    error_s = settings.time_error_s
    told: dict[str, Any] = {
        "altitude_deg": None if pointing is None else pointing.altitude_deg,
        "azimuth_deg": None if pointing is None else pointing.azimuth_deg,
        "time_error_s": None if error_s is None else error_s - ahead.total_seconds(),
        "latitude_deg": settings.latitude_deg,
        "longitude_deg": settings.longitude_deg,
    }
    words = {name: repr(float(value)) for name, value in told.items() if value is not None}
    if found.state.slewing is not None:
        words["slewing"] = "yes" if found.state.slewing else "no"
    if found.state.tracking is not None:
        words["tracking"] = "yes" if found.state.tracking else "no"
    return {**words, "can": " ".join(ability for ability in CAPABILITIES if ability in found.identity.can)}
