"""Chooses the engine that listens and the voice that speaks, by name."""

from __future__ import annotations

from dataclasses import replace
from importlib import resources
from pathlib import Path

from companion.documents.profile_tables import VoicePreference
from companion.errors import BadRequest, MissingPart
from companion.hearing import ActiveSet, Engine, WhisperEngine
from companion.hearing.vosk import VoskEngine, installed_model
from companion.speaking import CachedVoice, Pronunciations, Voice, read_pronunciations
from companion.speaking import open_voice as open_plain_voice
from companion.user_files import home

ENGINES = ("auto", "builtin", "vosk")
VOICE_CHOICES = ("hibari", "pyttsx3")
_PRONUNCIATIONS = Path(str(resources.files("companion.languages.en"))) / "pronunciation.csv"


def open_engine(name: str, model: Path | None = None, language: str = "en", known: ActiveSet | None = None) -> Engine:
    """Open a recogniser.

    ``vosk`` takes the model directory given, or the one installed for the language; ``builtin`` the weights that came with it, or
    another directory of them. ``auto`` is Vosk where a model for the language is installed, else the built-in one. ``known`` are all
    commands of an evening: Vosk needs them as decoys, so that a word for another question isn't taken for an answer to this one.
    """
    if name not in ENGINES:
        raise BadRequest(f"there is no engine '{name}'; choose one of: {', '.join(ENGINES)}")
    installed = installed_model(language, home()) if name != "builtin" and model is None else None
    if name == "vosk" and model is None and installed is None:
        raise MissingPart(f"no Vosk model for '{language}' is installed; give --model DIR, or: companion model get {language}")
    vosk_model = model if name == "vosk" and model is not None else installed
    if vosk_model is None:
        return WhisperEngine.load(model)
    engine = VoskEngine.load(vosk_model)
    if known is not None:
        engine.set_decoys(known)
    return engine


def open_voice(preference: VoicePreference, language: str = "en") -> Voice:
    """Open the voice that is preferred; sentences said before come from memory."""
    said = read_pronunciations(_PRONUNCIATIONS) if language == "en" else Pronunciations()
    return CachedVoice(open_plain_voice(preference.name, language=language, rate_wpm=preference.words_per_minute, pronunciations=said))


def open_voices(preference: VoicePreference, language: str = "en") -> list[Voice]:
    """Open the voice that is preferred and, behind it, those that can stand in for it."""
    preferred = open_voice(preference, language)
    others = [name for name in VOICE_CHOICES if not preferred.name.startswith(name) and (name != "hibari" or language.startswith("en"))]
    return [preferred, *(open_voice(replace(preference, name=name), language) for name in others)]
