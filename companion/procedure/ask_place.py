"""Ask where we are: by the nearest town and how far off it we are, or by latitude and longitude."""

from __future__ import annotations

from collections.abc import Generator
from typing import Any

from companion import places, sky
from companion.messages import Answer, Ask, Note, Say
from companion.procedure.spoken_figures import MOST_TRIES, decimals_in, figure_of, number_in

_KM = {"kilometres": 1.0, "miles": 1.609344}
_Place = Generator[Say | Ask | Note, Answer, dict[str, Any] | None]


def ask_place() -> _Place:
    """Return the keys of a site, its zone among them, read back and confirmed; None where it was skipped."""
    for _ in range(MOST_TRIES):
        answer = yield Ask("where-are-you", expects="town")
        if answer.command == "figures":
            return (yield from ask_coordinates())
        if answer.command != "town":
            return None
        town = places.find_town(answer.slots["town_name"])
        facts = {"name": town.name, "latitude_deg": town.latitude_deg, "longitude_deg": town.longitude_deg}
        confirmed = yield Ask("town-heard", expects="yes_no", facts=facts)
        if confirmed.command == "yes":
            place = yield from _ask_how_far_off(town)
            return {"name": town.name, "latitude_deg": place.latitude_deg, "longitude_deg": place.longitude_deg, "zone": place.zone}
        if confirmed.command != "no":
            return None
    return (yield from ask_coordinates())


def _ask_how_far_off(town: places.Town) -> Generator[Say | Ask | Note, Answer, sky.Site]:
    """Ask where we are from the town's middle, and read it back; the town itself where that is skipped."""
    for _ in range(MOST_TRIES):
        answer = yield Ask("how-far-from-town", expects="from_town", facts={"name": town.name})
        if answer.command != "from-town":
            break
        distance, bearing_deg = number_in(answer.slots, "how_far"), float(answer.slots["heading"])
        unit = answer.slots["length_unit"]
        facts = {"name": town.name, "distance": distance, "unit": unit, "bearing_deg": bearing_deg}
        confirmed = yield Ask("from-town-heard", expects="yes_no", facts=facts)
        if confirmed.command == "yes":
            return town.beside(distance * _KM[unit], bearing_deg)
        if confirmed.command != "no":
            break
    return town.site


def ask_coordinates() -> _Place:
    """Ask for latitude and longitude; return the keys of a site, None where either was skipped."""
    latitude_deg = yield from ask_coordinate("latitude")
    longitude_deg = None if latitude_deg is None else (yield from ask_coordinate("longitude"))
    if latitude_deg is None or longitude_deg is None:
        return None
    return {"latitude_deg": latitude_deg, "longitude_deg": longitude_deg, "zone": places.zone_at(latitude_deg, longitude_deg)}


def ask_coordinate(which: str) -> Generator[Say | Ask | Note, Answer, float | None]:
    """Ask for the ``latitude`` or the ``longitude`` and read it back; return degrees, north or east positive, None where it was skipped."""
    for _ in range(MOST_TRIES):
        answer = yield Ask(f"your-{which}", expects="coordinate")
        size_deg = figure_of(answer.slots)
        if size_deg is None:
            return None
        size_deg += number_in(answer.slots, "minute") / 60 + decimals_in(answer.slots, "decimals")
        plus, minus, most_deg = ("N", "S", 90.0) if which == "latitude" else ("E", "W", 180.0)
        side = answer.slots.get("side")
        if side not in (plus, minus) or size_deg > most_deg:
            yield Say("no-such-coordinate", {"which": which})
            continue
        angle_deg = size_deg if side == plus else -size_deg
        confirmed = yield Ask("your-coordinate-heard", expects="yes_no", facts={"which": which, "angle_deg": angle_deg})
        if confirmed.command != "no":
            return angle_deg if confirmed.command == "yes" else None
    yield Say("figure-left")
    return None
