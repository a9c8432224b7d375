"""The neural English voice."""

from __future__ import annotations

import socket
import sys
from typing import Any, NoReturn

import numpy as np
import pytest

from companion.errors import BadRequest, MissingPart
from companion.speaking.hibari_voice import HibariVoice
from companion.speaking.pronunciation import Pronunciation, Pronunciations
from companion.speaking.pyttsx3_voice import Pyttsx3Voice

SENTENCE = "Turn the tube to the north until the needle points there."


@pytest.fixture(scope="module")
def voice() -> HibariVoice:
    """Load the voice once."""
    return HibariVoice()


def test_a_sentence_becomes_the_same_sound_every_time(voice: HibariVoice) -> None:
    """Eleven words take two to six seconds, and the breath noise is seeded."""
    audio = voice.render(SENTENCE)
    assert 2 < audio.seconds < 6
    np.testing.assert_array_equal(audio.samples, voice.render(SENTENCE).samples)


def test_it_needs_no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Loading and speaking open no socket."""

    def refuse(*_: Any, **__: Any) -> NoReturn:
        raise AssertionError("a socket was opened")

    monkeypatch.setattr(socket, "socket", refuse)
    monkeypatch.setattr(socket, "create_connection", refuse)
    assert HibariVoice().render("Yes.").seconds > 0


def test_the_rate_counts(voice: HibariVoice) -> None:
    """Twice the words a minute take about half the time."""
    seconds = {}
    for rate_wpm in (130, 260):
        voice.rate_wpm = rate_wpm
        seconds[rate_wpm] = voice.render(SENTENCE).seconds
    voice.rate_wpm = 165
    assert 0.4 < seconds[260] / seconds[130] < 0.65


def test_it_is_about_as_loud_as_the_other_voice(voice: HibariVoice) -> None:
    """Changing the voice doesn't change the loudness by more than 3 dB, and nothing clips."""
    ours, other = voice.render(SENTENCE).samples, Pyttsx3Voice("en-gb").render(SENTENCE).samples
    loudness_db = [20 * np.log10(np.sqrt(np.mean(samples[np.abs(samples) > 0.01] ** 2))) for samples in (ours, other)]
    assert abs(loudness_db[0] - loudness_db[1]) < 3
    assert np.abs(ours).max() < 1


@pytest.mark.parametrize(("phonemes", "ending"), [("ʃˈɛdɑɹ", "z"), ("sˈIf", "s"), ("stˈɑɹʃ", "ᵻz")], ids=["voiced", "voiceless", "hissing"])
def test_a_name_of_the_table_is_said_by_its_phonemes(phonemes: str, ending: str) -> None:
    """The table's phonemes reach the engine, also in the possessive and next to punctuation."""
    voice = HibariVoice(pronunciations=Pronunciations((Pronunciation("Xyzzy", phonemes, ""),)))
    voice.load()
    said = voice._engine.phonemize(voice._marked_up("XYZZY? Look at Xyzzy's."))
    assert said == [f"{phonemes}?", f"lˈʊk æt {phonemes}{ending}."]


@pytest.mark.parametrize("text", ["...", "[Yes](/nˈO/)", "A <b>bold</b> word", "\ud800", "Zwölf", "a\0b"])
def test_odd_text_is_read_as_plain_text(voice: HibariVoice, text: str) -> None:
    """Markup, also the engine's own, control characters and half characters are no reason to fail."""
    voice.render(text)
    assert "nˈO" not in voice._marked_up(text).partition("(")[0]
    assert "](/" not in voice._marked_up(text)


def test_a_blank_text_has_no_samples() -> None:
    """Nothing to say loads nothing."""
    voice = HibariVoice()
    assert len(voice.render(" \n").samples) == 0
    assert voice._engine is None


def test_impossible_settings_are_refused() -> None:
    """A rate or volume out of range is a bad request."""
    with pytest.raises(BadRequest, match="110 to 350"):
        HibariVoice(rate_wpm=20).render("Yes.")
    with pytest.raises(BadRequest, match="0 to 1"):
        HibariVoice(volume=-1).render("Yes.")


def test_a_missing_library_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the library the error says how to get it and what else to choose."""
    monkeypatch.setitem(sys.modules, "hibari", None)
    with pytest.raises(MissingPart, match="pip install hibari-tts"):
        HibariVoice().render("Yes.")


def test_it_can_be_closed_and_used_again(voice: HibariVoice) -> None:
    """Close forgets the model; the next sentence loads it again."""
    before = voice.render("Yes.").samples
    voice.close()
    assert voice._engine is None
    np.testing.assert_array_equal(voice.render("Yes.").samples, before)
