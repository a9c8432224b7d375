"""The sky over a site at a moment: pure computation, no clock, no words, no audio. This is the front door."""

from companion.sky.bright_things import alignment_bodies, bright_things
from companion.sky.catalogue import (
    MOON,
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
)
from companion.sky.colours import Colour, colour
from companion.sky.declination import Declination, DeclinationWarning, declination
from companion.sky.expected_error import expected_error_deg
from companion.sky.finder_alignment import far_enough_m
from companion.sky.fist import fist_from, fist_pair
from companion.sky.miss import diagnose
from companion.sky.miss_causes import Cause, Clue
from companion.sky.miss_questions import Reading, next_reading, settle, weigh_clue, without
from companion.sky.miss_request import CauseFound, DiagnoseRequest, Diagnosis, Miss, read_diagnose_request
from companion.sky.mount_settings import MountSettings, local_time, mount_settings, zone_at
from companion.sky.night import Darkness, MoonState, Night, SunState, moon_state, night_around, sun_state
from companion.sky.pointing import Fit, FitRequest, fit, read_fit_request
from companion.sky.pole import CROSS_LENGTHS, PoleMark, PoleWay, pole_star
from companion.sky.positions import angle_deg, separation_deg, sight, sights
from companion.sky.reference_stars import RankedStar, StarReason, reference_stars, rivals
from companion.sky.shadow import shadow_direction
from companion.sky.showing import first_seen, visible_now
from companion.sky.star_verdict import StarVerdict, judge_star
from companion.sky.targets import RankedTarget, TargetReason, best_time, sets_at, targets
from companion.sky.towns import Town, find_town, nearest_town, towns, towns_named
from companion.sky.turn import Turn, turn
from companion.sky.types import Body, Kind, Moment, Place, Sight, Site, zone_info
from companion.sky.visibility import SUN_BERTH_DEG, dimming_mag
from companion.sky.what import Candidate, standing_at

__all__ = [
    "CROSS_LENGTHS",
    "MOON",
    "PLANETS",
    "SUN",
    "SUN_BERTH_DEG",
    "Body",
    "Candidate",
    "Cause",
    "CauseFound",
    "Clue",
    "Colour",
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
    "PoleMark",
    "PoleWay",
    "RankedStar",
    "RankedTarget",
    "Reading",
    "Sight",
    "Site",
    "StarReason",
    "StarVerdict",
    "SunState",
    "TargetReason",
    "Town",
    "Turn",
    "alignment_bodies",
    "angle_deg",
    "best_time",
    "bright_stars",
    "bright_things",
    "colour",
    "declination",
    "deep_sky",
    "diagnose",
    "dimming_mag",
    "double_stars",
    "expected_error_deg",
    "far_enough_m",
    "find",
    "find_town",
    "first_seen",
    "fist_from",
    "fist_pair",
    "fit",
    "judge_star",
    "local_time",
    "moon_state",
    "mount_settings",
    "nameable",
    "nameable_from",
    "named_stars",
    "nearest_town",
    "next_reading",
    "night_around",
    "pole_star",
    "read_diagnose_request",
    "read_fit_request",
    "reference_stars",
    "rivals",
    "separation_deg",
    "sets_at",
    "settle",
    "shadow_direction",
    "showpieces",
    "sight",
    "sights",
    "standing_at",
    "sun_state",
    "targets",
    "towns",
    "towns_named",
    "turn",
    "visible_now",
    "weigh_clue",
    "without",
    "zone_at",
    "zone_info",
]
