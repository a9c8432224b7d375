"""Bring the mount into its starting pose: base level, facing true north, tube level; before power or after the settings, as it wants it."""

from __future__ import annotations

from collections.abc import Generator
from datetime import datetime

from companion import alignment
from companion.equipment import PoseTime
from companion.messages import Answer, Ask, Note, Say
from companion.procedure.ask_equipment import ask_compass, ask_pose_time, learned_by
from companion.procedure.script import Context, Script
from companion.procedure.spoken_figures import figure_of

USUAL_POSE_TIME: PoseTime = "before-power"


def before_power(context: Context) -> Script:
    """Learn when the mount wants its pose; take it now where that is before it is switched on."""
    wanted = context.equipment.mount.pose_time or (yield from learned_by(ask_pose_time(), "mount", "pose_time"))
    if (wanted or USUAL_POSE_TIME) == "before-power":
        yield from take_pose(context)
    return {}


def after_settings(context: Context) -> Script:
    """Take the pose now where the mount wants it so, or let it find its own."""
    wanted = context.equipment.mount.pose_time
    if wanted == "after-settings":
        yield from take_pose(context)
    elif wanted == "by-itself":
        yield Ask("let-it-find-its-pose", expects="ready")
    return {}


def take_pose(context: Context) -> Generator[Say | Ask | Note, Answer, datetime]:
    """Level the base, face true north, level the tube; return when that was done."""
    answer = yield Ask("level-the-base", expects="level")
    yield from _face_north(context, answer.time)
    return (yield Ask("level-the-tube", expects="tube")).time


def _face_north(context: Context, time: datetime) -> Generator[Say | Ask | Note, Answer, None]:
    """Turn the mount to true north by what the person has; each "which way is north" offers another way."""
    compass = context.equipment.observer.compass or (yield from learned_by(ask_compass(), "observer", "compass"))
    ways = ["north-by-landmark"] if compass == "none" else ["face-true-north", "north-by-landmark"]
    moment = context.moment(time)
    if alignment.pole_star(moment).way is not None:
        ways.insert(-1, "north-by-the-pole")
    if alignment.shadow_direction(moment) is not None:
        ways.insert(-1, "north-by-the-shadow")
    turn, phrase = 0, ways[0]
    while True:
        answer = yield Ask(phrase, expects="north", facts={"compass": compass or "unknown"})
        match answer.command:
            case "which-way":
                turn += 1
                phrase = ways[turn % len(ways)]
            case "reads":
                read = yield Ask("what-does-it-read", expects="bearing")
                if read.command == "bearing":
                    yield Say("turn-by-compass", {"compass": compass or "unknown", "reads_deg": int(figure_of(read.slots) or 0) % 360})
                phrase = "say-facing-north"
            case _:
                return
