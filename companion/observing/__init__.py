"""What is worth seeing tonight, and what can be seen of it. No clock, no words, no audio."""

from companion.observing.double_stars import closest_arcsec, splits
from companion.observing.eye import Eye, naked_eye_limit_mag
from companion.observing.moon_features import (
    LitFeature,
    MoonFeature,
    MoonLight,
    at_the_terminator,
    moon_features,
    moon_light,
    sun_altitude_deg,
)
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
from companion.observing.target_choice import RankedTarget, TargetReason, best_time, sets_at, targets
from companion.observing.telescope import Glows, Telescope, best_eyepieces, limits_mag, margins_mag, star_limits_mag

__all__ = [
    "Eye",
    "Glows",
    "Lamps",
    "LitFeature",
    "MilkyWay",
    "MoonFeature",
    "MoonLight",
    "RankedTarget",
    "Showpiece",
    "SiteSky",
    "TargetReason",
    "Telescope",
    "at_the_terminator",
    "best_eyepieces",
    "best_time",
    "closest_arcsec",
    "darkness_from_faintest_star",
    "darkness_from_milky_way",
    "lamps",
    "limits_mag",
    "margins_mag",
    "moon_features",
    "moon_light",
    "naked_eye_limit_mag",
    "rated_showpieces",
    "sets_at",
    "showpiece_of",
    "sky_brightness",
    "splits",
    "star_limits_mag",
    "sun_altitude_deg",
    "targets",
]
