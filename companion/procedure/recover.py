"""It was fine and now it isn't: re-centre and sync first, then align again, then level again, the least first."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass
from datetime import datetime

from companion.messages import Answer, Ask, Note, Say
from companion.procedure.align_mount import Aligned, align
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.mount_settings import key_in_settings
from companion.procedure.reference_stars import USUAL_CHOICE
from companion.procedure.script import Context
from companion.procedure.starting_pose import take_pose

TOLD = ("was-fine", "kicked", "restarted")
"""What an observer may say of it."""


@dataclass(frozen=True)
class Mended:
    """What was done, and when."""

    time: datetime
    aligned: Aligned | None = None
    """The new alignment; None where bringing one star back and syncing on it was enough."""


def bring_it_back(context: Context, told: Answer) -> Generator[Say | Ask | Note, Answer, Mended]:
    """Do the least that helps."""
    time = told.time
    choice = context.equipment.mount.star_choice or USUAL_CHOICE
    if told.command == "restarted":
        yield Say("it-forgot-everything")
        time = yield from _set_up_again(context, time)
        return Mended(time, (yield from align(context, time, choice)))
    if told.command == "kicked":
        time = (yield Ask("anybody-hurt", expects="ready")).time
    star = AlignmentState(context, time, "list", 1).next_star(time)
    if star is not None:
        yield Say("send-it-to", {"star": star})
        yield Ask("re-centre-and-sync", expects="ready")
        answer = yield Ask("is-it-good-again", expects="yes_no")
        time = answer.time
        if answer.command == "yes":
            return Mended(time)
    yield Say("then-align-again")
    aligned: Aligned = yield from align(context, time, choice, from_pose=False)
    if aligned.outcome not in ("success", "skip"):
        yield Say("then-level-again")
        time = yield from take_pose(context)
        aligned = yield from align(context, time, choice)
    return Mended(time, aligned)


def _set_up_again(context: Context, time: datetime) -> Generator[Say | Ask | Note, Answer, datetime]:
    """Take the pose and key the settings, in the order this mount wants them; return when that was done."""
    wanted = context.equipment.mount.pose_time
    if wanted != "after-settings":
        time = yield from take_pose(context)
    yield from key_in_settings(context)
    if wanted == "after-settings":
        time = yield from take_pose(context)
    return time
