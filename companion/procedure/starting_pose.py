"""Bring the mount into its starting pose: base level, facing true north, tube level, power on."""

from __future__ import annotations

from companion.events import Ask, Say
from companion.procedure.script import Context, Script


def take_starting_pose(context: Context) -> Script:
    """Level the base, face true north, level the tube, switch on."""
    yield Say("mind-the-weight")
    yield Ask("level-the-base", expects="level")
    while (yield Ask("face-true-north", expects="north")).command == "which-way":
        yield Say("where-north-is")
    yield Ask("level-the-tube", expects="tube")
    while (yield Ask("switch-on", expects="power")).command == "dead":
        yield Say("no-power")
    return {}
