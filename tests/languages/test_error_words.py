"""What goes wrong is told in the language named: by ear wholly, in print with the English line and all its details behind it."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path

import pytest

from companion.cli import main
from companion.commands.spoken_trouble import saying_of
from companion.errors import AudioFileError, BadRequest, CompanionError, DeviceMissing, GrammarError, MissingPart, RecogniserMissing
from companion.languages import load_language
from companion.sky import Moment, Site

KOREAN = load_language("ko")
NOW = Moment(Site(37.5, 127.0), datetime(2027, 1, 9, 9, 20, tzinfo=UTC))
HANGUL, LATIN = re.compile("[가-힣]"), re.compile("[A-Za-z]{2,}")
HERE = ("--lat", "37.5", "--lon", "127.0", "--at", "2027-01-09T18:20:00+09:00")


@pytest.mark.parametrize(
    "call",
    [
        ("nonsense",),
        ("where",),
        ("where", "목성"),
        ("where", "목성", "--lat", "1"),
        ("where", "목성", "--lat", "97", "--lon", "0"),
        ("where", "목성", "--lat", "1", "--lon", "1", "--at", "어제"),
        ("where", "없는별", *HERE),
        ("profile", "near", "뭐뭐시"),
        ("diagnose", "/nowhere.json"),
        ("start", "--text", "--profile", "/nowhere.toml"),
        ("hear", "/nowhere.wav"),
        ("model", "get", "xx"),
    ],
    ids=" ".join,
)
@pytest.mark.parametrize("place", ["before", "after"])
def test_an_error_is_one_line_in_the_language_named(
    call: tuple[str, ...], place: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Wherever the language is named, even where the call makes no sense; the exit code and the English details are as ever."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    english = main(call)
    line = capsys.readouterr().err.splitlines()[-1].removeprefix("companion: error: ")
    named = ("--language", "ko")
    assert main((*named, *call) if place == "before" else (*call, *named)) == english > 0
    told = capsys.readouterr().err.splitlines()[-1]
    korean = told.removeprefix("companion: error: ").removesuffix(f" ({line})")
    assert told == f"companion: error: {korean} ({line})"
    assert HANGUL.search(korean)
    assert korean.endswith(("요.", "세요."))


def test_a_language_nobody_speaks_is_told_in_english(capsys: pytest.CaptureFixture[str]) -> None:
    """There are no other words for it."""
    assert main(("where", "목성", "--language", "zz", *HERE)) == 2
    assert capsys.readouterr().err == "companion: error: I don't speak the language 'zz'; choose one of: en, ko\n"


@pytest.mark.parametrize(
    "error",
    [
        BadRequest("a figure is wrong; give another"),
        MissingPart("a library is missing; install it"),
        CompanionError("something is wrong"),
        DeviceMissing("there is no microphone; plug one in", is_microphone=True),
        AudioFileError("the file is empty; record it again", file="/home/me/소리"),
        GrammarError("no rule is public", file="x.jsgf", line=1),
        MemoryError(),
        RuntimeError("a mistake of ours"),
    ],
    ids=lambda error: type(error).__name__,
)
def test_what_ends_an_evening_is_said_without_english(error: Exception) -> None:
    """Korean's voice can't say English, and who hears it may not understand it."""
    said = KOREAN.words(saying_of(error, KOREAN), NOW)
    assert HANGUL.search(said)
    assert not LATIN.search(said)


def test_a_missing_ear_is_said_with_what_brings_it() -> None:
    """The one name that must be typed is told as it is typed."""
    assert "dark-field-companion[ko]" in KOREAN.error_words(RecogniserMissing("no Vosk model; install one"))
