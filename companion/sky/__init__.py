"""The sky over a site at a moment: pure computation, no clock, no words, no audio. This is the front door."""

from companion.sky.catalogue import MOON, PLANETS, SUN, bright_stars, deep_sky, double_stars, find, named_stars, showpieces
from companion.sky.declination import Declination, DeclinationWarning, declination
from companion.sky.miss import diagnose
from companion.sky.miss_causes import Cause, Clue
from companion.sky.miss_questions import Reading, next_reading, settle, weigh_clue
from companion.sky.miss_request import CauseFound, DiagnoseRequest, Diagnosis, Miss, read_diagnose_request
from companion.sky.mount_settings import MountSettings, local_time, mount_settings, zone_at
from companion.sky.night import Darkness, MoonState, Night, SunState, moon_state, night_around, sun_state
from companion.sky.pointing import Fit, FitRequest, fit, read_fit_request
from companion.sky.positions import angle_deg, separation_deg, sight, sights
from companion.sky.reference_stars import RankedStar, StarReason, reference_stars, rivals
from companion.sky.targets import RankedTarget, TargetReason, best_time, sets_at, targets
from companion.sky.types import Body, Kind, Moment, Place, Sight, Site, zone_info
from companion.sky.visibility import SUN_BERTH_DEG, dimming_mag
from companion.sky.what import Candidate, standing_at

__all__ = [
    "MOON",
    "PLANETS",
    "SUN",
    "SUN_BERTH_DEG",
    "Body",
    "Candidate",
    "Cause",
    "CauseFound",
    "Clue",
    "Darkness",
    "Declination",
    "DeclinationWarning",
    "DiagnoseRequest",
    "Diagnosis",
    "Fit",
    "FitRequest",
    "Kind",
    "Miss",
    "Moment",
    "MoonState",
    "MountSettings",
    "Night",
    "Place",
    "RankedStar",
    "RankedTarget",
    "Reading",
    "Sight",
    "Site",
    "StarReason",
    "SunState",
    "TargetReason",
    "angle_deg",
    "best_time",
    "bright_stars",
    "declination",
    "deep_sky",
    "diagnose",
    "dimming_mag",
    "double_stars",
    "find",
    "fit",
    "local_time",
    "moon_state",
    "mount_settings",
    "named_stars",
    "next_reading",
    "night_around",
    "read_diagnose_request",
    "read_fit_request",
    "reference_stars",
    "rivals",
    "separation_deg",
    "sets_at",
    "settle",
    "showpieces",
    "sight",
    "sights",
    "standing_at",
    "sun_state",
    "targets",
    "weigh_clue",
    "zone_at",
    "zone_info",
]
