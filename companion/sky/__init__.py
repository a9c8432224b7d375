"""The sky over a site at a moment: positions, night, catalogue, brightness. Pure: no clock, no words, no audio. This is the front door."""

from companion.sky.catalogue import (
    MOON,
    NAKED_EYE_PLANETS,
    PLANETS,
    SUN,
    bright_stars,
    deep_sky,
    double_stars,
    find,
    nameable,
    nameable_from,
    named_stars,
    showpieces,
    star_clouds,
)
from companion.sky.colours import colour
from companion.sky.ephemeris import covers
from companion.sky.finder_stars import finder_stars
from companion.sky.fine_stars import DoubleStar, VariableStar, fine_doubles, fine_variables
from companion.sky.identify import standing_at
from companion.sky.night import Night, moon_state, night_around, sun_state
from companion.sky.positions import angle_deg, separation_deg, sight, sights
from companion.sky.standouts import ColourTold, HeightTold, Told, is_near_the_sun, mark_towards, meant, pair_meant, standouts
from companion.sky.twilight_visibility import first_seen, stars_come_out, visible_now
from companion.sky.types import Body, Kind, Moment, Place, Sight, Site
from companion.sky.visibility import SUN_BERTH_DEG, SUN_UNSAFE_ABOVE_DEG, dimming_mag

__all__ = [
    "MOON",
    "NAKED_EYE_PLANETS",
    "PLANETS",
    "SUN",
    "SUN_BERTH_DEG",
    "SUN_UNSAFE_ABOVE_DEG",
    "Body",
    "ColourTold",
    "DoubleStar",
    "HeightTold",
    "Kind",
    "Moment",
    "Night",
    "Place",
    "Sight",
    "Site",
    "Told",
    "VariableStar",
    "angle_deg",
    "bright_stars",
    "colour",
    "covers",
    "deep_sky",
    "dimming_mag",
    "double_stars",
    "find",
    "finder_stars",
    "fine_doubles",
    "fine_variables",
    "first_seen",
    "is_near_the_sun",
    "mark_towards",
    "meant",
    "moon_state",
    "nameable",
    "nameable_from",
    "named_stars",
    "night_around",
    "pair_meant",
    "separation_deg",
    "showpieces",
    "sight",
    "sights",
    "standing_at",
    "standouts",
    "star_clouds",
    "stars_come_out",
    "sun_state",
    "visible_now",
]
