"""What holds for every document: bounds stand once and count, what is written is read back, junk is refused in one line."""

from __future__ import annotations

import copy
import json
import random
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import is_dataclass
from datetime import UTC, date, datetime, time, timedelta, timezone
from typing import Annotated, Any, get_args, get_origin, get_type_hints

import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.alignment.pointing import FitRequest, Sighting, Target
from companion.diagnosis import DiagnoseRequest, Miss
from companion.documents.diagnose_request import DiagnoseFields, read_diagnose_request
from companion.documents.equipment_tables import EquipmentTables, equipment_from, tables_from, with_learned
from companion.documents.fit_request import FitFields, read_fit_request
from companion.documents.profile_tables import ProfileTables
from companion.documents.reader import plain, read, read_part
from companion.documents.scenario import ScenarioTables, TurnTable, read_scenario
from companion.documents.site_table import SiteTable, site_from, site_table
from companion.equipment import Equipment, Eyepiece, Instrument, Mount, Observer, Obstruction
from companion.errors import BadRequest
from companion.ranges import Range
from companion.sky import find
from companion.sky.airless_directions import fixed_body
from tests.documents.examples import READERS, SITE

# --- each declaration ---------------------------------------------------------------------------------------------------

DECLARED = (FitFields, DiagnoseFields, ProfileTables, ScenarioTables)


def _parts(hint: Any) -> Iterator[Any]:
    """Yield a type and all types within it that are declared in our documents."""
    yield hint
    for part in get_args(hint) if get_origin(hint) is not Annotated else ():
        yield from _parts(part)
    if isinstance(hint, type) and is_dataclass(hint):
        for part in get_type_hints(hint, include_extras=True).values():
            yield from _parts(part)


HINTS = {str(hint): hint for declared in DECLARED for hint in _parts(declared)}


def test_every_figure_has_bounds() -> None:
    """No document takes a figure without saying which: a bare float would take anything, even what is none."""
    assert {hint for hint in HINTS.values() if hint in (float, int)} == set()
    assert len([hint for hint in HINTS.values() if get_origin(hint) is Annotated]) >= 15


@pytest.mark.parametrize("hint", [hint for hint in HINTS.values() if any(isinstance(rule, Range) for rule in get_args(hint))], ids=str)
def test_bounds_are_allowed_and_no_more(hint: Any) -> None:
    """Both ends are taken; a little beyond, no number, a word and true are not."""
    held, within = get_args(hint)
    for figure in (within.lowest, within.highest):
        assert read_part(figure, hint) == figure
        assert type(read_part(figure, hint)) is held
    for wrong in (within.lowest - 1e-6, within.highest + 1e-6, float("nan"), float("inf"), 10**400, -(10**5000), "3", True, None, [3]):
        with pytest.raises(BadRequest, match=rf"give {within}$"):
            read_part(wrong, hint)


# --- round trips --------------------------------------------------------------------------------------------------------


def _some(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | values


STARS = st.sampled_from(["Vega", "Capella", "Moon", "M 31"])
TIMES = st.datetimes(
    datetime(1900, 1, 1), datetime(2050, 1, 1), timezones=st.sampled_from([UTC, timezone(timedelta(hours=-9, minutes=-30))])
)
SITES = st.builds(
    SiteTable,
    name=_some(st.just("the meadow")),
    latitude_deg=st.floats(-90, 90),
    longitude_deg=st.floats(-180, 180),
    elevation_m=st.floats(-500, 9_000),
    zone=_some(st.just("Asia/Kathmandu")),
)
SIGHTINGS = st.fixed_dictionaries(
    {"time": TIMES.map(datetime.isoformat), "reported_azimuth_deg": st.floats(-720, 720), "reported_altitude_deg": st.floats(-180, 180)}
).flatmap(
    lambda read: (
        st.builds(lambda star: {**read, "star": star}, STARS)
        | st.builds(
            lambda ra, dec, epoch: {**read, "ra_deg": ra, "dec_deg": dec, "epoch": epoch},
            st.floats(-360, 360),
            st.floats(-90, 90),
            _some(st.sampled_from(["J2000", "of_date"])),
        )
    )
)


def _through_json(document: Any) -> Any:
    return json.loads(json.dumps(document))


@given(site=SITES, sightings=st.lists(SIGHTINGS, min_size=1, max_size=4), find_names=st.lists(STARS, max_size=3))
@settings(max_examples=60, deadline=None)
def test_a_fit_request_says_what_it_says(site: SiteTable, sightings: list[dict[str, Any]], find_names: list[str]) -> None:
    """Each field of the JSON comes to the value of the same name; nothing is lost or changed on the way."""
    document = {"site": plain(site), "sightings": sightings, "find": find_names}
    expected = [
        Sighting(
            find(given["star"]) if "star" in given else fixed_body(given["ra_deg"], given["dec_deg"]),
            datetime.fromisoformat(given["time"]),
            given["reported_azimuth_deg"],
            given["reported_altitude_deg"],
            given.get("epoch") == "of_date",
        )
        for given in sightings
    ]
    targets = tuple(Target(find(name)) for name in find_names)
    assert read_fit_request(_through_json(document)) == FitRequest(site.site, tuple(expected), targets)


MISSES = st.builds(
    Miss, STARS.map(find), TIMES, st.floats(-180, 180), st.floats(-180, 180), st.booleans(), _some(st.floats(0.001, 180))
) | st.builds(Miss, STARS.map(find), TIMES, st.none(), st.none(), st.booleans())
DIAGNOSES = st.builds(
    DiagnoseRequest,
    site=SITES.map(lambda table: table.site),
    time=TIMES,
    misses=st.lists(MISSES, min_size=1, max_size=8).map(tuple),
    declination_deg=_some(st.floats(-180, 180)),
    faces=st.sampled_from(["true_north", "magnetic_north", "unknown"]),
    tube=st.sampled_from(["level", "unknown"]),
    corrections=st.sampled_from(["zeros", "rotation", "none", "unknown"]),
    message=st.sampled_from(["failed", "success", "none"]),
)


@given(asked=DIAGNOSES)
@settings(max_examples=60, deadline=None)
def test_a_diagnose_request_says_what_it_says(asked: DiagnoseRequest) -> None:
    """Each field of the JSON comes to the value of the same name; nothing is lost or changed on the way."""
    document = {
        "site": plain(site_table(asked.site)),
        "time": asked.time.isoformat(),
        "declination_deg": asked.declination_deg,
        "start": {"faces": asked.faces, "tube": asked.tube},
        "corrections": asked.corrections,
        "message": asked.message,
        "misses": [
            {
                "star": miss.body.name,
                "time": miss.time.isoformat(),
                "right_deg": miss.right_deg,
                "up_deg": miss.up_deg,
                "not_visible": miss.right_deg is None,
                "synced": miss.synced,
                "sigma_deg": miss.sigma_deg,
            }
            for miss in asked.misses
        ],
    }
    assert read_diagnose_request(_through_json(document)) == asked


@given(site=SITES)
@settings(max_examples=60, deadline=None)
def test_a_site_is_read_back(site: SiteTable) -> None:
    """A place survives its table, with the zone that was chosen or the one that follows."""
    assert site_from(plain(site_table(site.site)), "here") == site.site


EQUIPMENTS = st.builds(
    Equipment,
    st.builds(
        Instrument,
        _some(st.floats(10, 5000)),
        _some(st.floats(50, 50_000)),
        st.lists(st.builds(Eyepiece, st.floats(1, 100), st.floats(10, 130)), max_size=2).map(tuple),
        _some(st.booleans()),
        _some(st.sampled_from(["dot", "optical"])),
        st.floats(0, 200),
    ),
    st.builds(Mount, _some(st.sampled_from(["names", "list"])), hours=st.sampled_from([12, 24]), confirm_key=_some(st.just("1"))),
    st.builds(
        Observer,
        fist_deg=st.floats(6, 13),
        limits=st.frozensets(st.sampled_from(["faint-stars", "kneeling", "reaching"])),
        sight=st.sampled_from([None, "none", "little"]),
        eyes=st.sampled_from([None, "helper", "child"]),
    ),
    st.lists(st.builds(Obstruction, st.floats(0, 360), st.floats(0, 360), st.floats(0, 90)), max_size=2).map(tuple),
)


@given(known=EQUIPMENTS, told=EQUIPMENTS)
@settings(max_examples=60, deadline=None)
def test_what_is_learned_replaces_what_was_known(known: Equipment, told: Equipment) -> None:
    """Keys that were told, as a journal brings them back, count instead of those known before, and all others stay."""
    tables = _through_json(tables_from(told))
    merged = tables_from(known)
    for name, keys in tables.items():
        merged[name] = {**merged.get(name, {}), **keys} if isinstance(keys, dict) else keys
    assert with_learned(known, tables) == equipment_from(merged)
    assert with_learned(known, {}) == known
    assert equipment_from(tables) == told


@given(
    title=st.just("An evening"),
    site=SITES,
    starts_at=TIMES,
    turns=st.lists(
        st.builds(
            TurnTable,
            at=TIMES,
            wav=st.just("01.wav"),
            kind=st.sampled_from(["in-grammar", "out-of-grammar", "silence"]),
            words=st.just("ten past nine"),
            command=st.just("time"),
            slots=st.dictionaries(st.sampled_from(["hour", "minute"]), st.just("9")),
            after_crash=st.booleans(),
            snr_db=_some(st.floats(-20, 100)),
        ),
        max_size=3,
    ).map(tuple),
    equipment=EQUIPMENTS,
)
@settings(max_examples=60, deadline=None)
def test_a_scenario_is_read_back(title: str, site: SiteTable, starts_at: datetime, turns: Any, equipment: Equipment) -> None:
    """A scenario survives its TOML."""
    tables = EquipmentTables(instrument=equipment.instrument, mount=equipment.mount, observer=equipment.observer, horizon=equipment.horizon)
    scenario = ScenarioTables(**vars(tables), title=title, site=site, starts_at=starts_at, turn=turns)
    document = tomllib.loads(tomlkit.dumps(plain(scenario)))
    assert read_scenario(document, "here") == scenario
    assert read(document, ScenarioTables).equipment == equipment


# --- junk ---------------------------------------------------------------------------------------------------------------

DEEP: Any = []
for _ in range(300):
    DEEP = [DEEP]
FIGURES = (0, -1, 12, 1e9, float("nan"), float("-inf"), 10**400, 16**5000)
TEXTS = (
    "",
    " ",
    "1",
    "a\nb",
    "\ud800",
    "\x00",
    "x" * 10_000,
    "Vega",
    "2026-11-05",
    "0001-01-01T00:00:00+14:00",
    "9999-12-31T23:59:59-14:00",
)
TABLES = ({}, {"": None}, {"a\nb": 1}, {"x" * 500: {}}, {"latitude_deg": 1, "longitude_deg": 2}, {"north": 3}, {"name": "Vega"})
JUNK: tuple[Any, ...] = (None, True, *FIGURES, *TEXTS, *TABLES, [], [None], [[]], [25, "25"], DEEP)
TOML_JUNK: tuple[Any, ...] = (*JUNK, datetime(1, 1, 1), datetime(2026, 1, 1, tzinfo=UTC), date(2026, 1, 1), time(3, 4))
KEYS = ("star", "latitude_deg", "horizon", "limits", "site", "a\nb", "", "x" * 300, "zone", "time")


def _spoil(document: Any, choose: random.Random, junk: tuple[Any, ...]) -> Any:
    """Return the document with one place in it replaced, added or taken out."""
    if not (isinstance(document, dict | list) and document) or choose.random() < 0.08:
        return copy.deepcopy(choose.choice(junk))
    if isinstance(document, list):
        index = choose.randrange(len(document))
        return [*document[:index], _spoil(document[index], choose, junk), *document[index + 1 :]]
    key = choose.choice([*document])
    match choose.random():
        case chance if chance < 0.1:
            return {name: value for name, value in document.items() if name != key}
        case chance if chance < 0.2:
            return {**document, choose.choice(KEYS): choose.choice(junk)}
    return {**document, key: _spoil(document[key], choose, junk)}


def _refusal(reader: Callable[[Any], object], document: Any) -> str | None:
    try:
        reader(document)
    except BadRequest as refused:
        return str(refused)
    return None


@pytest.mark.parametrize("name", READERS)
@pytest.mark.parametrize("seed", range(10))
def test_junk_is_a_value_or_one_line(name: str, seed: int) -> None:
    """Right documents spoilt at random in one to three places, eighty of each kind and seed: a value, or one printable line."""
    document, reader = READERS[name]
    choose = random.Random(f"{name} {seed}")
    ends = {"value": 0, "refused": 0}
    for _ in range(80):
        spoilt = document
        for _ in range(choose.randint(1, 3)):
            spoilt = _spoil(spoilt, choose, JUNK if name in ("fit", "diagnose", "learned") else TOML_JUNK)
        if name in ("profile", "scenario") and not isinstance(spoilt, dict):
            continue  # TOML is a table at the top
        line = _refusal(reader, spoilt)
        ends["value" if line is None else "refused"] += 1
        assert line is None or (line.isprintable() and 10 < len(line) < 400), line
    assert min(ends.values()) > 0, ends


def test_right_documents_are_read() -> None:
    """The documents that are spoilt above are right themselves, so that it is the spoiling that is refused."""
    for document, reader in READERS.values():
        reader(document)
    assert site_from(SITE, "here").name == "the meadow"
