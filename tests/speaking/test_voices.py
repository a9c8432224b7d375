"""Choosing a voice."""

from __future__ import annotations

import importlib.util

import pytest

from companion.errors import BadRequest
from companion.speaking.hibari_voice import HibariVoice
from companion.speaking.pyttsx3_voice import Pyttsx3Voice
from companion.speaking.voices import open_voice

BOTH = ("hibari", "pyttsx3")


@pytest.mark.parametrize(
    ("choice", "language", "name"),
    [
        ("auto", "en", "hibari"),
        ("auto", "en-gb", "hibari"),
        ("auto", "de", "pyttsx3 de"),
        ("hibari", "en", "hibari"),
        ("pyttsx3", "en", "pyttsx3 en"),
        ("pyttsx3 en-us", "en", "pyttsx3 en-us"),
        (" pyttsx3  en-us ", "en", "pyttsx3 en-us"),
    ],
)
def test_choices(choice: str, language: str, name: str) -> None:
    """Auto is the neural voice where it speaks the language, pyttsx3 otherwise; a named voice is that voice."""
    known = BOTH if language.startswith("en") else ("pyttsx3",)
    assert open_voice(choice, language=language, known=known).name == name


def test_auto_without_the_neural_voice(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where it isn't installed, auto is pyttsx3 for English too."""
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None)
    assert open_voice("auto", known=BOTH).name == "pyttsx3 en"


@pytest.mark.parametrize("choice", ["", "Bob", "hibari emma", "auto en"])
def test_other_choices_are_refused(choice: str) -> None:
    """Anything else is a bad request that lists the choices."""
    with pytest.raises(BadRequest, match="choose auto, hibari, pyttsx3"):
        open_voice(choice, known=BOTH)


def test_rate_and_table_reach_the_voice() -> None:
    """What is asked for is what the voice has."""
    assert open_voice("hibari", known=BOTH, rate_wpm=200).rate_wpm == 200
    assert isinstance(open_voice("hibari", known=BOTH), HibariVoice)
    assert isinstance(open_voice("pyttsx3", known=BOTH), Pyttsx3Voice)
