"""No English is left outside its folder: in a language whose every word is a marker, an evening has no word that isn't one."""

from __future__ import annotations

import inspect
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from companion.cli import main
from companion.diagnosis import Cause, CauseFound
from companion.dialogue import Journal
from companion.equipment import NOTHING_KNOWN
from companion.languages import Chapter, Language, Scene
from companion.languages import language as language_module
from companion.live import Session, hold_typed
from companion.observing import RankedTarget
from companion.sky import Body, Moment, Sight, Site
from companion.talk import every_ask, every_rule, every_say
from companion.talk.saying import Answers, Ask, Say
from tests.english import ENGLISH, VOCABULARY
from tests.evenings.script import Script, scripts

MARKER = re.compile(r"«[a-z-]+»")
HERE = ("--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-16T00:30:00Z")


def marked(saying: type[Say] | type[Ask[Answers]]) -> object:
    """Return words for a sentence that are its own name as a marker, and take its facts as English does."""
    english, marker = ENGLISH.book.phrases[saying], f"«{saying.code()}»"
    if isinstance(english, str):
        return marker

    def words(scene: Scene, **facts: object) -> str:
        return marker

    words.__signature__ = inspect.signature(english)  # type: ignore[attr-defined]
    return words


class MarkedSky:
    """Sky words that are markers."""

    sun_caution = "«caution»"

    def describe(self, sight: Sight, moment: Moment) -> str:
        """Return a marker."""
        return "«sight»"

    def introduce(self, target: RankedTarget, moment: Moment) -> str:
        """Return a marker."""
        return "«target»"

    def look_for(self, body: Body, moment: Moment) -> str | None:
        """Return a marker."""
        return "«look»"

    def reasons(self, codes: tuple[str, ...]) -> list[str]:
        """Return a marker for each."""
        return ["«reason»" for _ in codes]

    def warning(self, code: str | None) -> str | None:
        """Return a marker for a warning."""
        return None if code is None else "«warning»"

    def explain(self, found: CauseFound) -> str:
        """Return a marker."""
        return "«cause»"

    def sum_up(self, found: CauseFound) -> str:
        """Return a marker."""
        return "«cause»"

    def what_would_decide(self, causes: Sequence[CauseFound]) -> str | None:
        """Return a marker."""
        return "«check»"

    def remedy(self, cause: Cause) -> str:
        """Return a marker."""
        return "«remedy»"

    def night_lines(self, times: Mapping[str, datetime | None], zone: str) -> list[str]:
        """Return a marker."""
        return ["«night»"]

    def moon_line(self, lit: float, rises: datetime | None, sets: datetime | None) -> str:
        """Return a marker."""
        return "«moon»"

    def place_line(self, altitude_deg: float, azimuth_deg: float, constellation: str) -> str:
        """Return a marker."""
        return "«figure»"


MARKED: Language = replace(
    ENGLISH,
    code="xx",
    book=Chapter(
        phrases={saying: marked(saying) for saying in (*every_say(), *every_ask())},  # type: ignore[misc]
        sayable=dict.fromkeys(every_rule(), ("«words»",)),
        step_help=dict.fromkeys(every_ask(), "«help»"),
    ),
    sky=MarkedSky(),
    rehearsed=lambda finished, understood, refused: ["«rehearsed»"],
)


def strange_words(said: str) -> str:
    """Return what is left of words when the markers are taken out."""
    return MARKER.sub("", said).strip()


@pytest.mark.parametrize("path", scripts(), ids=lambda path: path.stem)
def test_an_evening_in_a_language_of_markers(path: Path) -> None:
    """Whatever is answered in the written evenings, all that is said to it comes from the language that was handed in."""
    script = Script.read(path)
    said = [line.removeprefix("it:  ") for line, _ in script.played(VOCABULARY, MARKED) if line.startswith("it:")]
    assert len(said) > 10
    assert not [words for words in said if strange_words(words)]


def test_a_typed_session_in_a_language_of_markers(tmp_path: Path) -> None:
    """Help, silence, the voice, a broken-off evening and leaving: the session's own words are the language's, too."""
    said: list[str] = []

    def lines() -> Iterator[str]:
        yield from ("help", "help", "help", "xyzzy", "xyzzy", "xyzzy", "", "slow down", "what did you hear", "I'm lost", "yes")

    for answers in (lines(), iter(("yes", "good night", "yes"))):
        with Journal(tmp_path / "evening.jsonl") as journal:
            clock = lambda: datetime(2026, 10, 15, 22, 0, tzinfo=UTC)  # noqa: E731 - stands for the clock
            site = Site(46.31, -67.52, zone="America/Moncton")
            session = Session(site, clock, journal, NOTHING_KNOWN, language=MARKED)
            hold_typed(session, VOCABULARY, answers, said.append)
    assert "«go-on-there»" in " ".join(said)
    assert not [words for words in said if strange_words(words)]


@pytest.mark.parametrize(
    ("arguments", "keys"),
    [
        (("where", "Vega"), ("spoken",)),
        (("what", "--azimuth", "250", "--altitude", "30"), ("spoken",)),
        (("stars",), ("spoken", "reasons")),
        (("tonight",), ("spoken", "look_for", "reasons")),
    ],
)
def test_the_single_commands_in_a_language_of_markers(
    arguments: tuple[str, ...], keys: tuple[str, ...], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What a command gives for the ear comes from the language named."""
    monkeypatch.setattr(language_module, "load_language", lambda code: MARKED)
    monkeypatch.setattr("companion.commands.options.load_language", lambda code: MARKED)
    assert main([*arguments, *HERE, "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    entries = document if isinstance(document, list) else [document]
    assert entries
    for entry in entries:
        for key in keys:
            assert not strange_words(" ".join(entry[key]) if isinstance(entry[key], list) else entry[key]), (key, entry[key])


@pytest.mark.parametrize("arguments", [("where", "Vega"), ("night",), ("settings",), ("declination",)])
def test_what_a_command_prints_in_a_language_of_markers(
    arguments: tuple[str, ...], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What it prints for a person comes from the language named, too."""
    monkeypatch.setattr(language_module, "load_language", lambda code: MARKED)
    monkeypatch.setattr("companion.commands.options.load_language", lambda code: MARKED)
    assert main([*arguments, *HERE]) == 0
    assert not strange_words(capsys.readouterr().out)
