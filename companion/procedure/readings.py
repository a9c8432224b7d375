"""A star centred with a mount on the line: read first, since a sync erases what the reading tells, then the sync, then the fit."""

from __future__ import annotations

import math

from companion import alignment, sky
from companion.alignment.pointing import FitRequest, Sighting
from companion.errors import BadRequest
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.mount_calls import MountTold, SyncOn, came_to_nothing, read_mount
from companion.procedure.notes import MissTold, StarRead
from companion.procedure.script import Steps, told_by
from companion.talk.mount_phrases import ToldItTheStar, WhatTheReadingsTell

LEAN_MATTERS_DEG = 1.0
"""A mount that a sync only shifts misses by so much elsewhere in the sky: then its own word is asked for. Judgement."""
MEASURED_SIGMA_DEG = 0.25
"""Of a miss that was measured: readings are good to arcminutes, what a tube and its axes do isn't. Judgement."""
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
    if state.steering.began is not None and all(miss.star != star for miss in state.misses):
        measured = measured_miss(star, state.steering.began, told, state)
        if measured is not None:
            state.misses.append(measured)
            yield measured
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


def measured_miss(star: str, began: MountTold, now: MountTold, state: AlignmentState) -> MissTold | None:
    """Return where a star that is centred now lay when the first small step was made; None where the mount didn't tell.

    What it reads at the centred star against the true place is taken off: that is its own, and the same at both times.
    """
    before, after = _off(star, began, state), _off(star, now, state)
    if before is None or after is None or began.altitude_deg is None:
        return None
    across_deg = math.remainder(before[0] - after[0], 360.0) * math.cos(math.radians(began.altitude_deg))
    return MissTold(star, began.time, across_deg, before[1] - after[1], bool(state.centred), sigma_deg=MEASURED_SIGMA_DEG)


def _off(star: str, told: MountTold, state: AlignmentState) -> tuple[float, float] | None:
    """Return the star's azimuth and altitude less the mount's."""
    if told.azimuth_deg is None or told.altitude_deg is None:
        return None
    seen = sky.sight(sky.find(star), state.context.moment(told.time), refraction=False)
    return seen.azimuth_deg - told.azimuth_deg, seen.altitude_deg - told.altitude_deg


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
    state.lean_deg = fitted.tilt_deg
    yield WhatTheReadingsTell(fitted.rms_deg, fitted.tilt_deg)
    stands_level = fitted.tilt_deg is None or fitted.tilt_deg <= LEAN_MATTERS_DEG
    return stands_level and fitted.rms_deg <= STARS_AGREE_DEG and state.synced >= set(state.centred)
