"""It was fine and now it isn't: re-centre and sync first, then align again, then level again, the least first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Literal, TypeAlias, assert_never

from companion.procedure.align_mount import Aligned, align
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.mount_settings import key_in_settings
from companion.procedure.reference_stars import USUAL_CHOICE
from companion.procedure.script import Context, Steps, ask
from companion.procedure.starting_pose import take_pose
from companion.talk.answers import FinderAnswer, RecentreAnswer, YesNoAnswer
from companion.talk.centring_phrases import WhileItSlews
from companion.talk.night_answers import TargetAnswer
from companion.talk.saying import Reply
from companion.talk.targets_phrases import (
    AnybodyHurt,
    IsItGoodAgain,
    IsTheBubbleCentred,
    ItForgotEverything,
    ReCentreAndSync,
    SendItTo,
    SweepForThat,
    ThenAlignAgain,
    ThenLevelAgain,
)

Mishap: TypeAlias = Literal["was-fine", "kicked", "restarted"]
"""What an observer may tell of it."""

_OF_THE_STAR: Mapping[TargetAnswer | RecentreAnswer, RecentreAnswer] = {
    TargetAnswer.FOUND: RecentreAnswer.READY,
    TargetAnswer.NOT_THERE: RecentreAnswer.CANNOT_SEE,
    TargetAnswer.WAS_FINE: RecentreAnswer.CANNOT_SEE,
    TargetAnswer.NEXT: RecentreAnswer.ANOTHER,
}
"""What is said at targets, and means a star just as well."""
_GOOD = (YesNoAnswer.YES, FinderAnswer.IN_EYEPIECE, TargetAnswer.FOUND, TargetAnswer.SEEN)
_NOT_GOOD = (TargetAnswer.NOT_THERE, TargetAnswer.WAS_FINE, TargetAnswer.SKIP)
"""Of what is said at targets; anything else there says nothing of it, so it is asked again."""
_MOST_STARS = 3
"""After so many that can't be seen the alignment is begun again."""


@dataclass(frozen=True)
class Recovered:
    """What was done, and when."""

    time: datetime
    aligned: Aligned | None = None
    """The new alignment; None where bringing one star back and syncing on it was enough."""
    instead: Reply[TargetAnswer] | None = None
    """What is wanted instead, in the midst of it: then nothing was mended."""


def bring_it_back(context: Context, mishap: Mishap, time: datetime) -> Steps[Recovered]:
    """Do the least that helps."""
    choice = context.equipment.mount.star_choice or USUAL_CHOICE
    if mishap == "restarted":
        yield ItForgotEverything()
        time = yield from _set_up_again(context, time)
        return Recovered(time, (yield from align(context, time, choice)))
    if mishap == "kicked":
        yield from ask(AnybodyHurt())
        bubble = yield from ask(IsTheBubbleCentred())
        time = bubble.time
        if bubble.command is YesNoAnswer.NO:
            yield ThenLevelAgain()
            time = yield from take_pose(context)
            return Recovered(time, (yield from align(context, time, choice)))
    synced = yield from _sync_on_a_star(context, time)
    if isinstance(synced, Reply):
        return Recovered(synced.time, instead=synced)
    time, good = synced
    if good:
        time, good = yield from _is_it_good(time)
        if good:
            return Recovered(time)
    yield ThenAlignAgain()
    aligned = yield from align(context, time, choice, from_pose=False)
    if aligned.outcome not in ("success", "skip"):
        yield ThenLevelAgain()
        time = yield from take_pose(context)
        aligned = yield from align(context, time, choice)
    return Recovered(time, aligned)


def _sync_on_a_star(context: Context, time: datetime) -> Steps[tuple[datetime, bool] | Reply[TargetAnswer]]:
    """Have the mount told on one star where it points, or on another where that can't be seen; return when, and whether it was.

    Or return what is wanted instead.
    """
    state = AlignmentState(context, time, "list", 1)
    while len(state.refused) < _MOST_STARS and (star := state.next_star(time)) is not None:
        yield SendItTo(star)
        told = yield from ask(ReCentreAndSync())
        if _OF_THE_STAR.get(told.command, told.command) is RecentreAnswer.CANNOT_SEE:
            told = yield from ask(SweepForThat())
        time = told.time
        match _OF_THE_STAR.get(told.command, told.command):
            case TargetAnswer() as wanted:
                return Reply(wanted, time, told.slots)
            case RecentreAnswer.READY:
                return time, True
            case RecentreAnswer.NO_SYNC | RecentreAnswer.SKIP:
                return time, False
            case RecentreAnswer.CANNOT_SEE | RecentreAnswer.ANOTHER:
                state.refused.append(star)
            case other:
                assert_never(other)
    return time, False


def _is_it_good(time: datetime) -> Steps[tuple[datetime, bool]]:
    """Ask whether what was looked at is in view again; return when, and whether it is."""
    while True:
        told = yield from ask(IsItGoodAgain())
        if told.command in (FinderAnswer.SLEWING, TargetAnswer.SLEWING):
            yield from ask(WhileItSlews())
        elif told.command in _GOOD or told.command in _NOT_GOOD or not isinstance(told.command, TargetAnswer):
            return told.time, told.command in _GOOD


def _set_up_again(context: Context, time: datetime) -> Steps[datetime]:
    """Take the pose and key the settings, in the order this mount wants them; return when that was done."""
    wanted = context.equipment.mount.pose_time
    if wanted != "after-settings":
        time = yield from take_pose(context)
    yield from key_in_settings(context)
    if wanted == "after-settings":
        time = yield from take_pose(context)
    return time
