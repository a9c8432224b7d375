"""The stage of the reference stars: align, by the way this mount settles on its stars."""

from __future__ import annotations

from companion import sky
from companion.equipment import StarChoice
from companion.events import Say
from companion.procedure.alignment import align
from companion.procedure.corrections import learned_note
from companion.procedure.script import Context, Script
from companion.procedure.your_equipment import ask_star_choice

USUAL_CHOICE: StarChoice = "list"


def centre_reference_stars(context: Context) -> Script:
    """Learn how the mount chooses, and take the observer through the stars to a verdict."""
    choice = context.equipment.mount.star_choice
    if choice is None:
        choice = (yield from ask_star_choice()) or USUAL_CHOICE
        yield learned_note("mount", "star_choice", choice)
    yield Say("before-the-stars", {"choice": choice})
    if context.equipment.observer.in_company is not False:
        yield Say("keep-people-back")
    if context.results.get("ground", {}).get("capped") and not sky.sun_state(context.moment(context.started)).is_up:
        yield Say("caps-off-now")
    aligned = yield from align(context, context.started, choice)
    return {"stars": list(aligned.stars), "left": list(aligned.left), "outcome": aligned.outcome}
