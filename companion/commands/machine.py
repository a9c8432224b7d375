"""The parts of this machine that an evening needs."""

from __future__ import annotations

import argparse
import contextlib
import sys
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import replace

from companion.commands.options import language_of, profile_of, told
from companion.commands.sound_choice import AnyKey, Chosen, choose_sound
from companion.doctor import PartChecked, check_parts
from companion.documents.profile_tables import Profile
from companion.errors import MissingPart
from companion.factories import open_engine, open_voices
from companion.hearing.vosk import get_model
from companion.languages import Language
from companion.lines import complain
from companion.live import open_terminal
from companion.live.preferred_sound import loudspeaker_opener
from companion.live.tell_aloud import tell_aloud
from companion.printing import Printer
from companion.profile import profile_path
from companion.talk.command_phrases import ModelIsIn
from companion.talk.live_phrases import LoudspeakerLost
from companion.talk.machine_phrases import EveryVoiceMissing, LoudspeakerMissing, NothingMissing, RemediesArePrinted
from companion.talk.saying import Say
from companion.user_files import home
from companion.vocabulary import load_vocabulary

DONE = 0
_WHY_IT_IS_SILENT: frozenset[Say] = frozenset({LoudspeakerMissing(), EveryVoiceMissing()})
"""Told first: whoever reads it wonders why nothing is heard."""


def check(options: argparse.Namespace) -> int:
    """Look at every part this machine needs, and name the remedies: in print and, where that is asked for, aloud."""
    language, profile, printer = language_of(options), profile_of(options), Printer(options.json)

    def show(text: str) -> None:
        printer.progress(f"it:  {text}")

    chosen = _chosen(options, language, profile, show) if options.aloud else Chosen(profile.sound, ())
    profile = replace(profile, sound=chosen.sound)
    parts = check_parts(language, profile)
    for part in parts:
        printer.lines(part.line(language))
    printer.document([part.document for part in parts])
    if options.aloud:
        _tell_what_is_missing(parts, language, profile, show)
    missing = next((part for part in parts if part.required and not part.ok), None)
    if missing:
        raise MissingPart(f"{missing.called}: {missing.remedy}")
    return DONE


def _chosen(options: argparse.Namespace, language: Language, profile: Profile, show: Callable[[str], None]) -> Chosen:
    """Choose microphone and loudspeaker with the observer, and tell what is used; where nothing can be tried, all stays as it was."""
    key, vocabulary = AnyKey(), load_vocabulary(language)

    def tell(saying: Say) -> str:
        words = language.plain_words(saying)
        show(words)
        return words

    try:
        with contextlib.ExitStack() as stack:
            typing = stack.enter_context(closing(open_terminal(sys.stdin, key.pressed))) if sys.stdin.isatty() else None
            chosen = choose_sound(
                profile,
                profile_path(options.profile),
                ear=(open_engine(profile.engine, language), vocabulary),
                voices=open_voices(profile.voice, language),
                tell=tell,
                key_pressed=None if typing is None else key.asked_of(typing),
            )
    except MissingPart:
        # What is missing is told with all else that is.
        return Chosen(profile.sound, ())
    news = [language.plain_words(saying) for saying in chosen.news]
    tell_aloud(news, open_voices(profile.voice, language), show, loudspeaker_opener(chosen.sound))
    return chosen


def _tell_what_is_missing(parts: Sequence[PartChecked], language: Language, profile: Profile, show: Callable[[str], None]) -> None:
    """Say what is missing, each with what helps; where nothing can be said, that is printed, too."""
    missing = sorted((part.aloud for part in parts if part.aloud is not None), key=lambda saying: saying not in _WHY_IT_IS_SILENT)
    sentences = [language.plain_words(saying) for saying in (*missing, RemediesArePrinted() if missing else NothingMissing())]
    spoken = tell_aloud(sentences, open_voices(profile.voice, language), show, loudspeaker_opener(profile.sound))
    if not spoken and not set(missing) & _WHY_IT_IS_SILENT:
        show(language.plain_words(LoudspeakerLost()))


def model(options: argparse.Namespace) -> int:
    """Fetch a recogniser's model: the one command that uses the internet."""
    directory = get_model(options.model_language, home(), complain)
    printer = Printer(options.json)
    printer.lines(told(options, ModelIsIn(str(directory))))
    printer.document({"model": str(directory)})
    return DONE
