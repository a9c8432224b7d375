"""Towns of the world by name, so that an observer can say where they are without figures."""

from __future__ import annotations

import csv
import difflib
import math
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache
from importlib.resources import files
from typing import TypeAlias

import numpy as np

from companion.errors import TownUnknown
from companion.places.hand_control import zone_at
from companion.sky.attitude import Floats, direction, wrapped
from companion.sky.designations import plain
from companion.sky.positions import angle_deg
from companion.sky.types import Site, zone_info

EARTH_RADIUS_KM = 6371.0

# Letters that don't come apart into a plain one and an accent.
_LETTERS = str.maketrans({"ø": "o", "đ": "d", "ħ": "h", "ı": "i", "ł": "l", "ß": "ss", "æ": "ae", "œ": "oe", "ð": "d", "þ": "th"})


@dataclass(frozen=True)
class Town:
    """A town of our table."""

    name: str
    """As GeoNames has it; mostly the English name, with its accents."""
    country: str
    """ISO 3166 code of two letters."""
    latitude_deg: float
    """Of its centre; degrees, north positive."""
    longitude_deg: float
    """Degrees, east positive."""
    population: int
    """Roughly; it says which of two of one name is likelier to be meant."""

    @property
    def site(self) -> Site:
        """The town as a site in its own time zone; its elevation is not known and taken as sea level."""
        return Site(self.latitude_deg, self.longitude_deg, zone=zone_at(self.latitude_deg, self.longitude_deg), name=self.name)

    def distance_km(self, latitude_deg: float, longitude_deg: float) -> float:
        """Return how far its centre is from a place, kilometres, on a round Earth."""
        return EARTH_RADIUS_KM * math.radians(angle_deg(self.latitude_deg, self.longitude_deg, latitude_deg, longitude_deg))

    def beside(self, distance_km: float, bearing_deg: float) -> Site:
        """Return the site so many kilometres from its centre, in a direction from true north through east, on a round Earth."""
        latitude, bearing, arc = np.radians(self.latitude_deg), np.radians(bearing_deg), distance_km / EARTH_RADIUS_KM
        sine = np.sin(latitude) * np.cos(arc) + np.cos(latitude) * np.sin(arc) * np.cos(bearing)
        turn = np.arctan2(np.sin(bearing) * np.sin(arc) * np.cos(latitude), np.cos(arc) - np.sin(latitude) * sine)
        latitude_deg = float(np.degrees(np.arcsin(sine)))
        longitude_deg = float(wrapped(self.longitude_deg + np.degrees(turn)))
        return Site(latitude_deg, longitude_deg, zone=zone_at(latitude_deg, longitude_deg), name=self.name)


@lru_cache(maxsize=1)
def towns() -> tuple[Town, ...]:
    """Return every town we know, the largest first."""
    return tuple(
        Town(row["name"], row["country"], float(row["latitude_deg"]), float(row["longitude_deg"]), int(row["population"]))
        for row in _rows("towns.csv")
    )


def find_town(name: str) -> Town:
    """Return the largest town of that name; case, accents, hyphens and spaces don't matter.

    A name nobody has raises ``TownUnknown`` with the nearest spellings.
    """
    found = towns_named(name)
    if found:
        return found[0]
    shown = " ".join("".join(letter if letter.isprintable() else " " for letter in name).split())[:40]
    near = spelt_alike(name)
    hint = f"did you mean {' or '.join(near)}?" if near else "name a larger town nearby, or give latitude and longitude"
    raise TownUnknown(f"I don't know a town called {shown!r}; {hint}", name=shown)


def spelt_alike(name: str) -> tuple[str, ...]:
    """Return the names of up to three towns that are spelt much like a name, the nearest first."""
    close = difflib.get_close_matches(_spelled(name), _index(), n=3, cutoff=0.75)
    return tuple(dict.fromkeys(_index()[spelling][0].name for spelling in close))


def towns_named(name: str) -> tuple[Town, ...]:
    """Return all towns of that name, the largest first; empty if there are none."""
    return _index().get(_spelled(name), ())


BEGINNING_LETTERS = 4
"""So many first letters of a town's name leave one or two towns of most beginnings, and one place where one was heard wrong."""


def beginning_of(name: str) -> str:
    """Return the first letters of a town's name as they are spelt aloud: plain capitals, nothing between them."""
    return _spelled(name).replace(" ", "")[:BEGINNING_LETTERS].upper()


def town_beginnings() -> tuple[str, ...]:
    """Return what the names of the towns begin with, other names they go by included, in the order of the alphabet."""
    return tuple(sorted(beginning for beginning in _beginnings() if beginning.isascii() and beginning.isalpha()))


def towns_beginning(letters: str) -> tuple[Town, ...]:
    """Return the towns that have a name beginning so, the largest first."""
    return _beginnings().get(letters, ())


def nearest_town(latitude_deg: float, longitude_deg: float) -> Town:
    """Return the town whose centre is nearest to a place; in mid-ocean it may be far (``Town.distance_km``)."""
    here = direction(Site(latitude_deg, longitude_deg).longitude_deg, latitude_deg)
    return towns()[int(np.argmax(_directions() @ here))]


_LISTED_POPULATIONS = (0, 100_000, 1_000_000)
"""A mount's list of cities may hold every town, the large ones or only those of millions. Judgement."""


def listed_cities(site: Site) -> tuple[Town, ...]:
    """Return the cities to look for in a mount's own list: the nearest town, large one and one of millions that keep the site's clock."""
    here = direction(site.longitude_deg, site.latitude_deg)
    nearest_first = [towns()[place] for place in np.argsort(-(_directions() @ here))[:_MOST_LOOKED_AT]]
    found = (_nearest_of(nearest_first, least, _clock(site.zone)) for least in _LISTED_POPULATIONS)
    return tuple(dict.fromkeys(town for town in found if town is not None))


_MOST_LOOKED_AT = 400
"""So many towns around hold a city of millions wherever there is one to hold by; beyond, no list of a mount is near enough."""


def _nearest_of(nearest_first: list[Town], least: int, clock: Clock) -> Town | None:
    large = (town for town in nearest_first if town.population >= least)
    return next((town for town in large if _clock(zone_at(town.latitude_deg, town.longitude_deg)) == clock), None)


Clock: TypeAlias = tuple[timedelta | None, ...]
"""What a zone's clock shows ahead of Universal Time in winter and in summer."""


@lru_cache(maxsize=64)
def _clock(zone: str) -> Clock:
    return tuple(datetime(2026, month, 15, 12, tzinfo=zone_info(zone)).utcoffset() for month in (1, 7))


def _rows(file: str) -> list[dict[str, str]]:
    """Return the rows of one of our tables."""
    return list(csv.DictReader((files("companion.places.data") / file).read_text(encoding="utf-8").splitlines()))


def _spelled(name: str) -> str:
    """Return a name as names are compared."""
    return plain(name.casefold().translate(_LETTERS))


@lru_cache(maxsize=1)
def _index() -> dict[str, tuple[Town, ...]]:
    """Return the towns, largest first, by every plain spelling."""
    index: dict[str, tuple[Town, ...]] = {}
    for town in towns():
        index[_spelled(town.name)] = (*index.get(_spelled(town.name), ()), town)
    by_name = {(town.name, town.country): town for town in reversed(towns())}
    for row in _rows("town_aliases.csv"):
        spelling = _spelled(row["alias"])
        index[spelling] = (by_name[row["name"], row["country"]], *index.get(spelling, ()))
    return index


@lru_cache(maxsize=1)
def _directions() -> Floats:
    """Return the unit vectors from the Earth's centre to the towns, shape (n, 3)."""
    return direction(np.array([town.longitude_deg for town in towns()]), np.array([town.latitude_deg for town in towns()]))


@lru_cache(maxsize=1)
def _beginnings() -> dict[str, tuple[Town, ...]]:
    """Return the towns, largest first, by what their names begin with."""
    begin: dict[str, dict[Town, None]] = {}
    for spelling, named in _index().items():
        begin.setdefault(beginning_of(spelling), {}).update(dict.fromkeys(named))
    return {letters: tuple(sorted(found, key=lambda town: -town.population)) for letters, found in begin.items()}
