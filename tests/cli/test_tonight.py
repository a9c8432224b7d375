"""What `companion tonight` makes of telescope, sky and daylight."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from companion.cli import main

PLACE = ("--lat", "48", "--lon", "16")
NEW_MOON = (*PLACE, "--at", "2027-01-07T21:00:00+01:00")
BY_DAY = (*PLACE, "--at", "2026-08-13T15:00:00+02:00")
SMALL = ("--aperture", "80", "--focal-length", "400", "--eyepieces", "25:60,10:50,5:50", "--sky", "20.8")
LARGE = ("--aperture", "300", "--focal-length", "1500", "--eyepieces", "32:60,15:50,8:50", "--sky", "20.8")


@pytest.fixture(autouse=True)
def home(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Give each call a home of its own."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    return tmp_path


def listed(capsys: pytest.CaptureFixture[str], *arguments: str) -> list[dict[str, Any]]:
    """Return the targets of a call."""
    assert main(["tonight", "--json", *arguments]) == 0
    found: list[dict[str, Any]] = json.loads(capsys.readouterr().out)
    return found


def test_the_telescope_decides(capsys: pytest.CaptureFixture[str]) -> None:
    """80 and 300 millimetres get different lists, their own eyepieces, and galaxies stand higher over the limit in the larger one."""
    small, large = listed(capsys, *NEW_MOON, *SMALL), listed(capsys, *NEW_MOON, *LARGE)
    assert [target["name"] for target in small] != [target["name"] for target in large]
    assert {target["eyepiece_mm"] for target in small} <= {25.0, 10.0, 5.0}
    assert {target["eyepiece_mm"] for target in large} <= {32.0, 15.0, 8.0}
    margins = [{target["catalogue"]: target["margin_mag"] for target in some} for some in (small, large)]
    assert margins[0]["M 81"] < margins[1]["M 81"]


def test_name_and_number_are_said(capsys: pytest.CaptureFixture[str]) -> None:
    """The Orion Nebula comes with its number, its own sentence and the eyepiece to take."""
    orion = next(target for target in listed(capsys, *NEW_MOON, *SMALL) if target["catalogue"] == "M 42")
    assert orion["name"] == "Orion Nebula"
    assert orion["spoken"].startswith("Orion Nebula, Messier forty-two: a nebula.")
    assert "; ten millimetre eyepiece." in orion["spoken"]
    assert orion["spoken"].endswith(orion["look_for"])
    assert orion["rating"] == 3


def test_what_nobody_told_is_said_to_be_assumed(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a telescope in the profile the assumed one is told: to a person first, to a program on standard error."""
    assert main(["tonight", *NEW_MOON]) == 0
    assert capsys.readouterr().out.startswith("Not all of your telescope is in the profile. I assume: Aperture one hundred millimetres.")
    assert main(["tonight", "--json", *NEW_MOON]) == 0
    assert "I assume" in capsys.readouterr().err
    assert main(["tonight", "--json", *NEW_MOON, *SMALL]) == 0
    assert capsys.readouterr().err == ""


def test_by_day_the_warning_comes_first(capsys: pytest.CaptureFixture[str]) -> None:
    """While the Sun is up each target is spoken of with the caution before it; where there is none, the caution is printed."""
    assert main(["tonight", *BY_DAY, *SMALL]) == 0
    assert "Never look at the Sun, or near it" in capsys.readouterr().out.splitlines()[0]
    before_sunset = listed(capsys, *PLACE, "--at", "2026-08-20T18:00:00+02:00", *SMALL)
    assert {target["kind"] for target in before_sunset} == {"moon", "planet"}
    assert all(target["spoken"].startswith("Never look at the Sun") for target in before_sunset)


def test_own_objects_are_ranked(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    """What the observer has listed is offered with the rest, without a sentence of ours."""
    (home / "objects.csv").write_text("name,ra,dec,magnitude,size\nFarm Road Cluster,5 30 0,+20 0 0,4.0,20\n", encoding="utf-8")
    own = next(target for target in listed(capsys, *NEW_MOON, *SMALL, "--count", "30") if target["kind"] == "user")
    assert own["name"] == "Farm Road Cluster"
    assert own["catalogue"] is None
    assert own["look_for"] is None
    assert own["margin_mag"] > 0.0
    assert "from your own list" in own["spoken"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--aperture", "5"), "--aperture 5.0 is not possible"),
        (("--focal-length", "nan"), "--focal-length nan is not possible"),
        (("--sky", "3"), "--sky 3.0 is not possible"),
        (("--eyepieces", "25"), "write millimetres:degrees"),
        (("--eyepieces", "25:60,"), "write millimetres:degrees"),
        (("--eyepieces", "500:60"), "--eyepieces 500.0 is not possible"),
    ],
)
def test_what_no_telescope_has_is_refused(capsys: pytest.CaptureFixture[str], arguments: tuple[str, str], said: str) -> None:
    """One line says what is wrong and how to mend it."""
    assert main(["tonight", *NEW_MOON, *arguments]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert said in captured.err
    assert captured.err.count("\n") == 1


FIELDS = {
    "name", "catalogue", "kind", "magnitude", "altitude_deg", "azimuth_deg", "best_time", "sets_at", "score", "rating", "margin_mag",
    "eyepiece_mm", "look_for", "reasons", "spoken",
}  # fmt: skip
KINDS = {
    "planet", "moon", "comet", "double star", "carbon star", "variable star", "star", "open cluster", "globular cluster", "galaxy",
    "nebula", "planetary nebula", "star cloud", "user",
}  # fmt: skip
TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d")


def is_time(told: str | None) -> bool:
    """Say whether something is a time with offset and seconds, or null."""
    return told is None or TIME.fullmatch(told) is not None


@pytest.mark.slow
@pytest.mark.parametrize(
    ("latitude", "longitude", "at"),
    [
        ("48", "16", "2027-01-07T21:00:00+01:00"),
        ("-35", "149", "2026-07-14T20:30:00+10:00"),
        ("69.6", "18.9", "2026-06-21T23:00:00+02:00"),
        ("69.6", "18.9", "2026-12-21T12:00:00+01:00"),
        ("90", "0", "2026-12-21T00:00:00Z"),
        ("-90", "0", "2026-12-21T00:00:00Z"),
        ("0", "37", "2027-05-06T20:30:00+03:00"),
        ("56", "-3", "2026-06-21T00:30:00+01:00"),
        ("46.3", "-67.5", "2026-10-10T14:00:00-03:00"),
        ("-77.8", "166.7", "2026-06-21T12:00:00+12:00"),
    ],
)
def test_every_field_everywhere(capsys: pytest.CaptureFixture[str], latitude: str, longitude: str, at: str) -> None:
    """The contract's fields, kinds, bounds and forms of time, from pole to pole, in the polar day and the polar night."""
    where = (f"--lat={latitude}", f"--lon={longitude}", "--at", at)
    targets = listed(capsys, "--count", "30", *where)
    assert main(["prepare", "--json", *where]) == 0
    night = json.loads(capsys.readouterr().out)
    assert set(night) == {"dark_from", "dark_until", "moon", "pack", "targets"}
    assert set(night["moon"]) == {"phase_deg", "illuminated_fraction", "rise", "set"}
    assert all(is_time(told) for told in (night["dark_from"], night["dark_until"], night["moon"]["rise"], night["moon"]["set"]))
    assert [target["score"] for target in targets] == sorted((target["score"] for target in targets), reverse=True)
    for target in (*targets, *night["targets"]):
        assert set(target) == FIELDS
        assert target["kind"] in KINDS
        assert TIME.fullmatch(target["best_time"])
        assert is_time(target["sets_at"])
        assert 0.0 <= target["score"] <= 1.0
        assert target["rating"] in (1, 2, 3)
        assert 10.0 <= target["altitude_deg"] <= 90.0
        assert 0.0 <= target["azimuth_deg"] < 360.0
        assert target["look_for"]
        assert (target["catalogue"] is None) == (target["kind"] in ("planet", "moon", "double star", "carbon star", "variable star"))


def test_what_stands_at_the_top_of_the_sky_is_told_for_later(capsys: pytest.CaptureFixture[str]) -> None:
    """It is hard to steer there, so it isn't listed now; a document has the list alone."""
    there = ("--lat", "-25", "--lon", "28", "--at", "2027-08-31T20:00:00+02:00", *SMALL)
    assert main(["tonight", "--count", "3", *there]) == 0
    assert "Messier twenty-two stands at the top of the sky" in capsys.readouterr().out
    assert len(listed(capsys, "--count", "3", *there)) == 3
