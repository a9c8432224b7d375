"""An evening by voice, as a command holds it: devices found, tried with the observer the first time, and let go of at the end."""

from __future__ import annotations

import argparse
import contextlib
import sys
from collections.abc import Callable
from contextlib import closing

import numpy as np
from numpy.typing import NDArray

from companion.commands.sound_choice import AnyKey, choose_sound
from companion.documents.profile_tables import Profile, SoundPreference
from companion.errors import CompanionError, DeviceMissing
from companion.factories import open_engine, open_voices
from companion.hearing import Engine
from companion.hearing.vad import best_detector
from companion.languages import Language
from companion.lines import OutputLost, complain, printable, put_line
from companion.live import Ear, Key, Lines, PlaybackReference, Session, SoundDevices, open_terminal, spoken_session
from companion.live.barge_in import BargeIn
from companion.live.halt_watch import HaltWatch
from companion.live.hand_key import HandKey, NamedKey
from companion.live.preferred_sound import loudspeaker_opener, microphone_opener
from companion.live.sound_at_power_on import nobody_types, wait_for_sound
from companion.log import keep_log
from companion.profile import profile_path
from companion.speaking.speaker import Speaker
from companion.talk.live_phrases import OtherRecogniser, YourKeyIsMissing
from companion.talk.saying import Say
from companion.user_files import home
from companion.vocabulary import Vocabulary


def hold_by_voice(evening: Session, language: Language, vocabulary: Vocabulary, profile: Profile, options: argparse.Namespace) -> None:
    """Hold the evening. Raises DeviceMissing where nobody can answer and nobody can type."""
    keep_log(home(), "companion.live")
    # The model is loaded first: a stream that is open already would run over meanwhile.

    def other_recogniser(why: str) -> None:
        complain(why)
        evening.say_first(OtherRecogniser())

    wanted = profile.engine if options.engine is None else options.engine
    engine = open_engine(wanted, language, options.model, vocabulary.answers, other_recogniser)
    unattended, reference, key = nobody_types(sys.stdin), PlaybackReference(), AnyKey()
    halting = _halting(evening, options, profile)
    watch_reference = PlaybackReference()
    watch = _halt_watch(evening, engine, BargeIn(vocabulary, language.words_in), None if options.headset else watch_reference)

    def pressed(letter: str) -> None:
        key.pressed(letter)
        halting(letter)

    def tell(saying: Say) -> str:
        words = evening.words(saying)
        _show_beside(f"it:  {words}")
        return words

    def plays(block: NDArray[np.float32], rate_hz: int) -> None:
        reference.took(block, rate_hz)
        watch_reference.took(block, rate_hz)

    def devices(preferred: SoundPreference) -> SoundDevices:
        return SoundDevices(
            microphone_opener(preferred, options.microphone, None if watch is None else watch.took),
            loudspeaker_opener(preferred, options.loudspeaker, reference.took if watch is None else plays),
        )

    with contextlib.ExitStack() as stack:
        sound = stack.enter_context(closing(devices(profile.sound)))
        for complaint in sound.complaints:
            complain(complaint)
        if unattended:
            wait_for_sound(sound, complain)
        typing = stack.enter_context(closing(open_terminal(sys.stdin, pressed)))
        hand_key = _hand_key(evening, profile)
        if hand_key is not None:
            stack.enter_context(closing(hand_key))
        if not sound.missing and _is_first(profile, options):
            sound.close()
            chosen = choose_sound(
                profile,
                profile_path(options.profile),
                ear=(engine, vocabulary),
                voices=open_voices(profile.voice, language),
                tell=tell,
                key_pressed=key.asked_of(typing, hand_key) if sys.stdin.isatty() or hand_key is not None else None,
            )
            for news in chosen.news:
                evening.say_first(news)
            sound = stack.enter_context(closing(devices(chosen.sound)))
        speaker = stack.enter_context(closing(Speaker(open_voices(profile.voice, language), sound.loudspeaker)))
        if watch is not None:
            watch.start()
            stack.enter_context(closing(watch))
        finished = spoken_session(
            evening,
            Ear(engine, best_detector(), vocabulary, language),
            sound,
            speaker,
            typing=typing,
            show=_show_beside,
            headset=options.headset,
            playback_reference=None if options.headset else reference,
            key=Key(
                # An ear that no key could open would never hear anything.
                always_open=not _needs_key(options, profile) or (unattended and hand_key is None),
                can_be_held=not isinstance(typing, Lines),
                is_own=hand_key is not None,
            ),
            hand_key=hand_key,
        ).hold()
    if not finished and unattended:
        raise DeviceMissing(
            "the microphone stayed away and nobody can type here; plug one in, and start again: the evening goes on", is_microphone=True
        )


def _is_first(profile: Profile, options: argparse.Namespace) -> bool:
    """Say whether no device has been chosen: none is remembered, and none is named."""
    return profile.sound == SoundPreference() and options.microphone is None and options.loudspeaker is None


def _needs_key(options: argparse.Namespace, profile: Profile) -> bool:
    return bool(options.key_to_talk or profile.equipment.observer.in_company)


def _hand_key(evening: Session, profile: Profile) -> HandKey | None:
    """Return the key that was chosen, None where none was; one that can't be used is told."""
    if profile.keys.device is None or profile.keys.key is None:
        return None
    try:
        return HandKey(NamedKey(profile.keys.device, profile.keys.key))
    except CompanionError as error:
        complain(str(error))
        evening.say_first(YourKeyIsMissing())
        return None


def _halt_watch(evening: Session, engine: Engine, barge_in: BargeIn, reference: PlaybackReference | None) -> HaltWatch | None:
    """Return what halts the mount on the line by voice, None where there is none."""
    mount = evening.mount
    if mount is None:
        return None
    return HaltWatch(
        engine,
        best_detector(),
        barge_in.while_turning,
        reference,
        is_needed=lambda: mount.is_turning and mount.may_move(),
        halt=mount.key_pressed,
    )


def _halting(evening: Session, options: argparse.Namespace, profile: Profile) -> Callable[[str], None]:
    """Return what halts the mount at any key, but at the one that is held for talking."""
    held = " " if _needs_key(options, profile) else ""

    def pressed(letter: str) -> None:
        if evening.mount is not None and letter != held:
            evening.mount.key_pressed()

    return pressed


def _show_beside(line: str) -> None:
    """Show what is spoken, too; whether anybody can read it or not, the evening goes on."""
    with contextlib.suppress(OutputLost, BrokenPipeError):
        put_line(printable(line))
