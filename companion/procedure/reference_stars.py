"""The stage of the reference stars: align, by the way this mount settles on its stars."""

from __future__ import annotations

from companion import sky
from companion.equipment import StarChoice
from companion.messages import Say
from companion.procedure.align_mount import align
from companion.procedure.ask_equipment import Question, ask_star_choice, learned_by
from companion.procedure.script import Context, Script

USUAL_CHOICE: StarChoice = "list"


def centre_reference_stars(context: Context) -> Script:
    """Learn how the mount chooses, and take the observer through the stars to a verdict."""
    question: Question[StarChoice] = learned_by(ask_star_choice(), "mount", "star_choice")
    choice: StarChoice = context.equipment.mount.star_choice or (yield from question) or USUAL_CHOICE
    yield Say("before-the-stars", {"choice": choice})
    if context.equipment.observer.in_company is not False:
        yield Say("keep-people-back")
    if context.results.get("ground", {}).get("capped") and not sky.sun_state(context.moment(context.started)).is_up:
        yield Say("caps-off-now")
    aligned = yield from align(context, context.started, choice)
    return {"stars": list(aligned.stars), "left": list(aligned.left), "outcome": aligned.outcome}
