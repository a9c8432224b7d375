"""A small step of the mount on the line: checked, sent, waited for, and measured by what the mount reads before and after."""

from __future__ import annotations

import math
import time

from companion.live.flight import pointing_of
from companion.mount import Command, Effect, Failed, Horizontal, Identity, Line, MountState, Nudge, Slew
from companion.mount.clear_way import SUN_MOVES_DEG, Limits, is_near_sun
from companion.mount.coordinates import equatorial_of
from companion.procedure.mount_calls import NudgeBy
from companion.sky import Moment
from companion.talk.mount_phrases import NotTurned

USUAL_RATE_DEG_S, LONGEST_S, SHORTEST_S = 1.0, 1.0, 0.1
"""A step takes no longer, so that "stop" is heard before it could matter. Judgement."""
READ_WITHIN_S = 2.0
_SETTLES_WITHIN_S = 3.0
_LEAST_COSINE = 0.1
"""Nearer to the zenith than six degrees the azimuth axis hardly moves the view: it isn't turned without end for that."""


def objection(call: NudgeBy, start: Horizontal, sun: Horizontal, limits: Limits, unsure_deg: float) -> NotTurned | None:
    """Return why a step must not be made, None where it may: whichever way the axis turns, it comes no nearer than that to the Sun."""
    if is_near_sun(start, sun, unsure_deg, reach_deg=abs(call.step_deg) + SUN_MOVES_DEG):
        return "sun"
    if call.axis == "azimuth":
        return None
    end_deg = start.altitude_deg + call.step_deg
    if call.step_deg < 0 and end_deg < max(0.0, limits.lowest_deg):
        return "horizon" if end_deg < 0 else "limits"
    return "limits" if call.step_deg > 0 and end_deg > limits.highest_deg else None


def make_step(line: Line, call: NudgeBy, id: str, *, state: MountState, start: Horizontal, moment: Moment) -> float | Failed:
    """Move it and wait until it stands; return by how much the axis turned on the sky, in degrees to the right or up."""
    identity = line.identity
    assert identity is not None
    sent = line.send(Effect(id, _command(call, identity, state, start, moment))).wait()
    if isinstance(sent, Failed):
        return sent
    deadline = time.monotonic() + _SETTLES_WITHIN_S
    while True:
        found = line.read(READ_WITHIN_S).wait()
        if isinstance(found, Failed):
            return found
        if not found.state.slewing:
            break
        if time.monotonic() > deadline:
            line.stop().wait()
            return Failed("unanswered", "a small step came to no end")
    end = pointing_of(found.state, moment)
    if end is None:
        return Failed("nonsense", "it tells no direction any more")
    if call.axis == "altitude":
        return end.altitude_deg - start.altitude_deg
    return math.remainder(end.azimuth_deg - start.azimuth_deg, 360.0) * _level(start)


def _command(call: NudgeBy, identity: Identity, state: MountState, start: Horizontal, moment: Moment) -> Command:
    axis_deg = call.step_deg / (_level(start) if call.axis == "azimuth" else 1.0)
    if "nudge" in identity.can:
        seconds = min(max(abs(axis_deg) / USUAL_RATE_DEG_S, SHORTEST_S), LONGEST_S)
        return Nudge("primary" if call.axis == "azimuth" else "secondary", call.sign * axis_deg / seconds, seconds)
    azimuth_deg = start.azimuth_deg + (axis_deg if call.axis == "azimuth" else 0.0)
    altitude_deg = start.altitude_deg + (axis_deg if call.axis == "altitude" else 0.0)
    end = Horizontal(min(altitude_deg, 90.0), azimuth_deg % 360.0)
    # To a place among the stars where it tracks: a slew to a direction over the ground would end that.
    by_stars = state.tracking is True and "slew" in identity.can and identity.epoch is not None
    return Slew(equatorial_of(end, moment, identity.epoch) if by_stars and identity.epoch is not None else end)


def _level(pointing: Horizontal) -> float:
    return max(math.cos(math.radians(pointing.altitude_deg)), _LEAST_COSINE)
