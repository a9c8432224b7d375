"""The stage of the reference stars: align, by the way this mount settles on its stars."""

from __future__ import annotations

from companion import sky
from companion.equipment import StarChoice
from companion.procedure.align_mount import Aligned, align
from companion.procedure.ask_mount import ask_star_choice
from companion.procedure.notes import learned_by
from companion.procedure.script import Context, Steps, ask
from companion.procedure.tripod import StoodFirm
from companion.talk.answers import ReadyAnswer
from companion.talk.sight_phrases import NobodyLooks
from companion.talk.stars_phrases import BeforeTheStars, CapsOffNow, KeepPeopleBack

USUAL_CHOICE: StarChoice = "list"


def centre_reference_stars(context: Context) -> Steps[Aligned]:
    """Learn how the mount chooses, and take the observer through the stars to a verdict."""
    if context.equipment.observer.is_unseeing and (yield from ask(NobodyLooks(context.linked))).command is ReadyAnswer.SKIP:
        return Aligned((), (), "incomplete")
    question: Steps[StarChoice | None] = learned_by(ask_star_choice(), "mount", "star_choice")
    choice: StarChoice = context.equipment.mount.star_choice or (yield from question) or USUAL_CHOICE
    yield BeforeTheStars(choice)
    if context.equipment.observer.in_company is not False:
        yield KeepPeopleBack()
    stood = context.found(StoodFirm)
    if stood is not None and stood.capped and not sky.sun_state(context.moment(context.started)).is_up:
        yield CapsOffNow()
    return (yield from align(context, context.started, choice))
