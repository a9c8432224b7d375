"""Places on Earth: towns, zones, magnetic declination, and what a hand control asks for there. No clock, no words, no audio."""

from companion.places.compass import compass_heading, compass_off_deg
from companion.places.customs import Customs, customs
from companion.places.declination import declination
from companion.places.hand_control import Sexagesimal, latitude, local_time, longitude, mount_settings, zone_at
from companion.places.towns import (
    Town,
    beginning_of,
    find_town,
    listed_cities,
    nearest_town,
    spelt_alike,
    town_beginnings,
    towns,
    towns_beginning,
    towns_named,
)

__all__ = [
    "Customs",
    "Sexagesimal",
    "Town",
    "beginning_of",
    "compass_heading",
    "compass_off_deg",
    "customs",
    "declination",
    "find_town",
    "latitude",
    "listed_cities",
    "local_time",
    "longitude",
    "mount_settings",
    "nearest_town",
    "spelt_alike",
    "town_beginnings",
    "towns",
    "towns_beginning",
    "towns_named",
    "zone_at",
]
