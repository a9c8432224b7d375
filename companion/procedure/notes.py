"""What the observer tells us of our clock, our place and their equipment: notes of a script, and what holds after them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import timedelta
from typing import Any

from companion import places
from companion.documents.equipment_tables import with_learned
from companion.equipment import Equipment
from companion.messages import Ask, Note
from companion.sky import Moment, Site

OUR_CLOCK, OUR_PLACE, LEARNED, KEEP = "our-clock", "our-place", "learned", "keep"


def clock_note(add_seconds: float) -> Note:
    """Return the note that from now on our clock is to be read so many seconds later (negative: earlier) than until now."""
    return Note(OUR_CLOCK, {"add_seconds": add_seconds})


def place_note(latitude_deg: float, longitude_deg: float, name: str | None = None) -> Note:
    """Return the note that we are elsewhere; zone and all else follow from there."""
    return Note(OUR_PLACE, {"latitude_deg": latitude_deg, "longitude_deg": longitude_deg, "name": name})


def learned_note(table: str, key: str, value: Any) -> Note:
    """Return the note that one key of a profile's table is now known."""
    return equipment_note({table: {key: value}})


def equipment_note(tables: Mapping[str, Any]) -> Note:
    """Return the note that these keys of a profile's tables are now known."""
    return Note(LEARNED, {"tables": tables})


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
            site = Site(latitude_deg, longitude_deg, site.elevation_m, places.zone_at(latitude_deg, longitude_deg), decision.facts["name"])
    return Moment(site, time)


def learned(equipment: Equipment, decisions: Iterable[Ask | Note]) -> Equipment:
    """Return the equipment with all that was learned in such notes among the decisions, the last word of each counting."""
    for decision in decisions:
        if isinstance(decision, Note) and decision.what == LEARNED:
            equipment = with_learned(equipment, decision.facts["tables"])
    return equipment
