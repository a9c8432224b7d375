"""``companion profile``: shown, changed, placed and asked for on the command line."""

from __future__ import annotations

import io
import json
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from companion import places
from companion.cli import main
from companion.profile import load_profile


@pytest.fixture(autouse=True)
def home(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Return a home of its own for each test."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


def _document(capsys: pytest.CaptureFixture[str], *arguments: str) -> Any:
    assert main(["profile", *arguments, "--json"]) == 0
    out = capsys.readouterr().out
    assert out.count("\n") == 1
    return json.loads(out)


def _complaint(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """Return the one line a wrong request gets."""
    assert main(["profile", *arguments]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert captured.err.startswith("companion: error: ")
    assert captured.err.count("\n") == 1
    return captured.err


def test_no_profile_yet(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    """An empty document, or a line that says how to fill it; nothing is made by looking."""
    assert _document(capsys) == {}
    assert main(["profile", "show"]) == 0
    assert "companion profile ask" in capsys.readouterr().out
    assert not home.exists()


@pytest.mark.parametrize(
    ("key", "value", "kept"),
    [
        ("instrument.focal_length_mm", "1200", 1200.0),
        ("INSTRUMENT.Aperture_mm", "203.2", 203.2),
        ("instrument.eyepieces", "25, 9.7", [{"focal_length_mm": 25.0}, {"focal_length_mm": 9.7}]),
        (
            "instrument.eyepieces",
            "[{focal_length_mm = 25, apparent_field_deg = 60}]",
            [{"focal_length_mm": 25.0, "apparent_field_deg": 60.0}],
        ),
        ("instrument.has_diagonal", "yes", True),
        ("instrument.finder", "dot", "dot"),
        ("instrument.finder_field_deg", "6.5", 6.5),
        ("mount.star_choice", "List", "list"),
        ("mount.turns_by_hand", "false", False),
        ("mount.confirm_key", "1", "1"),
        ("mount.hours", "12", 12),
        ("observer.compass", "card", "card"),
        ("observer.compass", "true", "true"),
        ("observer.limits", "kneeling, reaching", ["kneeling", "reaching"]),
        ("observer.sight", "none", "none"),
        ("observer.eyes", "child", "child"),
        ("voice.words_per_minute", "180", 180),
    ],
)
def test_set_changes_one_key(capsys: pytest.CaptureFixture[str], home: Path, key: str, value: str, kept: object) -> None:
    """The key is in the file afterwards, as it is in the document printed and in the next one shown."""
    printed = _document(capsys, "set", key, value)
    table, name = key.lower().split(".")
    assert printed == {table: {name: kept}}
    assert tomllib.loads((home / "profile.toml").read_text("utf-8")) == printed
    assert _document(capsys) == printed


def test_set_horizon_and_engine(capsys: pytest.CaptureFixture[str]) -> None:
    """The two keys that belong to no table; a horizon may be one height."""
    assert _document(capsys, "set", "horizon", "15", "engine", "builtin") == {
        "engine": "builtin",
        "horizon": [{"from_azimuth_deg": 0.0, "to_azimuth_deg": 360.0, "altitude_deg": 15.0}],
    }
    document = _document(capsys, "set", "horizon", "[{from_azimuth_deg = 240, to_azimuth_deg = 290, altitude_deg = 30, what = 'barn'}]")
    assert [part["what"] for part in document["horizon"]] == ["barn"]


def test_a_place_moved_takes_its_zone_along(capsys: pytest.CaptureFixture[str]) -> None:
    """A latitude alone is no place yet; a place moved elsewhere gets the zone of there, unless one is given."""
    assert "longitude_deg: this is missing" in _complaint(capsys, "set", "site.latitude_deg", "46.31")
    place = ["site.latitude_deg", "46.31", "site.longitude_deg", "-67.52"]
    assert _document(capsys, "set", *place, "site.zone", "UTC")["site"]["zone"] == "UTC"
    assert _document(capsys, "set", "site.name", "42")["site"] == {
        "latitude_deg": 46.31,
        "longitude_deg": -67.52,
        "name": "42",
        "zone": "UTC",
    }
    assert "zone" not in _document(capsys, "set", "site.longitude_deg", "9.5")["site"]


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        (["set", "instrument.focal_length_mm"], "has no value"),
        (["set", "instrument.focal_length", "1200"], "instrument.focal_length_mm"),
        (["set", "telescope.length", "1200"], "mount.star_choice"),
        (["set", "instrument", "1200"], "instrument.aperture_mm"),
        (["set", "mount.star_choice", "mine"], "names, list, unnamed, one, body"),
        (["set", "instrument.finder", "red"], "dot, optical"),
        (["set", "instrument.finder_field_deg", "11"], "1 to 10 degrees"),
        (["set", "instrument.focal_length_mm", "long"], "must be a number"),
        (["set", "instrument.focal_length_mm", "-1"], "50 to 50000"),
        (["set", "instrument.focal_length_mm", "1\nmore = 2"], "must be a number"),
        (["set", "instrument.eyepieces", "25 mm"], "list"),
        (["set", "horizon", "woods"], "[[horizon]]"),
        (["set", "horizon", "[[0, 10]]"], "from_azimuth_deg"),
        (["set", "instrument.aperture_mm", "200", "observer.fist_deg", "3"], "6 to 13"),
        (["set", "mount.address", "file:///etc"], "no address of a mount"),
        (["frobnicate"], "show"),
        (["show", "--profile", "/nowhere/at/all.toml"], "no such profile"),
        (["near", "Nosuchtownanywhere"], "Nosuchtownanywhere"),
    ],
)
def test_wrong_requests_write_nothing(capsys: pytest.CaptureFixture[str], home: Path, arguments: Sequence[str], part: str) -> None:
    """One line that names the known keys or values, and no file, not even for the part that was right."""
    assert part in _complaint(capsys, *arguments)
    assert not (home / "profile.toml").exists()


def test_the_file_named_is_the_one_changed(capsys: pytest.CaptureFixture[str], home: Path, tmp_path: Path) -> None:
    """``--profile`` names the file, new or not; the one at home is left alone."""
    file = tmp_path / "mine.toml"
    _document(capsys, "set", "mount.hours", "12", "--profile", str(file))
    _document(capsys, "set", "observer.terse", "yes", "--profile", str(file))
    assert tomllib.loads(file.read_text("utf-8")) == {"mount": {"hours": 12}, "observer": {"terse": True}}
    assert not (home / "profile.toml").exists()


def test_what_is_passed_over_is_said(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Showing a profile with keys of the observer's own names them on standard error."""
    file = tmp_path / "mine.toml"
    file.write_text('[instrument]\ncolour = "blue"\n')
    assert main(["profile", "--profile", str(file)]) == 0
    assert "colour" in capsys.readouterr().err


def test_shown_for_a_person(capsys: pytest.CaptureFixture[str]) -> None:
    """A line a key, each key as ``set`` takes it."""
    _document(capsys, "set", "instrument.eyepieces", "25, 9.7", "site.latitude_deg", "46.31", "site.longitude_deg", "-67.52")
    assert main(["profile"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert "  site.latitude_deg: 46.31" in lines
    assert "  instrument.eyepieces: focal_length_mm 25; focal_length_mm 9.7" in lines


def test_near_a_town(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    """The site is the town's, in its own zone; what else the profile holds stays."""
    _document(capsys, "set", "mount.hours", "12")
    document = _document(capsys, "near", "nairobi")
    town = places.find_town("Nairobi")
    assert document["site"] == {"name": "Nairobi", "latitude_deg": town.latitude_deg, "longitude_deg": town.longitude_deg}
    assert document["mount"] == {"hours": 12}
    assert load_profile(str(home / "profile.toml")).site == town.site


def test_several_towns_of_a_name(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    """They are listed with their country, and the country tells them apart."""
    shared = next(town for town in places.towns() if len({other.country for other in places.towns_named(town.name)}) > 1)
    line = _complaint(capsys, "near", shared.name)
    for other in places.towns_named(shared.name):
        assert f"{other.name}, {other.country} (latitude {other.latitude_deg:.1f}" in line
    assert not (home / "profile.toml").exists()
    assert "in XX" in _complaint(capsys, "near", f"{shared.name}, XX")
    site = _document(capsys, "near", f"{shared.name},", shared.country.lower())["site"]
    assert site["latitude_deg"] == shared.latitude_deg


def _ask(monkeypatch: pytest.MonkeyPatch, *lines: str) -> int:
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(line + "\n" for line in lines)))
    return main(["profile", "ask"])


def test_the_interview_fills_the_profile(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, home: Path) -> None:
    """Typed answers, help and going back among them; what is skipped stays as it was."""
    _document(capsys, "set", "instrument.aperture_mm", "150", "mount.hours", "12")
    answers = ["skip this", "skip this", "help", "one two zero zero", "go back", "nine hundred", "yes", *["skip this"] * 20]
    assert _ask(monkeypatch, *answers) == 0
    captured = capsys.readouterr()
    assert "it:  Focal length nine zero zero millimetres. Is that right?" in captured.out
    kept = tomllib.loads((home / "profile.toml").read_text("utf-8"))
    assert kept == {"instrument": {"aperture_mm": 150, "focal_length_mm": 900}, "mount": {"hours": 12}}


@pytest.mark.parametrize("lines", [[], ["skip this"], ["good night"]])
def test_an_interview_without_answers_writes_nothing(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, home: Path, lines: Sequence[str]
) -> None:
    """The lines run out, or good night is said, before anything was answered: one line of complaint and no file."""
    assert _ask(monkeypatch, *lines) == 2
    assert "nothing was answered" in capsys.readouterr().err
    assert not (home / "profile.toml").exists()


@pytest.mark.parametrize("asked", ["i'm lost", "where was i", "where are we", "where is vega", "what's that bright one"])
def test_the_interview_can_be_asked(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, home: Path, asked: str) -> None:
    """Each question is answered; while no place is known, nothing is said of the sky as it stands elsewhere."""
    assert _ask(monkeypatch, asked) == 2
    captured = capsys.readouterr()
    assert "nothing was answered" in captured.err
    answer = captured.out.splitlines()[-1]
    assert "Without a place" in answer or "your place and equipment" in answer


@pytest.mark.parametrize("end", [[], ["good night"], ["what a lovely evening"]])
def test_an_interview_broken_off_keeps_what_was_answered(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, home: Path, end: Sequence[str]
) -> None:
    """The aperture is told and confirmed, then the lines run out or good night is said: it is kept, and that is said."""
    assert _ask(monkeypatch, "skip this", "one five zero millimetres", "skip this", "yes", *end) == 0
    assert "what you had answered is kept" in capsys.readouterr().out
    assert tomllib.loads((home / "profile.toml").read_text("utf-8"))["instrument"] == {"aperture_mm": 150}


def test_the_interview_keeps_each_answer_at_once(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, home: Path) -> None:
    """What was answered is in the file before the next question is; Ctrl-C ends with 130 and loses none of it."""
    seen: list[dict[str, object]] = []

    class Typed(io.StringIO):
        def readline(self, size: int = -1, /) -> str:
            file = home / "profile.toml"
            seen.append(tomllib.loads(file.read_text("utf-8")) if file.exists() else {})
            if line := super().readline(size):
                return line
            raise KeyboardInterrupt

    monkeypatch.setattr("sys.stdin", Typed("skip this\none five zero millimetres\nskip this\nyes\n"))
    assert main(["profile", "ask"]) == 130
    assert seen[-1] == {"instrument": {"aperture_mm": 150}}
    assert "what you had answered is kept" in capsys.readouterr().err
    assert tomllib.loads((home / "profile.toml").read_text("utf-8")) == {"instrument": {"aperture_mm": 150}}


def test_the_interview_takes_what_is_told_of_sight(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, home: Path) -> None:
    """Said in the middle of it, it is confirmed, kept with the rest and shown; who is alone again has no looker in the file."""
    assert _ask(monkeypatch, "I'm blind", "my child looks for me", *["skip this"] * 22) == 0
    captured = capsys.readouterr()
    assert "Then I say eyes when I mean the child" in captured.out
    assert "observer.eyes: child" in captured.out
    assert tomllib.loads((home / "profile.toml").read_text("utf-8")) == {"observer": {"sight": "none", "eyes": "child"}}
    assert _ask(monkeypatch, "I'm alone again", *["skip this"] * 22) == 0
    assert tomllib.loads((home / "profile.toml").read_text("utf-8")) == {"observer": {"sight": "none"}}
