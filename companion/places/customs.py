"""How people where we are write dates and times, and measure lengths: what the country of a place's zone tells of it. No words."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Literal

from companion.equipment import DateOrder
from companion.sky.types import Site

_US = frozenset({"US", "PR", "GU", "VI", "AS", "MP"})
_FEET = _US | {"LR"}
_MILES = _FEET | {"GB"}
_MONTH_FIRST = _US | {"FM", "MH", "PW", "PH"}
_TWELVE_HOURS = _MONTH_FIRST | {"CA", "AU", "NZ", "IN", "PK", "BD", "MY", "EG", "SA", "CO"}
"""Countries by their ISO 3166 codes; values from memory of Unicode's CLDR (measurementSystem, short dates, preferred hours)."""


@dataclass(frozen=True)
class Customs:
    """What is usual in a country."""

    feet: bool = False
    """Whether short lengths are told in feet."""
    miles: bool = False
    """Whether long ones are told in miles."""
    date_order: DateOrder = "day-month"
    hours: Literal[12, 24] = 24


def customs(site: Site) -> Customs:
    """Return what is usual at a place; metres, the day first and twenty-four hours where its zone has no country."""
    country = _country_of_zone().get(site.zone)
    return Customs(
        feet=country in _FEET,
        miles=country in _MILES,
        date_order="month-day" if country in _MONTH_FIRST else "day-month",
        hours=12 if country in _TWELVE_HOURS else 24,
    )


@cache
def _country_of_zone() -> dict[str, str]:
    """Return the country of each zone, by the zone table of the IANA time zone database."""
    table = (resources.files("tzdata.zoneinfo") / "zone.tab").read_text("utf-8")
    rows = (line.split("\t") for line in table.splitlines() if line and not line.startswith("#"))
    return {zone: country for country, _, zone, *_ in rows}
