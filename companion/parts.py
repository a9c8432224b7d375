"""Chooses the engine that listens and the voice that speaks, by name."""

from __future__ import annotations

from importlib import resources
from pathlib import Path

from companion.errors import BadRequest
from companion.hearing import BuiltinEngine, Engine
from companion.profile import VoicePreference
from companion.speaking import CachedVoice, Pronunciations, Voice, read_pronunciations
from companion.speaking import open_voice as open_plain_voice

ENGINES = ("auto", "builtin")
VOICE_CHOICES = ("hibari", "pyttsx3")
_PRONUNCIATIONS = Path(str(resources.files("companion.wording"))) / "pronunciation_en.csv"


def open_engine(name: str, model: Path | None = None) -> Engine:
    """Open a recogniser: ``auto`` and ``builtin`` are the one that needs no download, with another model directory if given."""
    if name not in ENGINES:
        raise BadRequest(f"there is no engine '{name}'; choose one of: {', '.join(ENGINES)}")
    return BuiltinEngine.load(model)


def open_voice(preference: VoicePreference, language: str = "en") -> Voice:
    """Open the voice that is preferred; sentences said before come from memory."""
    said = read_pronunciations(_PRONUNCIATIONS) if language == "en" else Pronunciations()
    return CachedVoice(open_plain_voice(preference.name, language=language, rate_wpm=preference.words_per_minute, pronunciations=said))
