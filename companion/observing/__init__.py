"""What is worth seeing tonight, and what can be seen of it. No clock, no words, no audio."""

from companion.observing.distances import LIGHT_KM_S, light_seconds, light_years
from companion.observing.double_stars import closest_arcsec, splits
from companion.observing.eye import Eye, naked_eye_limit_mag
from companion.observing.hop_measures import FINGERS_A_FIST, PARTS_A_FIELD, Direction, Offset, in_field_parts, in_fingers, length_in_fingers
from companion.observing.hops import DOT, SWEEP_FIELDS, Finder, Step, Way, finder_of, way_to
from companion.observing.jupiter_moons import JupiterMoon, from_east_to_west, jupiter_moons
from companion.observing.looks import BestTime, Chance, Phase, Rings, Shadowless, Size, on_the_moon, phase, rings, size, when_best
from companion.observing.moon_features import (
    LitFeature,
    MoonFeature,
    MoonLight,
    at_the_terminator,
    moon_features,
    moon_light,
    sun_altitude_deg,
)
from companion.observing.outfit import Guess, Outfit, outfit_of, site_sky_of
from companion.observing.overhead import finest_overhead, leaves_the_top
from companion.observing.own_objects import found_among, own_objects, read_own_objects
from companion.observing.planets import EQUATORIAL_RADIUS_KM, PlanetView, RingView, planet_view, saturn_rings
from companion.observing.rising import rises_at
from companion.observing.showpieces import Showpiece, rated_showpieces, showpiece_of
from companion.observing.sky_brightness import (
    Lamps,
    MilkyWay,
    SiteSky,
    darkness_from_faintest_star,
    darkness_from_milky_way,
    lamps,
    sky_brightness,
)
from companion.observing.star_counts import Figure, faintest_seen_mag, figure_to_count
from companion.observing.target_choice import RankedTarget, catalogue_number, targets
from companion.observing.target_reasons import TargetReason
from companion.observing.target_times import best_time, sets_at
from companion.observing.telescope import Glows, Telescope, best_eyepieces, limits_mag, margins_mag, star_limits_mag

__all__ = [
    "DOT",
    "EQUATORIAL_RADIUS_KM",
    "FINGERS_A_FIST",
    "LIGHT_KM_S",
    "PARTS_A_FIELD",
    "SWEEP_FIELDS",
    "BestTime",
    "Chance",
    "Direction",
    "Eye",
    "Figure",
    "Finder",
    "Glows",
    "Guess",
    "JupiterMoon",
    "Lamps",
    "LitFeature",
    "MilkyWay",
    "MoonFeature",
    "MoonLight",
    "Offset",
    "Outfit",
    "Phase",
    "PlanetView",
    "RankedTarget",
    "RingView",
    "Rings",
    "Shadowless",
    "Showpiece",
    "SiteSky",
    "Size",
    "Step",
    "TargetReason",
    "Telescope",
    "Way",
    "at_the_terminator",
    "best_eyepieces",
    "best_time",
    "catalogue_number",
    "closest_arcsec",
    "darkness_from_faintest_star",
    "darkness_from_milky_way",
    "faintest_seen_mag",
    "figure_to_count",
    "finder_of",
    "finest_overhead",
    "found_among",
    "from_east_to_west",
    "in_field_parts",
    "in_fingers",
    "jupiter_moons",
    "lamps",
    "leaves_the_top",
    "length_in_fingers",
    "light_seconds",
    "light_years",
    "limits_mag",
    "margins_mag",
    "moon_features",
    "moon_light",
    "naked_eye_limit_mag",
    "on_the_moon",
    "outfit_of",
    "own_objects",
    "phase",
    "planet_view",
    "rated_showpieces",
    "read_own_objects",
    "rings",
    "rises_at",
    "saturn_rings",
    "sets_at",
    "showpiece_of",
    "site_sky_of",
    "size",
    "sky_brightness",
    "splits",
    "star_limits_mag",
    "sun_altitude_deg",
    "targets",
    "way_to",
    "when_best",
]
