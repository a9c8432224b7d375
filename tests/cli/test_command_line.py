"""The command line as its users rely on it: fields, exit codes, one line of complaint."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from datetime import datetime
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import soundfile

from companion import sky
from companion.cli import main

HERE = ["--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T19:30:00-03:00"]
FIRST_EVENING = Path(__file__).parent.parent.parent / "audio_fixtures" / "first_evening"


def _document(capsys: pytest.CaptureFixture[str], *arguments: str) -> Any:
    assert main([*arguments, "--json"]) == 0
    out = capsys.readouterr().out
    assert out.count("\n") == 1
    return json.loads(out)


def _complaint(capsys: pytest.CaptureFixture[str], *arguments: str, code: int = 2) -> str:
    """Return the one line a wrong request gets."""
    assert main(list(arguments)) == code
    captured = capsys.readouterr()
    assert captured.err.startswith("companion: error: ")
    assert captured.err.count("\n") == 1
    return captured.err


@pytest.mark.parametrize(
    ("command", "fields"),
    [
        (["where", "vega"], {"name", "altitude_deg", "azimuth_deg", "magnitude", "constellation", "spoken"}),
        (["declination"], {"declination_deg", "model", "epoch_valid", "warning"}),
        (
            ["settings"],
            {
                "local_date",
                "local_time",
                "utc_offset_hours",
                "standard_offset_hours",
                "daylight_saving",
                "latitude_dms",
                "longitude_dms",
                "declination_deg",
            },
        ),
        (
            ["night"],
            {
                "sunset",
                "civil_dusk",
                "nautical_dusk",
                "astronomical_dusk",
                "astronomical_dawn",
                "nautical_dawn",
                "civil_dawn",
                "sunrise",
                "moon",
            },
        ),
    ],
)
def test_documents_have_their_fields(capsys: pytest.CaptureFixture[str], command: list[str], fields: set[str]) -> None:
    """One JSON document with exactly the fields that were promised."""
    assert set(_document(capsys, *command, *HERE)) == fields


@pytest.mark.parametrize(
    ("command", "fields"),
    [
        (["stars", "--count", "3"], {"name", "altitude_deg", "azimuth_deg", "magnitude", "score", "reasons", "spoken"}),
        (
            ["tonight", "--count", "3"],
            {
                "name",
                "catalogue",
                "kind",
                "magnitude",
                "altitude_deg",
                "azimuth_deg",
                "best_time",
                "sets_at",
                "score",
                "rating",
                "margin_mag",
                "eyepiece_mm",
                "look_for",
                "reasons",
                "spoken",
            },
        ),
        (
            ["what", "--azimuth", "180", "--altitude", "50"],
            {"name", "kind", "magnitude", "altitude_deg", "azimuth_deg", "distance_deg", "spoken"},
        ),
    ],
)
def test_lists_have_their_fields(capsys: pytest.CaptureFixture[str], command: list[str], fields: set[str]) -> None:
    """A list of entries, none below the horizon."""
    entries = _document(capsys, *command, *HERE)
    assert entries
    for entry in entries:
        assert set(entry) == fields
        assert entry["altitude_deg"] > 0


def test_times_carry_the_sites_offset(capsys: pytest.CaptureFixture[str]) -> None:
    """Moncton is three hours behind UTC in October: Atlantic Daylight Time, IANA tz database."""
    night = _document(capsys, "night", *HERE)
    assert night["sunset"].endswith("-03:00")
    assert len(night["sunset"]) == len("2026-10-15T18:43:29-03:00")


def test_the_sun_is_only_a_caution(capsys: pytest.CaptureFixture[str]) -> None:
    """No direction is spoken for the Sun; a planet close to a risen Sun carries the caution too."""
    spoken = _document(capsys, "where", "Sun", *HERE)["spoken"]
    assert "blinds" in spoken
    assert "west" not in spoken
    # 2026-10-24: Venus at inferior conjunction, 6 degrees from the Sun (computed; DE421)
    near = _document(capsys, "where", "Venus", *HERE[:4], "--at", "2026-10-24T13:00:00-03:00")["spoken"]
    assert near.startswith(spoken)


def test_the_list_of_stars_says_by_day_that_the_sun_is_up(capsys: pytest.CaptureFixture[str]) -> None:
    """At noon the caution comes before the stars; at night there is none."""
    for hour, cautioned in (("12", True), ("22", False)):
        assert main(["stars", *HERE[:4], "--at", f"2026-10-15T{hour}:00:00-03:00"]) == 0
        assert capsys.readouterr().out.startswith("The Sun is up. Keep the caps on") is cautioned


@pytest.mark.parametrize(
    ("latitude", "at", "told"),
    [
        ("70", "2026-06-15T14:00:00+02:00", "The Sun doesn't set tonight."),
        ("65.6", "2026-06-15T14:00:00+02:00", "It won't get fully dark tonight."),
        ("48", "2026-06-15T14:00:00+02:00", "Tonight it's fully dark"),
        ("48", "2026-01-15T21:00:00+01:00", "Tomorrow night it's fully dark"),
        ("48", "2026-01-16T02:00:00+01:00", "Tonight it's fully dark"),
    ],
)
def test_prepare_says_which_night_it_means(capsys: pytest.CaptureFixture[str], latitude: str, at: str, told: str) -> None:
    """A night that begins after midnight, or whose Sun doesn't set, is the one of the evening before."""
    assert main(["prepare", "--lat", latitude, "--lon", "20", "--at", at]) == 0
    assert capsys.readouterr().out.startswith(told)


def test_names_in_any_case_and_options_before_the_command(capsys: pytest.CaptureFixture[str]) -> None:
    """Capitals and the order of common options don't matter."""
    assert main([*HERE, "--json", "where", "VEGA"]) == 0
    assert json.loads(capsys.readouterr().out) == _document(capsys, "where", "vega", *HERE)


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        (["where", "Vegaa", *HERE], "did you mean Vega"),
        (["where", "Vega", "--lat", "95", "--lon", "0"], "latitude"),
        (["where", "Vega", "--lat", "nan", "--lon", "0"], "latitude"),
        (["where", "Vega", "--lat", "45"], "--lon"),
        (["where", "Vega", *HERE[:4], "--at", "2026-10-15T19:30:00"], "offset"),
        (["where", "Vega", *HERE[:4], "--at", "yesterday"], "ISO 8601"),
        (["where", "Vega", *HERE[:4], "--at", "2070-01-01T00:00:00Z"], "2053"),
        (["where", *HERE], "NAME"),
        (["what", "--azimuth", "x"], "companion what --help"),
        (["say", "yes " * 1000], "in another call"),
        (["frobnicate"], "frobnicate"),
        ([], "COMMAND"),
        (["stars", "--count", "0", *HERE], "--count"),
        (["where", "Vega", "--profile", "/nowhere/at/all.toml"], "no such profile"),
        (["rehearse", "no_such_scenario"], "first_evening"),
        (["hear", "x.wav", "--engine", "magic"], "builtin"),
        (["hear", "x.wav", "--grammar", "/nowhere.jsgf"], "/nowhere.jsgf"),
        (["hear", "x.wav", "--rule", "nosuch"], "yes_no"),
        (["start", "--text", *HERE, "--language", "xx"], "en"),
        (["model", "get", "xx"], "choose one of"),
        (["model", "fetch", "en"], "get"),
    ],
)
def test_wrong_requests_get_one_line(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path, arguments: list[str], part: str
) -> None:
    """Exit 2 and one line that says what is wrong and how to mend it."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    assert part in _complaint(capsys, *arguments)


def test_without_a_place_the_remedy_is_said(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The place is needed, and how to give it is in the line."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    assert "--lat" in _complaint(capsys, "where", "Vega")


def test_a_profile_at_home_gives_the_place(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """COMPANION_HOME/profile.toml is read without being named; --lat and --lon replace its site and its zone."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    (tmp_path / "profile.toml").write_text('[site]\nlatitude_deg = -33.4\nlongitude_deg = 149.6\nzone = "Australia/Sydney"\n')
    at = ["--at", "2026-12-20T12:00:00Z"]
    assert _document(capsys, "settings", *at)["utc_offset_hours"] == 11
    assert _document(capsys, "settings", *at, "--lat", "51.5", "--lon", "0")["utc_offset_hours"] == 0


@pytest.mark.parametrize(
    ("content", "part"),
    [
        ("site = 3", "table"),
        ("[site]\nlatitude_deg = 3", "longitude_deg"),
        ("[sight]", "known are"),
        ("[[[", "TOML"),
        ('[site]\nlatitude_deg = "x"', "number"),
    ],
)
def test_a_wrong_profile_is_named(capsys: pytest.CaptureFixture[str], tmp_path: Path, content: str, part: str) -> None:
    """The line names the file and what is wrong in it."""
    file = tmp_path / "mine.toml"
    file.write_text(content)
    line = _complaint(capsys, "where", "Vega", "--profile", str(file))
    assert str(file) in line
    assert part in line


def test_hear_reports_each_file_in_order(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Good, missing, empty, non-audio and over-long files each leave their line; bad ones make exit 2."""
    empty, text, long = tmp_path / "empty.wav", tmp_path / "text.wav", tmp_path / "long.wav"
    empty.write_bytes(b"")
    text.write_text("these are words, not sound\n" * 50)
    soundfile.write(long, np.zeros(16_000 * 31), 16_000)
    files = [str(next(FIRST_EVENING.glob("*-dead-centre.wav"))), str(tmp_path / "none.wav"), str(empty), str(text), str(long)]
    assert main(["hear", *files, "--rule", "eyepiece", "--json"]) == 2
    captured = capsys.readouterr()
    lines = [json.loads(line) for line in captured.out.splitlines()]
    assert [line["file"] for line in lines] == files
    assert [line["accepted"] for line in lines] == [True, False, False, False, False]
    assert (lines[0]["phrase"], lines[0]["command"], lines[0]["why"]) == ("dead centre", "centred", None)
    assert all(line["why"] for line in lines[1:])
    assert captured.err.startswith("companion: error: ")
    assert captured.err.count("\n") == 1
    assert set(lines[0]) == {"file", "accepted", "phrase", "command", "slots", "confidence", "why", "engine", "seconds"}


def test_hear_prints_one_page_on_a_folder(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Two recordings of an evening by two voices: a table as recorded and in each noise, by voice, and how sure it said it was.

    Files and a folder at once, neither, or a page as JSON are refused in a line.
    """
    said = {"yes": "clock_check", "dead centre": "eyepiece"}
    files = [next(FIRST_EVENING.glob(f"*-{words.replace(' ', '-')}.wav")) for words in said]
    rows = [f"{file},{words},{rule},{rule}" for file, (words, rule) in zip(files, said.items(), strict=True)]
    (tmp_path / "manifest.csv").write_text("\n".join(["file,words,rule,voice", *rows, ""]))
    assert main(["hear", "--bench", str(tmp_path)]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line[:22].strip() for line in lines[1:9:4]] == ["as recorded", "kitchen at 15 dB"]
    assert [line.split()[0] for line in lines[2:5]] == ["all", *said.values()]
    assert lines[2].split()[1:] == ["100.0%", "0.0%", "0.0%", "100.0%", "0.0%", "0.0%", "2"]
    assert "Brier score" in lines[-2]
    assert "--bench DIR" in _complaint(capsys, "hear")
    assert "--bench DIR" in _complaint(capsys, "hear", "x.wav", "--bench", str(tmp_path))
    assert "--json" in _complaint(capsys, "hear", "--bench", str(tmp_path), "--json")
    assert "manifest.csv" in _complaint(capsys, "hear", "--bench", str(tmp_path / "none"))


def test_hear_names_the_line_of_a_grammars_mistake(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A syntax error is told as file:line."""
    grammar = tmp_path / "broken.jsgf"
    grammar.write_text("#JSGF V1.0;\ngrammar broken;\npublic <a> = (yes | no;\n")
    assert f"{grammar}:3" in _complaint(capsys, "hear", "x.wav", "--grammar", str(grammar))


def test_hear_finds_imports_beside_the_grammar(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A grammar named by ``--grammar`` imports from the files beside it; what is missing there is told as file:line."""
    grammar = tmp_path / "mine.jsgf"
    grammar.write_text("#JSGF V1.0;\ngrammar mine;\nimport <places.place>;\npublic <a> = (dead | stone) <place>;\n")
    wav = str(next(FIRST_EVENING.glob("*-dead-centre.wav")))
    assert f"{grammar}:3: there is no places.jsgf" in _complaint(capsys, "hear", wav, "--grammar", str(grammar))
    (tmp_path / "places.jsgf").write_text("#JSGF V1.0;\ngrammar places;\npublic <place> = (centre | left | right) {spot};\n")
    heard = _document(capsys, "hear", wav, "--grammar", str(grammar))
    assert (heard["phrase"], heard["command"], heard["slots"]) == ("dead centre", "a", {"place": "spot"})


def test_say_writes_a_wav(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """The file holds as many seconds as are reported; a folder that isn't there is one line and leaves nothing."""
    out = tmp_path / "said.wav"
    document = _document(capsys, "say", "low in the east", "--out", str(out))
    assert document["seconds"] == pytest.approx(soundfile.info(out).duration, abs=0.01)
    _complaint(capsys, "say", "x", "--out", str(tmp_path / "no" / "folder.wav"))
    assert not (tmp_path / "no").exists()


def test_typed_evening_reads_lines_and_ends(tmp_path: Path) -> None:
    """``start --text`` holds the dialogue over standard input, one plain line an utterance, and ends when the lines do."""
    answers = "yes\nyes\nready\nhelp\nslow down\nsomething quite else\ngood night\nyes\n"
    command = [sys.executable, "-m", "companion", "start", "--text", *HERE]
    done = subprocess.run(
        command, input=answers, capture_output=True, text=True, check=False, env={"COMPANION_HOME": str(tmp_path), "PATH": ""}, timeout=60
    )
    assert done.returncode == 0, done.stderr
    lines = done.stdout.splitlines()
    assert all(line.startswith("it:  ") for line in lines)
    assert lines[0].startswith("it:  Good evening.")
    assert "it:  Here I only write: there is no voice to change." in lines
    assert lines[-1].endswith("Good night.")


def test_check_names_every_part_and_its_remedy(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Each part is tried; what is missing has a remedy, what is well has none; the parts an evening needs are well here."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    parts = _document(capsys, "check")
    assert all(set(part) == {"part", "ok", "required", "detail", "remedy"} for part in parts)
    assert all((part["remedy"] is None) == part["ok"] for part in parts)
    assert {"grammars", "sky", "built-in recogniser", "loudspeaker", "user files"} <= {part["part"] for part in parts}
    assert all(part["ok"] for part in parts if part["required"])


def test_a_required_part_that_is_missing_is_exit_3(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A home that can't be written fails the check, with the remedy on the one line."""
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / "file"))
    assert main(["check", "--json"]) == 3
    captured = capsys.readouterr()
    assert "COMPANION_HOME" in captured.err
    assert [part["ok"] for part in json.loads(captured.out) if part["part"] == "user files"] == [False]


def test_a_mistake_of_ours_is_one_line_and_a_log(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """An unexpected exception never shows its trace; the log file holds it."""

    def broken(*_: object) -> None:
        raise ZeroDivisionError("made to fail by this test")

    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    monkeypatch.setattr("companion.places.declination", broken)
    line = _complaint(capsys, "declination", *HERE, code=3)
    assert "ZeroDivisionError" in line
    assert "made to fail by this test" in (tmp_path / "companion.log").read_text("utf-8")


def test_vosk_without_a_model_says_how_to_get_one(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Nothing is fetched unasked: the engine is missing a part, exit 3, and the command that fetches it is named."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    assert "companion model get en" in _complaint(capsys, "hear", "x.wav", "--engine", "vosk", code=3)
    assert "x" in _complaint(capsys, "hear", "x.wav", "--engine", "vosk", "--model", str(tmp_path / "x"), code=3)


def test_model_get_without_a_network_is_exit_3(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path, no_network: list[str]
) -> None:
    """No network: one line with the remedy, and nothing half-fetched."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    assert main(["model", "get", "en"]) == 3
    assert "companion: error: " in capsys.readouterr().err.splitlines()[-1]
    assert not [path for path in tmp_path.rglob("*") if path.is_file()]
    assert no_network


ALTAIR = {"star": "Altair", "time": "2026-10-15T20:00:00-03:00"}
ALPHERATZ = {"star": "Alpheratz", "time": "2026-10-15T20:10:00-03:00"}
SITE = {"latitude_deg": 46.31, "longitude_deg": -67.52, "elevation_m": 180}
FIT_FIELDS = {
    "residuals_deg",
    "rms_deg",
    "tilt_deg",
    "azimuth_zero_deg",
    "altitude_index_deg",
    "separation_error_deg",
    "suspects",
    "predictions",
}


def test_diagnose_names_causes_with_words(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """All probabilities sum to 1, the likeliest comes first, and each cause explains itself and says its remedy."""
    file = tmp_path / "misses.json"
    misses = [{**ALTAIR, "right_deg": 11.0, "up_deg": 1.5}, {**ALPHERATZ, "right_deg": 8.0, "up_deg": 10.5}]
    file.write_text(json.dumps({"site": SITE, "time": ALTAIR["time"], "misses": misses}))
    causes = _document(capsys, "diagnose", str(file))["causes"]
    assert sum(cause["probability"] for cause in causes) == pytest.approx(1)
    assert [cause["probability"] for cause in causes] == sorted((cause["probability"] for cause in causes), reverse=True)
    fields = {"cause", "probability", "value", "members", "explanation", "remedy"}
    assert all(set(cause) == fields | ({"star"} if cause["cause"] == "wrong_star" else set()) for cause in causes)
    assert causes[0]["cause"] == "hour"
    assert causes[0]["explanation"].startswith("The clock is wrong by part of a day, about one hour too early; most likely daylight saving")


def test_diagnose_tells_a_person_three_causes_at_most(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Without ``--json`` each cause is one line with its remedy, and the last line says what would decide between them."""
    file = tmp_path / "misses.json"
    misses = [{**ALTAIR, "centred": True}, {**ALPHERATZ, "right_deg": 8.0, "up_deg": 10.5}]
    file.write_text(json.dumps({"site": SITE, "time": ALTAIR["time"], "misses": misses}))
    assert main(["diagnose", str(file)]) == 0
    *causes, deciding = capsys.readouterr().out.splitlines()
    assert 2 <= len(causes) <= 3
    assert all("%  " in line and line.endswith(".") for line in causes)
    assert deciding.startswith("What would decide: ")


def test_fit_finds_its_own_sightings(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """The fields are those promised, and a prediction of a sighted star is what the mount read there."""
    file = tmp_path / "sightings.json"
    read = [
        {**ALTAIR, "reported_azimuth_deg": 20, "reported_altitude_deg": 52},
        {**ALPHERATZ, "reported_azimuth_deg": 300, "reported_altitude_deg": 42},
    ]
    file.write_text(json.dumps({"site": SITE, "sightings": read, "find": ["Alpheratz"]}))
    found = _document(capsys, "fit", str(file))
    assert set(found) == FIT_FIELDS
    # With a byte order mark before it (EF BB BF, RFC 3629, section 6) it is the same request.
    file.write_bytes(b"\xef\xbb\xbf" + file.read_bytes())
    assert _document(capsys, "fit", str(file)) == found
    assert found["predictions"][0]["reported_azimuth_deg"] == pytest.approx(300, abs=1e-6)
    assert found["predictions"][0]["reported_altitude_deg"] == pytest.approx(42, abs=1e-6)


def test_fit_counts_from_one_for_a_person(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """The second of three sightings is another star: to a program number 1, counted from 0, to a person the second."""
    file = tmp_path / "sightings.json"
    stars = [ALTAIR, {**ALPHERATZ, "star": "Mirach"}, {**ALPHERATZ, "star": "Capella"}]
    site = sky.Site(SITE["latitude_deg"], SITE["longitude_deg"])
    read = []
    for star, true in zip(stars, ("Altair", "Alpheratz", "Capella"), strict=True):
        seen = sky.sight(sky.find(true), sky.Moment(site, datetime.fromisoformat(star["time"])), refraction=False)
        read.append({**star, "reported_azimuth_deg": seen.azimuth_deg, "reported_altitude_deg": seen.altitude_deg})
    file.write_text(json.dumps({"site": SITE, "sightings": read, "find": []}))
    assert _document(capsys, "fit", str(file))["suspects"][0]["sighting"] == 1
    assert main(["fit", str(file)]) == 0
    assert "sighting 2 of Mirach fits Alpheratz better" in capsys.readouterr().out


@pytest.mark.parametrize(("words", "says"), [("", "nothing to say"), ("  ", "nothing to say"), ("\U0001f600", "can be spoken")])
def test_nothing_is_not_said(capsys: pytest.CaptureFixture[str], tmp_path: Path, words: str, says: str) -> None:
    """Without words, or with none that can be spoken, nothing is written."""
    assert says in _complaint(capsys, "say", words, "--out", str(tmp_path / "nothing.wav"))
    assert not list(tmp_path.iterdir())


def test_a_conversation_is_no_document(capsys: pytest.CaptureFixture[str]) -> None:
    """What is said in turn can't be one JSON document."""
    assert "--json" in _complaint(capsys, "start", "--text", "--json", *HERE)


def test_no_direction_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    """A full circle has 360 degrees."""
    for azimuth in ("400", "-10", "nan"):
        assert "0 to 360" in _complaint(capsys, "what", f"--azimuth={azimuth}", "--altitude", "30", *HERE)


def test_by_day_the_caution_is_told_with_every_star_and_read_once(capsys: pytest.CaptureFixture[str]) -> None:
    """A program may speak any entry alone; a person reads the caution once, and no brightness that doesn't show."""
    noon = [*HERE[:4], "--at", "2026-10-15T13:00:00-03:00"]
    assert all(star["spoken"].startswith("Never look at the Sun") for star in _document(capsys, "stars", *noon))
    assert "hardly shows" in (mercury := _document(capsys, "where", "Mercury", *noon)["spoken"])
    assert "bright" not in mercury
    for command in (["stars"], ["what", "--azimuth", "190", "--altitude", "30"]):
        assert main([*command, *noon]) == 0
        assert capsys.readouterr().out.count("Sun, or near it") == (command != ["stars"])


@pytest.mark.parametrize("command", ["fit", "diagnose"])
@pytest.mark.parametrize(("text", "part"), [("{", "JSON"), ('{"site": NaN}', "NaN"), ("[]", "object"), ("{}", "site")])
def test_wrong_documents_are_named(capsys: pytest.CaptureFixture[str], tmp_path: Path, command: str, text: str, part: str) -> None:
    """A file that is no request is one line, naming the file or the field."""
    file = tmp_path / "wrong.json"
    file.write_text(text)
    assert part in _complaint(capsys, command, str(file))
    assert "path" in _complaint(capsys, command, str(tmp_path / "none.json"))


def test_a_person_is_told_in_words(capsys: pytest.CaptureFixture[str]) -> None:
    """Times, directions and settings are said as in an evening, with the zone and no figure; the document keeps its figures."""
    at = ("--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T20:10:00-03:00")
    for command in (["night"], ["settings"], ["declination"], ["where", "Andromeda", "galaxy"]):
        assert main([*command, *at]) == 0
        said = capsys.readouterr().out
        assert not re.search(r"\d", said), said
    assert main(["night", *at]) == 0
    said = capsys.readouterr().out
    assert said.startswith("By Moncton time:\nSunset: six forty-three in the evening.\n")
    # The IAU's three letters are for the document.
    assert main(["where", "Andromeda", "galaxy", *at]) == 0
    assert "In Andromeda, seventy-one degrees from north through east" in capsys.readouterr().out
