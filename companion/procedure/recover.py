"""It was fine and now it isn't: re-centre and sync first, then align again, then level again, the least first."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, TypeAlias

from companion.procedure.align_mount import Aligned, align
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.mount_settings import key_in_settings
from companion.procedure.reference_stars import USUAL_CHOICE
from companion.procedure.script import Context, Steps, ask
from companion.procedure.starting_pose import take_pose
from companion.talk.answers import YesNoAnswer
from companion.talk.targets_phrases import (
    AnybodyHurt,
    IsItGoodAgain,
    ItForgotEverything,
    ReCentreAndSync,
    SendItTo,
    ThenAlignAgain,
    ThenLevelAgain,
)

Mishap: TypeAlias = Literal["was-fine", "kicked", "restarted"]
"""What an observer may tell of it."""


@dataclass(frozen=True)
class Recovered:
    """What was done, and when."""

    time: datetime
    aligned: Aligned | None = None
    """The new alignment; None where bringing one star back and syncing on it was enough."""


def bring_it_back(context: Context, mishap: Mishap, time: datetime) -> Steps[Recovered]:
    """Do the least that helps."""
    choice = context.equipment.mount.star_choice or USUAL_CHOICE
    if mishap == "restarted":
        yield ItForgotEverything()
        time = yield from _set_up_again(context, time)
        return Recovered(time, (yield from align(context, time, choice)))
    if mishap == "kicked":
        time = (yield from ask(AnybodyHurt())).time
    star = AlignmentState(context, time, "list", 1).next_star(time)
    if star is not None:
        yield SendItTo(star)
        yield from ask(ReCentreAndSync())
        answer = yield from ask(IsItGoodAgain())
        time = answer.time
        if answer.command is YesNoAnswer.YES:
            return Recovered(time)
    yield ThenAlignAgain()
    aligned = yield from align(context, time, choice, from_pose=False)
    if aligned.outcome not in ("success", "skip"):
        yield ThenLevelAgain()
        time = yield from take_pose(context)
        aligned = yield from align(context, time, choice)
    return Recovered(time, aligned)


def _set_up_again(context: Context, time: datetime) -> Steps[datetime]:
    """Take the pose and key the settings, in the order this mount wants them; return when that was done."""
    wanted = context.equipment.mount.pose_time
    if wanted != "after-settings":
        time = yield from take_pose(context)
    yield from key_in_settings(context)
    if wanted == "after-settings":
        time = yield from take_pose(context)
    return time
