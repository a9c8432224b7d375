"""What the observer corrects of our own clock and place: notes of a script, and what holds after them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

from companion import sky
from companion.events import Ask, Note
from companion.sky import Moment, Site

OUR_CLOCK, OUR_PLACE = "our-clock", "our-place"


def clock_note(add_seconds: float) -> Note:
    """Return the note that from now on our clock is to be read so many seconds later (negative: earlier) than until now."""
    return Note(OUR_CLOCK, {"add_seconds": add_seconds})


def place_note(latitude_deg: float, longitude_deg: float, name: str | None = None) -> Note:
    """Return the note that we are elsewhere; zone and all else follow from there."""
    return Note(OUR_PLACE, {"latitude_deg": latitude_deg, "longitude_deg": longitude_deg, "name": name})


def corrected(moment: Moment, decisions: Iterable[Ask | Note]) -> Moment:
    """Return the moment as it is after all such notes among the decisions, in order."""
    site, time = moment.site, moment.time
    for decision in decisions:
        if not isinstance(decision, Note):
            continue
        if decision.what == OUR_CLOCK:
            time += timedelta(seconds=decision.facts["add_seconds"])
        elif decision.what == OUR_PLACE:
            latitude_deg, longitude_deg = decision.facts["latitude_deg"], decision.facts["longitude_deg"]
            site = Site(latitude_deg, longitude_deg, site.elevation_m, sky.zone_at(latitude_deg, longitude_deg), decision.facts["name"])
    return Moment(site, time)
