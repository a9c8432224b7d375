"""One right document of each kind, each key given, and how each kind is read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from typing import Any

from companion.documents.diagnose_request import read_diagnose_request
from companion.documents.equipment_tables import with_learned
from companion.documents.fit_request import read_fit_request
from companion.documents.profile_tables import profile_from
from companion.documents.scenario import read_scenario
from companion.equipment import Equipment

SITE = {"name": "the meadow", "latitude_deg": 46.3, "longitude_deg": -67.5, "elevation_m": 180, "zone": "America/Moncton"}
TIME = "2026-11-05T20:00:00+00:00"
AT = datetime(2026, 11, 5, 20, 0, tzinfo=UTC)
EQUIPMENT = {
    "instrument": {
        "aperture_mm": 200,
        "focal_length_mm": 1200,
        "eyepieces": [25, {"focal_length_mm": 9.7, "apparent_field_deg": 60}],
        "has_diagonal": True,
        "finder": "dot",
        "finder_offset_cm": 12,
        "finder_field_deg": 6.5,
    },
    "mount": {"star_choice": "list", "pose_time": "by-itself", "turns_by_hand": False, "confirm_key": "enter", "hours": 12},
    "observer": {"compass": "card", "fist_deg": 8.5, "limits": ["kneeling"], "terse": True},
    "horizon": [{"from_azimuth_deg": 240, "to_azimuth_deg": 290, "altitude_deg": 30, "what": "barn"}],
}
SIGHTING = {"star": "Vega", "time": TIME, "reported_azimuth_deg": 10.0, "reported_altitude_deg": 20.0}
PLACE = {"ra_deg": 10.0, "dec_deg": -5.0, "epoch": "of_date", "time": TIME, "reported_azimuth_deg": 1, "reported_altitude_deg": 2}
FIT = {"site": SITE, "sightings": [SIGHTING, PLACE], "find": ["Mizar", {"name": "Moon", "time": TIME}], "azimuth_sense": "anticlockwise"}
MISS = {"star": "Vega", "time": TIME, "right_deg": 1.0, "up_deg": 2.0, "synced": True, "sigma_deg": 0.5}
UNSEEN = {"star": "Deneb", "time": TIME, "not_visible": True}
DIAGNOSE = {
    "site": SITE,
    "time": TIME,
    "declination_deg": -15.8,
    "start": {"faces": "magnetic_north", "tube": "unknown"},
    "corrections": "zeros",
    "message": "failed",
    "misses": [MISS, UNSEEN],
}
TURN = {"at": AT, "wav": "01.wav", "kind": "in-grammar", "words": "yes", "command": "yes", "slots": {"figures": "1 2"}, "after_crash": True}
SCENARIO = {"title": "An evening", "site": SITE, "starts_at": AT, "turn": [TURN], **EQUIPMENT}
PROFILE = {
    "engine": "builtin",
    "site": SITE,
    "voice": {"name": "auto", "words_per_minute": 165.4},
    "keys": {"device": "pedal", "key": "KEY_B"},
    "sound": {"microphone": "headset", "loudspeaker": "headset"},
    **EQUIPMENT,
}

READERS: Mapping[str, tuple[Any, Callable[[Any], object]]] = {
    "fit": (FIT, read_fit_request),
    "diagnose": (DIAGNOSE, read_diagnose_request),
    "profile": (PROFILE, lambda document: profile_from(document, "p.toml", lambda _: None)),
    "scenario": (SCENARIO, lambda document: read_scenario(document, "s.toml")),
    "learned": (EQUIPMENT, lambda document: with_learned(Equipment(), document)),
}
"""Each kind of document by name: a right one, and its reader."""
