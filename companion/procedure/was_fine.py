"""It was fine and now it isn't: re-centre and sync first, then align again, then level again, the least first."""

from __future__ import annotations

from collections.abc import Generator
from datetime import datetime

from companion.events import Answer, Ask, Note, Say
from companion.procedure.alignment import align
from companion.procedure.attempt import Attempt
from companion.procedure.reference_stars import USUAL_CHOICE
from companion.procedure.script import Context
from companion.procedure.starting_pose import take_pose

TOLD = ("was-fine", "kicked", "restarted")
"""What an observer may say of it."""


def bring_it_back(context: Context, told: Answer) -> Generator[Say | Ask | Note, Answer, datetime]:
    """Do the least that helps; return when that was done."""
    time = told.time
    choice = context.equipment.mount.star_choice or USUAL_CHOICE
    if told.command == "restarted":
        # It has forgotten everything: there is nothing to sync.
        answer = yield Ask("it-forgot-everything", expects="ready")
        time = answer.time
    else:
        star = Attempt(context, time, "list", 1).next_star(time)
        if star is not None:
            yield Say("legs-before-anything" if told.command == "kicked" else "least-first")
            yield Say("send-it-to", {"star": star})
            yield Ask("re-centre-and-sync", expects="ready", facts={"slewing": True})
            answer = yield Ask("is-it-good-again", expects="yes_no")
            if answer.command == "yes":
                return answer.time
            time = answer.time
        yield Say("then-align-again")
    aligned = yield from align(context, time, choice)
    if aligned.outcome in ("success", "skip"):
        return time
    yield Say("then-level-again")
    yield from take_pose(context, time)
    yield from align(context, time, choice)
    return time
