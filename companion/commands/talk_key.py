"""The talk key of the observer's own: shown, chosen by pressing it, forgotten."""

from __future__ import annotations

import argparse
from dataclasses import replace

from companion.commands.options import language_of, profile_of, told
from companion.documents.profile_tables import KeyPreference
from companion.factories import open_voices
from companion.live.hand_key import next_key
from companion.live.preferred_sound import loudspeaker_opener
from companion.live.tell_aloud import tell_aloud
from companion.printing import Printer
from companion.profile import profile_path, write_profile
from companion.talk.command_phrases import NoKeyOfYourOwn, YourKeyIs
from companion.talk.machine_phrases import PressYourKey, YourKeyIsChosen
from companion.talk.saying import Say

DONE = 0
CHOOSE_SECONDS = 30.0


def show(options: argparse.Namespace) -> int:
    """Name the key that is used."""
    return _tell(options, profile_of(options).keys)


def choose(options: argparse.Namespace) -> int:
    """Wait for a key and remember it; what is asked and done is said, too."""
    language, profile, printer = language_of(options), profile_of(options), Printer(options.json)

    def say(saying: Say) -> None:
        tell_aloud(
            [language.plain_words(saying)], open_voices(profile.voice, language), printer.progress, loudspeaker_opener(profile.sound)
        )

    found = next_key(CHOOSE_SECONDS, lambda: say(PressYourKey()))
    chosen = KeyPreference(found.device, found.key)
    write_profile(replace(profile, keys=chosen), profile_path(options.profile), profile)
    say(YourKeyIsChosen())
    return _tell(options, chosen)


def forget(options: argparse.Namespace) -> int:
    """Forget the key."""
    profile = profile_of(options)
    if profile.keys != KeyPreference():
        write_profile(replace(profile, keys=KeyPreference()), profile_path(options.profile), profile)
    return _tell(options, KeyPreference())


def _tell(options: argparse.Namespace, key: KeyPreference) -> int:
    printer, saying = Printer(options.json), NoKeyOfYourOwn() if key.key is None else YourKeyIs(key.key, key.device or "")
    printer.lines(told(options, saying))
    printer.document({"device": key.device, "key": key.key})
    return DONE
