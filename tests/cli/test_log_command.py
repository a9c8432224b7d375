"""``companion log``: what was seen, listed as it would be told, exported for other programs, and forgotten without a trace."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from companion import sky
from companion.cli import main
from companion.dialogue import Journal
from companion.documents.open_astronomy_log import open_astronomy_log
from companion.equipment import Instrument
from companion.live import journal_path
from companion.observation_log import log_path, write_down
from companion.observing.observation import Observation, observed
from companion.sky import Body, Moment, Place, Site

SCHEMA = Path("/work/shared/data/oal21/oal21.xsd")
"""OpenAstronomyLog 2.1, github.com/openastronomylog, commit 59cc9dd; Apache-2.0."""
FIELDS = ["time", "target", "catalogue", "altitude_deg", "azimuth_deg", "eyepiece_mm", "seen", "note"]
SITE = Site(46.31, -67.52, 180.0, zone="America/Moncton", name="Lièvre <hill> & pond")
START = datetime(2026, 7, 10, 3, 0, tzinfo=UTC)


def _seen(name: str, hours: float, **told: Any) -> Observation:
    moment = Moment(SITE, START + timedelta(hours=hours))
    return replace(observed(sky.find(name), moment, Instrument(200, 1000), 9.7), **told)


RING = _seen("Ring Nebula", 0, seen="just", looks=("round", "single stars"), steadiness=4, clearness=2)
MOON = _seen("Moon", 1, seen="easily", eyepiece_mm=None)
BARE = _seen("Mu Cephei", 2, aperture_mm=None, focal_length_mm=None)


@pytest.fixture
def home(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Return a home of its own, not made yet."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def three(home: Path) -> Path:
    """Return a home in whose log three things are."""
    for observation in (RING, MOON, BARE):
        write_down(log_path(home), observation)
    return home


def _out(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["log", *arguments]) == 0
    captured = capsys.readouterr()
    assert captured.err == ""
    return captured.out


def test_an_empty_log(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    """An empty list, a line that says how to fill it, exports that hold nothing; nothing is made by looking."""
    assert json.loads(_out(capsys, "--json")) == []
    assert "Nothing is written down yet" in _out(capsys)
    assert json.loads(_out(capsys, "--export", "json")) == []
    assert len(_out(capsys, "--export", "csv").splitlines()) == 1
    assert "<oal:observations" in _out(capsys, "--export", "oal")
    assert not home.exists()


@pytest.mark.usefixtures("three")
def test_the_list_for_programs(capsys: pytest.CaptureFixture[str]) -> None:
    """The fields that are promised and no others, one document on one line, times with the site's offset, the oldest first."""
    out = _out(capsys, "--json")
    assert out.count("\n") == 1
    ring, moon, bare = json.loads(out)
    assert [list(entry) for entry in (ring, moon, bare)] == [FIELDS] * 3
    assert (ring["time"], ring["target"], ring["catalogue"]) == ("2026-07-10T00:00:00-03:00", "Ring Nebula", "M 57")
    assert (ring["eyepiece_mm"], ring["seen"]) == (9.7, "just")
    assert ring["note"] == "Round, single stars in it. The air: steadiness four, clearness two, out of five."
    assert (moon["catalogue"], moon["eyepiece_mm"], moon["seen"], moon["note"]) == (None, None, "easily", None)
    assert bare["seen"] is None


@pytest.mark.usefixtures("three")
def test_the_list_for_people(capsys: pytest.CaptureFixture[str]) -> None:
    """A line each, as the evening would tell it."""
    first, *others = _out(capsys).splitlines()
    assert len(others) == 2
    assert first == (
        "Friday the tenth of July, midnight. Ring Nebula, Messier fifty-seven. High in the south-east, seven fists up, with the nine point "
        "seven millimetre eyepiece. It only just showed. Round, single stars in it. The air: steadiness four, clearness two, out of five."
    )


@pytest.mark.usefixtures("three")
def test_exports_lose_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    """JSON and CSV hold the promised fields and all else that is known, each with the same figures."""
    entries = json.loads(_out(capsys, "--export", "json"))
    rows = list(csv.DictReader(io.StringIO(_out(capsys, "--export", "csv"))))
    assert len(entries) == len(rows) == 3
    for entry, line in zip(entries, rows, strict=True):
        assert entry.keys() == line.keys() >= set(FIELDS)
        assert float(line["altitude_deg"]) == entry["altitude_deg"]
        assert line["place"] == SITE.name
    assert (entries[0]["looks"], rows[0]["looks"], rows[1]["eyepiece_mm"]) == (["round", "single stars"], "round, single stars", "")
    assert (entries[0]["steadiness"], entries[0]["clearness"], entries[0]["aperture_mm"]) == (4, 2, 200)


@pytest.mark.usefixtures("three")
def test_two_formats_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    """One line, exit 2; also for a format nobody knows."""
    for wrong in (["--export", "oal", "--json"], ["--export", "xml"], ["remove"]):
        assert main(["log", *wrong]) == 2
        captured = capsys.readouterr()
        assert captured.out == ""
        assert captured.err.startswith("companion: error: ")
        assert captured.err.count("\n") == 1


def test_a_damaged_line_is_told(capsys: pytest.CaptureFixture[str], three: Path) -> None:
    """What can be read is listed; that something can't be is said aside."""
    log_path(three).write_bytes(log_path(three).read_bytes()[:-5])
    assert main(["log", "--json"]) == 0
    captured = capsys.readouterr()
    assert len(json.loads(captured.out)) == 2
    assert "1 of its lines can't be read" in captured.err


# --- OpenAstronomyLog ------------------------------------------------------------------------------------------------


def _valid(document: str) -> ElementTree.Element:
    """Return the root of a document that its schema accepts, by a validator that isn't ours."""
    if not SCHEMA.exists():
        pytest.skip(f"the schema of OpenAstronomyLog isn't at {SCHEMA}")
    xmlschema = pytest.importorskip("xmlschema", reason="xmlschema, of the test extra, validates OpenAstronomyLog")
    xmlschema.XMLSchema(str(SCHEMA)).validate(document)
    return ElementTree.fromstring(document)


@pytest.mark.usefixtures("three")
def test_open_astronomy_log_is_valid(capsys: pytest.CaptureFixture[str]) -> None:
    """The schema accepts it, and what it says is what was seen: steadiness the other way round, the zone without daylight saving."""
    root = _valid(_out(capsys, "--export", "oal"))
    assert root.get("version") == "2.1"
    ring, moon, bare = root.findall("observation")
    assert (ring.findtext("begin"), ring.findtext("seeing"), ring.findtext("magnification")) == ("2026-07-10T03:00:00+00:00", "2", "103.1")
    assert (moon.find("eyepiece"), bare.find("scope"), bare.find("seeing")) == (None, None, None)
    result = ring.find("result")
    assert result is not None
    assert (result.get("resolved"), result.findtext("rating"), result.get("lang")) == ("true", "5", "en")
    assert "It only just showed. Round, single stars in it." in (result.findtext("description") or "")
    target = next(entry for entry in root.findall("targets/target") if entry.get("id") == ring.findtext("target"))
    assert (target.findtext("name"), target.findtext("alias")) == ("M 57", "Ring Nebula")
    # NGC 6720 at 18h 53m 35.1s, +33 01 45: SIMBAD, value from memory.
    assert float(target.findtext("position/ra") or "nan") == pytest.approx(283.396, abs=0.01)
    assert float(target.findtext("position/dec") or "nan") == pytest.approx(33.029, abs=0.01)
    site = root.find("sites/site")
    assert site is not None
    assert (site.findtext("name"), site.findtext("timezone"), site.findtext("longitude")) == (SITE.name, "-240", "-67.52")


def test_every_kind_of_thing_is_valid() -> None:
    """Each kind of target, a star of the observer's own list with characters no XML has, a place without a name, a large eyepiece."""
    names = (
        "Vega",
        "Albireo",
        "La Superba",
        "Mira",
        "Jupiter",
        "Moon",
        "M 13",
        "Pleiades",
        "M 31",
        "M 42",
        "M 57",
        "Sagittarius Star Cloud",
    )
    seen = [_seen(name, 0, seen=how) for name in names for how in ("easily", "suspected", "not at all", None)]
    own = Body("My \x01 one", "user", 9.0, place=Place(10.0, 20.0))
    seen.append(observed(own, Moment(replace(SITE, name=None), START), Instrument(60, 30), 40.0))
    root = _valid(open_astronomy_log(seen, lambda _: "words", sky.find, "en"))
    assert len(root.findall("observation")) == len(seen)
    assert len(root.findall("targets/target")) == len(names) + 1
    assert root.findall("targets/target")[-1].find("position") is None


def test_each_night_at_a_site_is_a_session() -> None:
    """Before and after midnight is one night, the next evening and another site are others; each from its first to its last time."""
    # Noon by the mean Sun, longitude over fifteen from that of Greenwich, parts the nights: at 67.52 degrees west it is 16:30 UTC.
    there = replace(SITE, longitude_deg=112.48, name="Far")
    seen = [_seen("Vega", hours) for hours in (13.4, 0, -3, 13.6, 24)]
    seen += [replace(_seen("Vega", hours), site=there) for hours in (1, 1.4, 1.6)]
    root = _valid(open_astronomy_log(seen, lambda _: "words", sky.find, "en"))
    sessions = {entry.get("id"): entry for entry in root.findall("sessions/session")}
    told = [sessions[entry.findtext("session")] for entry in root.findall("observation")]
    assert [told.index(session) for session in told] == [0, 0, 0, 3, 3, 5, 5, 7]
    assert len(sessions) == 4
    assert (told[0].findtext("begin"), told[0].findtext("end")) == ("2026-07-10T00:00:00+00:00", "2026-07-10T16:24:00+00:00")
    assert (told[7].findtext("begin"), told[7].findtext("end")) == ("2026-07-10T04:36:00+00:00",) * 2
    assert [entry.findtext("site") for entry in root.findall("observation")] == [session.findtext("site") for session in told]


# --- forgotten -------------------------------------------------------------------------------------------------------


def test_forgetting_leaves_nothing(capsys: pytest.CaptureFixture[str], three: Path) -> None:
    """No file of the home says any more what was seen: neither the log nor the journals of past evenings."""
    journal_path(three).with_name("evening-1.jsonl").write_text("Ring Nebula")
    with Journal(journal_path(three)) as journal:
        journal.append({"kind": "stage", "name": "targets", "time": START.isoformat()})
        journal.append({"kind": "noted", "what": "observed", "facts": {"observation": {"target": "Ring Nebula"}}})
        journal.append({"kind": "end"})
    assert "gone" in _out(capsys, "forget")
    assert not any(b"Ring" in file.read_bytes() for file in three.rglob("*"))
    assert json.loads(_out(capsys, "--json")) == []
    assert json.loads(_out(capsys, "forget", "--json")) == []


def test_forgetting_keeps_an_evening_that_isnt_over(capsys: pytest.CaptureFixture[str], three: Path) -> None:
    """The one that may still be gone on with keeps its journal, and that is said."""
    with Journal(journal_path(three)) as journal:
        journal.append({"kind": "stage", "name": "targets", "time": START.isoformat()})
        assert main(["log", "forget"]) == 2
        assert "another companion is already at work" in capsys.readouterr().err
    assert main(["log", "forget"]) == 0
    assert "that evening isn't over" in capsys.readouterr().err
    assert journal_path(three).exists()
    assert not log_path(three).exists()


def test_forgetting_nothing_makes_nothing(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    """Where nothing was ever written, forgetting is no error."""
    _out(capsys, "forget")
    assert not home.exists()
