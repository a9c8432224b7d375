"""Choosing microphone and loudspeaker by trying them with the observer, and remembering what answered."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from companion.documents.profile_tables import Profile, SoundPreference
from companion.errors import CompanionError
from companion.hearing import Engine
from companion.lines import complain
from companion.live import Typing
from companion.live.hand_key import HandKey
from companion.live.preferred_sound import try_pairs
from companion.profile import write_profile
from companion.speaking import Voice
from companion.talk.live_phrases import ProfileRefused
from companion.talk.machine_phrases import LoudspeakerFound, NobodyAnswered, PairFound
from companion.talk.saying import Say
from companion.vocabulary import Vocabulary


@dataclass(frozen=True)
class Chosen:
    """What is used from now on, and what tells of it."""

    sound: SoundPreference
    news: tuple[Say, ...]


class AnyKey:
    """Whether a key was struck: ``pressed`` takes each as it comes, on whatever thread."""

    def __init__(self) -> None:
        """Begin with none."""
        self._struck = threading.Event()

    def pressed(self, letter: str) -> None:
        """Take a key."""
        self._struck.set()

    def asked_of(self, typing: Typing, hand_key: HandKey | None = None) -> Callable[[], bool]:
        """Return what says whether a key was struck since it was last asked; what was typed so answers nothing else."""

        def was_struck() -> bool:
            struck = self._struck.is_set() or (hand_key is not None and any(down for down, _ in list(hand_key.changes())))
            if struck:
                self._struck.clear()
                list(typing.waiting())
                list(typing.strokes())
            return struck

        return was_struck


def choose_sound(
    profile: Profile,
    path: Path,
    *,
    ear: tuple[Engine, Vocabulary],
    voices: Sequence[Voice],
    tell: Callable[[Say], str],
    key_pressed: Callable[[], bool] | None,
) -> Chosen:
    """Try the devices and remember in the profile at ``path`` a pair that answered; the arguments are those of ``try_pairs``."""
    answered = try_pairs(voices, *ear, tell, key_pressed)
    if answered is None:
        return Chosen(profile.sound, (NobodyAnswered(),))
    sound = SoundPreference(answered.microphone, answered.loudspeaker)
    if answered.microphone is None:
        return Chosen(sound, (LoudspeakerFound(),))
    try:
        write_profile(replace(profile, sound=sound), path, profile)
    except CompanionError as error:
        complain(str(error))
        return Chosen(sound, (PairFound(), ProfileRefused()))
    return Chosen(sound, (PairFound(),))
