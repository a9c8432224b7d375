"""What ends an evening by voice is said, too: who started it may see no screen, or be the system at power-on."""

from __future__ import annotations

import argparse
import contextlib
import re
import sys
import time
from collections.abc import Iterator
from contextlib import closing

from companion import devices
from companion.commands.options import language_of, profile_of
from companion.dialogue import JournalError
from companion.documents.profile_tables import Profile
from companion.errors import CompanionError, with_remedy
from companion.factories import open_voices
from companion.languages import Language, load_language
from companion.live.preferred_sound import loudspeaker_opener
from companion.live.sound_at_power_on import WAIT_SECONDS, nobody_types
from companion.live.sound_devices import LOOK_SECONDS
from companion.live.tell_aloud import tell_aloud
from companion.profile import NOTHING
from companion.talk.machine_phrases import BrokeInside, CantGoOn, FilesRefused, ProfileUnreadable
from companion.talk.saying import Say

_FOLDERS = re.compile(r"(?<![^\s'\"])(?:~|[A-Za-z]:)?[\\/](?:[^\s'\"\\/]+[\\/])*(?=[^\s\\/])")
"""All of a path but the name of its file."""


@contextlib.contextmanager
def trouble_told_aloud(options: argparse.Namespace) -> Iterator[None]:
    """Say what went wrong meanwhile, where anything plays it, and let it go its way: it is printed, and answered to the shell, as ever."""
    try:
        yield
    except BrokenPipeError:
        raise
    except Exception as error:
        with contextlib.suppress(Exception):  # what is amiss with telling it must not hide it
            _tell(error, options)
        raise


def saying_of(error: Exception, language: Language) -> Say:
    """Return what is said of an error: the language's words for it. Folders are left out: nobody follows them by ear."""
    if isinstance(error, JournalError) or (isinstance(error, OSError) and with_remedy(error) is not None):
        return FilesRefused()
    known = with_remedy(error)
    return BrokeInside() if known is None else CantGoOn(_FOLDERS.sub("", " ".join(language.error_words(known).split())))


def _tell(error: Exception, options: argparse.Namespace) -> None:
    language, profile = _language(options), _profile(options)
    saying = ProfileUnreadable() if profile is None else saying_of(error, language)
    profile = profile or NOTHING
    opener = loudspeaker_opener(profile.sound, options.loudspeaker)
    if nobody_types(sys.stdin):
        _wait_for_one(profile, options)
    tell_aloud([language.plain_words(saying)], open_voices(profile.voice, language), lambda _: None, opener)


def _wait_for_one(profile: Profile, options: argparse.Namespace) -> None:
    """Wait for a loudspeaker as at power-on, where the sound server may start after us."""
    ends = time.monotonic() + WAIT_SECONDS
    while time.monotonic() < ends:
        with contextlib.suppress(CompanionError), closing(loudspeaker_opener(profile.sound, options.loudspeaker)()):
            return
        time.sleep(LOOK_SECONDS)
        devices.look_again()


def _language(options: argparse.Namespace) -> Language:
    with contextlib.suppress(CompanionError):
        return language_of(options)
    return load_language()


def _profile(options: argparse.Namespace) -> Profile | None:
    """Return the observer's profile, None where just that is what is amiss."""
    with contextlib.suppress(CompanionError, OSError):
        return profile_of(options)
    return None
