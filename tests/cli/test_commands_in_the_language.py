"""What single commands print for a person is in the language named; commands, files and an error's details stay as they are."""

from __future__ import annotations

import re
from dataclasses import fields
from pathlib import Path
from typing import get_type_hints

import pytest

from companion.cli import main
from companion.commands import machine
from companion.doctor import PartChecked
from companion.languages import load_language
from companion.talk import command_phrases
from companion.talk.command_phrases import MachinePart
from companion.talk.machine_phrases import MicrophoneMissing
from companion.talk.saying import Say

KOREAN = load_language("ko")
HANGUL = re.compile("[가-힣]")
AS_TYPED = re.compile(r"'companion [^']*'|: (?:systemctl|loginctl|sudo) .*|systemd|root|'auto'|/\S+|\bHz\b|\bdB\b")
"""What is typed, or is a name of the machine's."""
LATIN = re.compile("[A-Za-z]{2,}")
SOME = {str: "/x", bool: True, int: 3, float: 4.5, float | None: -50.0, MachinePart: MachinePart.SKY}


def english_in(told: str) -> list[str]:
    """Return the Latin words of a line that nobody has to type."""
    return LATIN.findall(AS_TYPED.sub(" ", told))


@pytest.mark.parametrize(
    "saying",
    [kind for kind in vars(command_phrases).values() if isinstance(kind, type) and issubclass(kind, Say) and kind is not Say],
)
def test_each_line_is_korean(saying: type[Say]) -> None:
    """Whatever its facts are."""
    kinds = get_type_hints(saying)
    told = KOREAN.plain_words(saying(**{fact.name: SOME[kinds[fact.name]] for fact in fields(saying)}))
    assert HANGUL.search(told)
    assert not english_in(told)


@pytest.mark.parametrize("part", MachinePart)
def test_each_part_has_a_korean_name(part: MachinePart) -> None:
    """Well or missing."""
    for ok in (True, False):
        assert not english_in(PartChecked(part, ok, False, "좋아요", None, None).line(KOREAN))


@pytest.mark.parametrize(
    "call",
    [("profile", "show"), ("key",), ("log",), ("log", "forget"), ("autostart", "off"), ("say", "네", "--out", "/x/네.wav")],
    ids=" ".join,
)
def test_a_command_prints_korean(
    call: tuple[str, ...], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """With nothing stored yet."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    assert main(("--language", "ko", *(word.replace("/x", str(tmp_path)) for word in call))) == 0
    told = capsys.readouterr().out.splitlines()
    assert told
    assert all(HANGUL.search(line) and not english_in(line) for line in told), told


def test_questions_broken_off_are_told_in_korean(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """And what had been the place."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    for town in ("교토", "서울"):
        assert main(("--language", "ko", "profile", "near", town)) == 0
    before, *_ = [line for line in capsys.readouterr().out.splitlines() if "Kyoto" in line and HANGUL.search(line)]
    assert before.startswith("바꾸기 전의 장소예요: ")
    monkeypatch.setattr("companion.commands.profiles.bounded_lines", lambda _: iter(("서울 근처", "네")))
    assert main(("--language", "ko", "profile", "ask")) == 0
    assert "질문이 도중에 끝났어요. 대답하신 것은 남아 있어요." in capsys.readouterr().out


def test_what_is_missing_is_told_in_korean_with_the_details_behind(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """As errors are."""
    missing = PartChecked(MachinePart.MICROPHONE, False, False, "쓸 수 없어요", "plug one in", MicrophoneMissing())
    monkeypatch.setattr(machine, "check_parts", lambda *_: [missing])
    assert main(("--language", "ko", "check")) == 0
    assert capsys.readouterr().out == f"마이크: 없어요 (없어도 돼요); {KOREAN.plain_words(MicrophoneMissing())} (plug one in)\n"
