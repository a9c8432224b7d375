"""A star centred with a mount on the line: read first, since a sync erases what the reading tells, then the sync, then the fit."""

from __future__ import annotations

from companion import alignment, sky
from companion.alignment.pointing import FitRequest, Sighting
from companion.errors import BadRequest
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.mount_calls import SyncOn, came_to_nothing, read_mount
from companion.procedure.notes import StarRead
from companion.procedure.script import Steps, told_by
from companion.talk.mount_phrases import ToldItTheStar, WhatTheReadingsTell

LEAN_MATTERS_DEG = 1.0
"""A mount that a sync only shifts misses by so much elsewhere in the sky: then its own word is asked for. Judgement."""
STARS_AGREE_DEG = 0.5
"""Stars that agree so well by their readings need no verdict: a low-power eyepiece shows about twice that. Judgement."""


def read_and_sync(star: str, state: AlignmentState) -> Steps[bool]:
    """Read where the mount says the star is, then tell it; return whether it took that."""
    told = yield from read_mount()
    if told is None or told.azimuth_deg is None or told.altitude_deg is None or told.slewing:
        return False
    across_deg, up_deg = state.synced_by
    read = StarRead(star, told.time, (told.azimuth_deg - across_deg) % 360.0, told.altitude_deg - up_deg)
    state.readings.append(read)
    yield read
    if "sync" not in told.can or came_to_nothing((yield from told_by(SyncOn(star)))):
        return False
    after = yield from read_mount()
    if after is not None and after.azimuth_deg is not None and after.altitude_deg is not None:
        # What the sync shifted is undone in later readings, so that all are in one frame.
        shifted_deg = (after.azimuth_deg - told.azimuth_deg + 180.0) % 360.0 - 180.0
        state.synced_by = (across_deg + shifted_deg, up_deg + after.altitude_deg - told.altitude_deg)
    state.synced.add(star)
    yield ToldItTheStar(star)
    return True


def judge_readings(state: AlignmentState) -> Steps[bool]:
    """Tell how well the readings at the stars agree; return whether that is a verdict: all were taken, and they agree."""
    latest = {read.star: read for read in state.readings if read.star in state.centred}
    if len(latest) < 2:
        return False
    sightings = tuple(Sighting(sky.find(read.star), read.time, read.azimuth_deg, read.altitude_deg) for read in latest.values())
    try:
        fitted = alignment.fit(FitRequest(state.context.site, sightings))
    except BadRequest:
        # A star that was down by our clock: the diagnosis says what that means.
        return False
    yield WhatTheReadingsTell(fitted.rms_deg, fitted.tilt_deg)
    stands_level = fitted.tilt_deg is None or fitted.tilt_deg <= LEAN_MATTERS_DEG
    return stands_level and fitted.rms_deg <= STARS_AGREE_DEG and state.synced >= set(state.centred)
