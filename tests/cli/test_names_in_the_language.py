"""Names given on the command line in the language that is spoken."""

from __future__ import annotations

import json

import pytest

from companion import observing, sky
from companion.cli import main
from companion.languages import load_language
from companion.languages.ko.spoken_names import known_towns, spoken_name

NIGHT = ("--language", "ko", "--lat", "37.5", "--lon", "127", "--at", "2027-01-05T20:00:00+09:00")


@pytest.mark.parametrize(
    ("called", "name"),
    [
        ("목성", "Jupiter"),
        ("오리온 대성운", "Orion Nebula"),
        ("메시에31", "Andromeda Galaxy"),
        ("엠 삼십일", "Andromeda Galaxy"),
        ("vega", "Vega"),
    ],
)
def test_where_something_is_by_its_korean_name(called: str, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """The usual Korean name does, spaced or not, and so does the sky's own."""
    assert main([*NIGHT, "where", called, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["name"] == name


def test_whatever_is_said_in_korean_is_found_by_that_name() -> None:
    """Each star, planet and showpiece is found by what we call it ourselves, and each town."""
    language = load_language("ko")
    for body in {*sky.nameable(), *sky.PLANETS, *(showpiece.body for showpiece in observing.rated_showpieces())}:
        assert sky.find(language.body_called(spoken_name(body.name))).name == sky.find(body.name).name
    for town, korean in known_towns().items():
        assert known_towns()[language.town_called(korean)] == known_towns()[town]


def test_a_town_by_its_korean_name(capsys: pytest.CaptureFixture[str]) -> None:
    """The profile is placed by it."""
    assert main(["--language", "ko", "profile", "near", "교토"]) == 0
    assert "Kyoto" in capsys.readouterr().out
