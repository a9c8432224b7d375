"""What each document gives where it is wrong: exactly one line with the key, its value and what it may be."""

from __future__ import annotations

import json
from datetime import date, datetime
from typing import Any

import pytest

from companion.documents.fit_request import read_fit_request
from companion.documents.profile_tables import profile_from
from companion.errors import BadRequest
from tests.documents.examples import DIAGNOSE, EQUIPMENT, FIT, MISS, PLACE, PROFILE, READERS, SCENARIO, SIGHTING, SITE, TURN

LATITUDE = "give -90 to 90 degrees, north positive"
SIGHTING_KEYS = "dec_deg, epoch, ra_deg, reported_altitude_deg, reported_azimuth_deg, star, time"
INSTRUMENT_KEYS = "aperture_mm, eyepieces, finder, finder_field_deg, finder_offset_cm, focal_length_mm, has_diagonal"


def _without(document: dict[str, Any], key: str) -> dict[str, Any]:
    return {name: value for name, value in document.items() if name != key}


def _sighted(**keys: object) -> dict[str, Any]:
    return FIT | {"sightings": [SIGHTING, SIGHTING | keys]}


def _missed(**keys: object) -> dict[str, Any]:
    return DIAGNOSE | {"misses": [MISS | keys]}


def _equipped(table: str, key: str, value: object) -> dict[str, Any]:
    return {**EQUIPMENT, table: {**EQUIPMENT[table], key: value}}  # type: ignore[dict-item]


WRONG: list[tuple[str, Any, str]] = [
    ("fit", [], "the file: this must be an object or table {…}, not a list; give it site, sightings"),
    ("fit", None, "the file: this must be an object or table {…}, not null; give it site, sightings"),
    ("fit", _without(FIT, "site"), "site: this is missing; add it"),
    ("fit", FIT | {"site": None}, "site: this is missing; add it"),
    ("fit", FIT | {"site": 3}, "site: this must be an object or table {…}, not a number; give it latitude_deg, longitude_deg"),
    ("fit", FIT | {"site": SITE | {"latitude_deg": 91}}, f"site.latitude_deg: 91 is not possible; {LATITUDE}"),
    ("fit", FIT | {"site": SITE | {"latitude_deg": 90.0000001}}, f"site.latitude_deg: 90.0000001 is not possible; {LATITUDE}"),
    ("fit", FIT | {"site": SITE | {"latitude_deg": 10**400}}, f"site.latitude_deg: a number so large is not possible; {LATITUDE}"),
    ("fit", FIT | {"site": SITE | {"latitude_deg": -float("inf")}}, f"site.latitude_deg: -inf is not possible; {LATITUDE}"),
    ("fit", FIT | {"site": _without(SITE, "latitude_deg")}, f"site.latitude_deg: this is missing; {LATITUDE}"),
    (
        "fit",
        FIT | {"site": _without(SITE, "latitude_deg") | {"latitude": 3}},
        "site.latitude: I don't know this field; known are elevation_m, latitude_deg, longitude_deg, name, zone",
    ),
    (
        "fit",
        FIT | {"site": SITE | {"zone": "Nowhere/Land"}},
        "site.zone: I don't know a time zone called 'Nowhere/Land'; use an IANA name such as Europe/Dublin",
    ),
    ("fit", FIT | {"sightings": []}, "sightings: there are none; give at least one star with the mount's readings"),
    (
        "fit",
        FIT | {"sightings": "Vega"},
        "sightings: this must be a list […], not a text; give objects or tables {…} of star, ra_deg, dec_deg, epoch, time, "
        "reported_azimuth_deg, reported_altitude_deg",
    ),
    (
        "fit",
        _sighted(reported_altitude_deg="20"),
        "sightings[1].reported_altitude_deg: this must be a number, not a text; give -180 to 180 degrees",
    ),
    (
        "fit",
        _sighted(reported_altitude_deg=True),
        "sightings[1].reported_altitude_deg: this must be a number, not true or false; give -180 to 180 degrees",
    ),
    (
        "fit",
        _sighted(reported_azimuth_deg=float("nan")),
        "sightings[1].reported_azimuth_deg: nan is not possible; give -720 to 720 degrees",
    ),
    ("fit", _sighted(azimuth=None), f"sightings[1].azimuth: I don't know this field; known are {SIGHTING_KEYS}"),
    ("fit", _sighted(ra_deg=1), "sightings[1]: give either star, or ra_deg and dec_deg"),
    (
        "fit",
        _sighted(epoch="J2000"),
        "sightings[1].epoch: a star has its own place; leave this out, or give ra_deg and dec_deg instead of star",
    ),
    ("fit", FIT | {"sightings": [_without(PLACE, "dec_deg")]}, "sightings[0].dec_deg: this is missing; give -90 to 90 degrees"),
    ("fit", _sighted(star=" "), "sightings[1].star: this must be a name, not an empty text"),
    (
        "fit",
        _sighted(star="Vegga"),
        "sightings[1].star: I don't know a star, planet or deep-sky object called 'Vegga'; did you mean Vega or Merga?",
    ),
    (
        "fit",
        _sighted(time="yesterday"),
        "sightings[1].time: 'yesterday' is not an ISO 8601 time; give one such as 2026-11-05T18:10:00+00:00",
    ),
    (
        "fit",
        _sighted(time=3),
        "sightings[1].time: this must be a time with its offset such as 2026-11-05T18:10:00+00:00, not a number",
    ),
    (
        "fit",
        _sighted(time="2026-11-05T20:00:00"),
        "sightings[1].time: 2026-11-05T20:00:00 has no offset; add one, e.g. 2026-11-05T20:00:00+00:00 or 2026-11-05T20:00:00Z",
    ),
    ("fit", FIT | {"find": ["Vega", 3]}, "find[1]: this must be a text in quotes, not a number"),
    ("fit", FIT | {"azimuth_sense": "widdershins"}, "azimuth_sense: 'widdershins' is not one of clockwise, anticlockwise"),
    ("fit", FIT | {"azimuth_sense": {}}, "azimuth_sense: an object is not one of clockwise, anticlockwise"),
    ("fit", FIT | {"two\nlines": 1}, r"'two\nlines': I don't know this field; known are azimuth_sense, find, sightings, site"),
    ("diagnose", DIAGNOSE | {"misses": []}, "misses: there are 0; give 1 to 8, in the order of the slews"),
    ("diagnose", DIAGNOSE | {"misses": [MISS] * 9}, "misses: there are 9; give 1 to 8, in the order of the slews"),
    ("diagnose", _missed(up_deg=None), "misses[0].up_deg: this is missing; give -180 to 180 degrees"),
    (
        "diagnose",
        _missed(not_visible=True),
        "misses[0]: a star that is not_visible has no right_deg and up_deg, and wasn't centred; leave them out",
    ),
    ("diagnose", _missed(synced="yes"), "misses[0].synced: this must be true or false, not a text"),
    ("diagnose", _missed(sigma_deg=0), "misses[0].sigma_deg: 0 is not possible; give 0.001 to 180 degrees"),
    (
        "diagnose",
        DIAGNOSE | {"start": {"faces": "south"}},
        "start.faces: 'south' is not one of true_north, magnetic_north, unknown",
    ),
    ("diagnose", DIAGNOSE | {"start": "level"}, "start: this must be an object or table {…}, not a text; give it faces, tube"),
    (
        "profile",
        PROFILE | {"telescope": {}},
        "p.toml: telescope: I don't know this field; known are engine, horizon, instrument, keys, mount, observer, site, sound, voice",
    ),
    ("profile", PROFILE | {"engine": "two\nlines"}, "p.toml: engine: this must be one line of text, at most 200 characters"),
    ("profile", PROFILE | {"engine": "x" * 201}, "p.toml: engine: this must be one line of text, at most 200 characters"),
    (
        "profile",
        PROFILE | {"voice": {"words_per_minute": 0}},
        "p.toml: voice.words_per_minute: 0 is not possible; give 1 to 1000 words a minute",
    ),
    (
        "profile",
        PROFILE | {"instrument": 3},
        f"p.toml: instrument: this must be an object or table {{…}}, not a number; give it {INSTRUMENT_KEYS}",
    ),
    (
        "profile",
        PROFILE | _equipped("instrument", "eyepieces", "25 mm"),
        "p.toml: instrument.eyepieces: this must be a list […], not a text; "
        "give objects or tables {…} of focal_length_mm, apparent_field_deg",
    ),
    (
        "profile",
        PROFILE | _equipped("instrument", "eyepieces", [25, 0]),
        "p.toml: instrument.eyepieces[1]: 0 is not possible; give 1 to 100 millimetres",
    ),
    (
        "profile",
        PROFILE | _equipped("instrument", "eyepieces", [{"apparent_field_deg": 50}]),
        "p.toml: instrument.eyepieces[0].focal_length_mm: this is missing; give 1 to 100 millimetres",
    ),
    ("profile", PROFILE | _equipped("instrument", "finder", 3), "p.toml: instrument.finder: 3 is not one of dot, optical"),
    (
        "profile",
        PROFILE | _equipped("mount", "star_choice", "mine"),
        "p.toml: mount.star_choice: 'mine' is not one of names, list, unnamed, one, body",
    ),
    ("profile", PROFILE | _equipped("mount", "turns_by_hand", 1), "p.toml: mount.turns_by_hand: this must be true or false, not a number"),
    (
        "profile",
        PROFILE | _equipped("observer", "limits", "kneeling"),
        "p.toml: observer.limits: this must be a list […], not a text; give any of faint-stars, kneeling, reaching",
    ),
    (
        "profile",
        PROFILE | _equipped("observer", "limits", ["kneeling", "flying"]),
        "p.toml: observer.limits[1]: 'flying' is not one of faint-stars, kneeling, reaching",
    ),
    ("profile", PROFILE | {"horizon": -3}, "p.toml: horizon: -3 is not possible; give 0 to 90 degrees"),
    ("profile", PROFILE | {"horizon": {"North-East": 95}}, "p.toml: horizon.north_east: 95 is not possible; give 0 to 90 degrees"),
    (
        "profile",
        PROFILE | {"horizon": ["woods", {"from_azimuth_deg": 0, "to_azimuth_deg": 90, "altitude_deg": 91}]},
        "p.toml: horizon[1].altitude_deg: 91 is not possible; give 0 to 90 degrees",
    ),
    ("learned", _equipped("observer", "fist_deg", 14), "equipment: observer.fist_deg: 14 is not possible; give 6 to 13 degrees"),
    (
        "learned",
        _equipped("instrument", "colour", 3),
        f"equipment: instrument.colour: I don't know this field; known are {INSTRUMENT_KEYS}",
    ),
    ("scenario", _without(SCENARIO, "turn"), "s.toml: turn: this is missing; add it"),
    ("scenario", SCENARIO | {"turn": [TURN, _without(TURN, "at")]}, "s.toml: turn[1].at: this is missing; add it"),
    (
        "scenario",
        SCENARIO | {"turn": [_without(TURN, "command")]},
        "s.toml: turn[0].command: this is missing; an in-grammar turn needs the command it stands for",
    ),
    (
        "scenario",
        SCENARIO | {"turn": [TURN | {"kind": "loud"}]},
        "s.toml: turn[0].kind: 'loud' is not one of in-grammar, out-of-grammar, silence",
    ),
    (
        "scenario",
        SCENARIO | {"turn": [TURN | {"slots": {"figures": 1}}]},
        "s.toml: turn[0].slots.figures: this must be a text in quotes, not a number",
    ),
    ("scenario", SCENARIO | {"turn": [TURN | {"slots": 3}]}, "s.toml: turn[0].slots: this must be an object or table {…}, not a number"),
    (
        "scenario",
        SCENARIO | {"starts_at": datetime(2026, 10, 15, 19, 42)},
        "s.toml: starts_at: 2026-10-15T19:42:00 has no offset; add one, e.g. 2026-10-15T19:42:00+00:00 or 2026-10-15T19:42:00Z",
    ),
    (
        "scenario",
        SCENARIO | {"starts_at": date(2026, 10, 15)},
        "s.toml: starts_at: this must be a time with its offset such as 2026-11-05T18:10:00+00:00, not a date or time alone",
    ),
]


@pytest.mark.parametrize(("name", "document", "line"), WRONG)
def test_a_wrong_document_is_one_line(name: str, document: Any, line: str) -> None:
    """The line says where, what is there, and what may be there."""
    with pytest.raises(BadRequest) as complaint:
        READERS[name][1](document)
    assert str(complaint.value) == line


PASSED_OVER: list[tuple[dict[str, Any], list[str]]] = [
    (
        {"instrument": {"colour": "blue", "two\nlines": 1}},
        [
            f"p.toml: instrument.colour means nothing to me and is passed over; known are {INSTRUMENT_KEYS}",
            rf"p.toml: instrument.'two\nlines' means nothing to me and is passed over; known are {INSTRUMENT_KEYS}",
        ],
    ),
    (
        {"instrument": {"finder": "my old brass one"}},
        ["p.toml: instrument.finder 'my old brass one' means nothing to me and is passed over; choose one of dot, optical"],
    ),
    (
        {"horizon": "woods"},
        [
            "p.toml: horizon means nothing to me and is passed over; make it [[horizon]] tables with "
            "from_azimuth_deg, to_azimuth_deg, altitude_deg, what"
        ],
    ),
    (
        {"horizon": [{"height": 3}]},
        [
            "p.toml: horizon[0].height means nothing to me and is passed over; "
            "known are altitude_deg, from_azimuth_deg, to_azimuth_deg, what",
            "p.toml: horizon[0] means nothing to me and is passed over; it needs from_azimuth_deg, to_azimuth_deg, altitude_deg",
        ],
    ),
]


@pytest.mark.parametrize(("document", "lines"), PASSED_OVER)
def test_own_words_of_a_profile_are_passed_over(document: dict[str, Any], lines: list[str]) -> None:
    """Each thing that means nothing to us in the instrument and the horizon is told in one line and left out."""
    told: list[str] = []
    assert profile_from(document, "p.toml", told.append) == profile_from({}, "p.toml", pytest.fail)
    assert told == lines


def test_the_last_of_two_same_keys_counts() -> None:
    """A JSON object that names a key twice means the last, as RFC 8259 (section 4) says most readers take it."""
    text = json.dumps(FIT)
    doubled = text.replace('{"site"', '{"azimuth_sense": "clockwise", "site"', 1)
    assert read_fit_request(json.loads(doubled)) == read_fit_request(FIT)
