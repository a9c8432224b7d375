"""Where we are, asked and not asserted."""

from __future__ import annotations

from collections.abc import Generator

from companion.messages import Answer, Ask, Note, Say
from companion.procedure.ask_place import ask_place
from companion.procedure.notes import place_note
from companion.sky import Site


def learn_the_place() -> Generator[Say | Ask | Note, Answer, Site]:
    """Ask where we are until it is told: without a place nothing can be said of the sky."""
    while (place := (yield from ask_place())) is None:
        yield Say("no-sky-without-a-place")
    yield place_note(place["latitude_deg"], place["longitude_deg"], place.get("name"))
    return Site(**place)


def agree_on_the_place() -> Generator[Say | Ask | Note, Answer, None]:
    """Read the place out until it is said to be right; hear where we are instead where it is not."""
    while (yield Ask("is-the-place-right", expects="yes_no")).command == "no":
        place = yield from ask_place()
        if place is not None:
            yield place_note(place["latitude_deg"], place["longitude_deg"], place.get("name"))
