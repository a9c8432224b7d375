"""What is worth seeing tonight, and what can be seen of it. No clock, no words, no audio."""

from companion.observing.eye import Eye, naked_eye_limit_mag
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

__all__ = [
    "Eye",
    "Lamps",
    "MilkyWay",
    "RankedTarget",
    "SiteSky",
    "TargetReason",
    "best_time",
    "darkness_from_faintest_star",
    "darkness_from_milky_way",
    "lamps",
    "naked_eye_limit_mag",
    "sets_at",
    "sky_brightness",
    "targets",
]
