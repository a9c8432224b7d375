"""Where we are, asked and not asserted."""

from __future__ import annotations

from typing import assert_never

from companion import places
from companion.procedure.ask_place import ask_coordinates, ask_how_far_off, ask_place, ask_spelt_town, no_such_town
from companion.procedure.notes import OurPlace
from companion.procedure.script import Steps, ask
from companion.sky import Site
from companion.talk.answers import TownAnswer, YesNoAnswer
from companion.talk.check_in_phrases import IsThePlaceRight, NoSkyWithoutAPlace


def learn_the_place() -> Steps[Site]:
    """Ask where we are until it is told: without a place nothing can be said of the sky."""
    while (place := (yield from ask_place())) is None:
        yield NoSkyWithoutAPlace()
    yield our_place(place)
    return place


def agree_on_the_place() -> Steps[None]:
    """Read the place out until it is said to be right; hear where we are instead where it is not."""
    while True:
        answer = yield from ask(IsThePlaceRight())
        place: Site | None
        match answer.command:
            case YesNoAnswer.YES | YesNoAnswer.SKIP | TownAnswer.SKIP:
                return
            case YesNoAnswer.NO:
                place = yield from ask_place()
            case TownAnswer.TOWN:
                place = yield from ask_how_far_off(places.find_town(answer.slots["town_name"]))
            case TownAnswer.UNKNOWN:
                yield no_such_town(answer.slots.get("town_name"))
                continue
            case TownAnswer.SPELL:
                town = yield from ask_spelt_town()
                place = None if town is None else (yield from ask_how_far_off(town))
            case TownAnswer.FIGURES:
                place = yield from ask_coordinates()
            case _:
                assert_never(answer.command)
        if place is not None:
            yield our_place(place)


def our_place(place: Site) -> OurPlace:
    """Return the note that this is where we are."""
    return OurPlace(place.latitude_deg, place.longitude_deg, place.name)
