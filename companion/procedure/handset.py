"""Where the keys of a handset lie, learnt once by feel from who can't see them."""

from __future__ import annotations

from companion.procedure.notes import Learned
from companion.procedure.script import Context, Steps, ask
from companion.procedure.spoken_figures import number_in
from companion.talk.answers import ArrowByCableAnswer, KeyPlaceAnswer
from companion.talk.sight_phrases import ConfirmKeyAt, WhereIsTheConfirmKey, WhichArrowIsByTheCable


def learn_the_keys(context: Context) -> Steps[None]:
    """Ask for the arrows by the cable and for the key that confirms, where nobody has told yet and the observer sees nothing."""
    mount = context.equipment.mount
    if context.equipment.observer.sight != "none" or mount.arrow_by_cable is not None:
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
