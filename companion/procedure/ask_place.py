"""Ask where we are: by the nearest town and how far off it we are, or by latitude and longitude."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, TypeAlias, assert_never

from companion import places
from companion.procedure.script import Steps, ask
from companion.procedure.spoken_figures import MOST_TRIES, ask_yes_no, degrees_in, number_in, read_back
from companion.sky import Site
from companion.talk.answers import CoordinateAnswer, FromTownAnswer, TownAnswer, TownLettersAnswer
from companion.talk.equipment_phrases import (
    FigureLeft,
    FromTownHeard,
    HowFarFromTown,
    LengthUnit,
    NoOtherTown,
    NoSuchCoordinate,
    NoSuchTown,
    SayOrSpellTheTown,
    SpellTheTown,
    TownHeard,
    WhereAreYou,
    YourLatitude,
    YourLongitude,
    YourPlaceHeard,
)
from companion.talk.saying import UnexpectedAnswer

Coordinate: TypeAlias = Literal["latitude", "longitude"]

_MOST_OFFERED = 3
"""Of the towns that begin with the letters spelt; judgement: more would be a guessing game, and a larger one is near enough."""
_KM: Mapping[LengthUnit, float] = {"kilometres": 1.0, "miles": 1.609344}


def ask_place() -> Steps[Site | None]:
    """Return where we are, in its own zone, read back and confirmed; None where it was skipped."""
    for _ in range(MOST_TRIES):
        answer = yield from ask(WhereAreYou())
        match answer.command:
            case TownAnswer.FIGURES:
                return (yield from ask_coordinates())
            case TownAnswer.SKIP:
                return None
            case TownAnswer.UNKNOWN:
                yield no_such_town(answer.slots.get("town_name"))
                continue
            case TownAnswer.SPELL:
                spelt = yield from ask_spelt_town()
                if spelt is None:
                    continue
                return (yield from ask_how_far_off(spelt))
            case TownAnswer.TOWN:
                town = places.find_town(answer.slots["town_name"])
            case _:
                assert_never(answer.command)
        confirmed = yield from ask_town(town)
        if confirmed is not False:
            return (yield from ask_how_far_off(town)) if confirmed else None
        yield SayOrSpellTheTown()
    return (yield from ask_coordinates())


def ask_town(town: places.Town) -> Steps[bool | None]:
    """Read a town back; return whether it is meant, None where that was skipped."""
    return (yield from ask_yes_no(TownHeard(town.name, town.latitude_deg, town.longitude_deg)))


def ask_spelt_town() -> Steps[places.Town | None]:
    """Ask how a town's name begins, and offer the towns that begin so, the largest first; None where none is meant."""
    for _ in range(MOST_TRIES):
        answer = yield from ask(SpellTheTown())
        match answer.command:
            case TownLettersAnswer.SKIP:
                return None
            case TownLettersAnswer.LETTERS:
                letters = answer.slots["letters"]
            case _:
                assert_never(answer.command)
        for town in places.towns_beginning(letters)[:_MOST_OFFERED]:
            confirmed = yield from ask_town(town)
            if confirmed is not False:
                return town if confirmed else None
        yield NoOtherTown(letters)
    return None


def no_such_town(name: str | None) -> NoSuchTown:
    """Return that we know no town of that name."""
    return NoSuchTown(name, () if name is None else places.spelt_alike(name)[:2])


def ask_how_far_off(town: places.Town) -> Steps[Site]:
    """Ask where we are from the town's middle, and read it back; the town itself where that is skipped."""
    usual: LengthUnit = "miles" if places.customs(town.site).miles else "kilometres"
    for _ in range(MOST_TRIES):
        answer = yield from ask(HowFarFromTown(usual))
        match answer.command:
            case FromTownAnswer.IN_TOWN | FromTownAnswer.SKIP:
                return town.site
            case FromTownAnswer.FROM_TOWN:
                distance, bearing_deg = number_in(answer.slots, "how_far"), float(answer.slots["heading"])
                unit = _unit(answer.slots["length_unit"])
            case _:
                assert_never(answer.command)
        confirmed = yield from ask_yes_no(FromTownHeard(town.name, distance, unit, bearing_deg))
        if confirmed is not False:
            return town.beside(distance * _KM[unit], bearing_deg) if confirmed else town.site
    return town.site


def _unit(said: str) -> LengthUnit:
    match said:
        case "kilometres" | "miles":
            return said
        case _:
            raise UnexpectedAnswer(f"'{said}' is no unit of length")


def ask_coordinates() -> Steps[Site | None]:
    """Ask for latitude and longitude and read them back; return the place in its own zone, None where either was skipped."""
    told = yield from read_back(_ask_both, lambda both: None if both is None else YourPlaceHeard(*both))
    return None if told is None else Site(*told, zone=places.zone_at(*told))


def _ask_both() -> Steps[tuple[float, float] | None]:
    latitude_deg = yield from ask_coordinate("latitude")
    longitude_deg = None if latitude_deg is None else (yield from ask_coordinate("longitude"))
    return None if latitude_deg is None or longitude_deg is None else (latitude_deg, longitude_deg)


def ask_coordinate(which: Coordinate) -> Steps[float | None]:
    """Ask for the latitude or the longitude; return degrees, north or east positive, None where it was skipped."""
    plus, minus, most_deg = ("N", "S", 90.0) if which == "latitude" else ("E", "W", 180.0)
    for _ in range(MOST_TRIES):
        answer = yield from ask(YourLatitude() if which == "latitude" else YourLongitude())
        match answer.command:
            case CoordinateAnswer.SKIP:
                return None
            case CoordinateAnswer.COORDINATE:
                size_deg = degrees_in(answer.slots)
            case _:
                assert_never(answer.command)
        side = answer.slots["side"]
        if side not in (plus, minus) or size_deg > most_deg:
            yield NoSuchCoordinate(which)
            continue
        return size_deg if side == plus else -size_deg
    yield FigureLeft()
    return None
