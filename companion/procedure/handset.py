"""What is learnt once from who sees little or nothing: what tells them level, and where the keys of the handset lie."""

from __future__ import annotations

from companion.procedure.notes import Learned
from companion.procedure.script import Context, Steps, ask
from companion.procedure.spoken_figures import number_in
from companion.talk.answers import ArrowByCableAnswer, KeyPlaceAnswer, LevelAidAnswer
from companion.talk.sight_phrases import ConfirmKeyAt, WhatTellsYouLevel, WhereIsTheConfirmKey, WhichArrowIsByTheCable


def learn_the_level_aid(context: Context) -> Steps[bool]:
    """Ask what tells them that something is level, where no eye can and nobody has told yet; return whether it was asked."""
    observer = context.equipment.observer
    if not observer.by_touch or observer.level_aid is not None:
        return False
    told = (yield from ask(WhatTellsYouLevel())).command
    if told is not LevelAidAnswer.SKIP:
        yield Learned.one("observer", "level_aid", str(told))
    return True


def learn_the_keys(context: Context) -> Steps[None]:
    """Ask for the arrows by the cable and for the key that confirms, where nobody has told yet and the observer sees little or nothing."""
    mount = context.equipment.mount
    if context.equipment.observer.sight is None or mount.arrow_by_cable is not None:
        return
    told = (yield from ask(WhichArrowIsByTheCable())).command
    if told is ArrowByCableAnswer.SKIP or told is ArrowByCableAnswer.CANT_TELL:
        return
    yield Learned.one("mount", "arrow_by_cable", str(told))
    place = yield from ask(WhereIsTheConfirmKey())
    if place.command is KeyPlaceAnswer.KEY_PLACE:
        row, key = number_in(place.slots, "row"), number_in(place.slots, "key")
        yield Learned({"mount": {"confirm_row": row, "confirm_key_in_row": key}})
        yield ConfirmKeyAt(row, key)
