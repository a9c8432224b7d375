"""Agree on time, zone and place before anything is built on them, and say how dark it is."""

from __future__ import annotations

from companion.messages import Ask, Say
from companion.procedure.ask_equipment import ask_about_equipment
from companion.procedure.confirm_clock import agree_on_the_clock
from companion.procedure.confirm_place import agree_on_the_place, learn_the_place
from companion.procedure.notes import equipment_note, place_note
from companion.procedure.script import Context, Script


def check_in(context: Context) -> Script:
    """Ask whether our own clock and place are right: both are suspects, for a small board may have no clock chip."""
    if context.site_is_known:
        yield Say("good-evening")
        yield from agree_on_the_clock(context)
        yield from agree_on_the_place()
    else:
        yield Say("good-evening-wherever-you-are")
        place = yield from learn_the_place()
        yield from agree_on_the_clock(context.at(place))
    yield Say("how-dark-it-is")
    while (yield Ask("shall-we-start", expects="start")).command == "ask-me":
        told = dict((yield from ask_about_equipment(context)))
        place = told.pop("site", None)
        if place is not None:
            yield place_note(place["latitude_deg"], place["longitude_deg"], place.get("name"))
        yield equipment_note(told)
    return {}
