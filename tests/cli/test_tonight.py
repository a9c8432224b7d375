"""What `companion tonight` makes of telescope, sky and daylight."""

from __future__ import annotations

import json
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
