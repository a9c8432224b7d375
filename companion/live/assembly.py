"""Puts an evening by voice together: each stage with what it needs, in the order in which sound becomes speech."""

from __future__ import annotations

import time
from collections.abc import Callable
from concurrent.futures import Executor, ThreadPoolExecutor
from dataclasses import dataclass

from companion.hearing import Engine
from companion.hearing.endpoint import Endpointer, Timing
from companion.hearing.noise_floor import NoiseFloor
from companion.hearing.vad import VoiceDetector
from companion.languages import Language
from companion.live.barge_in import BargeIn
from companion.live.capture import Capture
from companion.live.echo_removal import EchoRemoval
from companion.live.health import Health
from companion.live.keyed_ear import Changes, KeyedEar
from companion.live.listening import Listening
from companion.live.mount_answers import MountAnswers
from companion.live.patience import Patience
from companion.live.playback_reference import PlaybackReference
from companion.live.push_to_talk import Key
from companion.live.readiness import Readiness
from companion.live.session import Session
from companion.live.sound_devices import SoundDevices
from companion.live.spoken_session import SpokenSession
from companion.live.teller import Teller
from companion.live.terminal import Typing
from companion.live.turn_history import TurnHistory
from companion.live.turn_policy import TurnPolicy
from companion.live.typed_answers import TypedAnswers
from companion.live.voice_answers import VoiceAnswers
from companion.messages import Hearing
from companion.speaking.speaker import Speaker
from companion.vocabulary import Vocabulary

_TIMING = Timing(after_complete_seconds=0.4)
"""A tenth less than usual: the first word then comes 1.26 s after speech has ended instead of 1.33 (medians, two busy cores)."""


@dataclass(frozen=True)
class Ear:
    """What it takes to hear."""

    engine: Engine
    detector: VoiceDetector
    vocabulary: Vocabulary
    language: Language


def spoken_session(
    session: Session,
    ear: Ear,
    devices: SoundDevices,
    speaker: Speaker,
    *,
    typing: Typing,
    show: Callable[[str], None],
    headset: bool = False,
    playback_reference: PlaybackReference | None = None,
    key: Key | None = None,
    hand_key: Changes | None = None,
    clock: Callable[[], float] = time.monotonic,
    rest: Callable[[float], None] = time.sleep,
    meanwhile: Executor | None = None,
) -> SpokenSession:
    """Put the parts together; ``show`` receives one printed line a call, ``playback_reference`` knows what the loudspeaker plays.

    ``key`` opens the ear, by strokes that come typed or by a ``hand_key`` that tells when it goes down and up.
    ``clock`` gives seconds, ``rest`` lets them pass, ``meanwhile`` works while we speak.
    """
    history, barge_in, noise = TurnHistory(headset=headset), BargeIn(ear.vocabulary, ear.language.words_in), NoiseFloor()
    listening = Listening(
        EchoRemoval(playback_reference) if playback_reference is not None else None,
        Endpointer(ear.detector, _TIMING),
        ear.engine,
        TurnPolicy(history, ear.vocabulary, barge_in, session.mount_is_turning),
        noise,
    )
    readiness = Readiness(
        ear.engine, ear.vocabulary, barge_in, noise, meanwhile or ThreadPoolExecutor(1, "meanwhile"), linked=session.mount is not None
    )
    teller = Teller(session, speaker, history, readiness, show)
    capture = Capture(devices, rest)
    talking_key = key or Key(always_open=True)
    keyed_ear = KeyedEar(capture, listening, speaker, key=talking_key, typing=typing, clock=clock, hand_key=hand_key)

    if session.mount is not None:
        session.mount.may_move = lambda: capture.is_possible and talking_key.is_open

    def settled(hearing: Hearing) -> Hearing:
        return ear.vocabulary.settled(hearing, history.latest.question.expects)

    return SpokenSession(
        session,
        (
            VoiceAnswers(keyed_ear, settled, session, speaker, teller),
            TypedAnswers(typing, ear.vocabulary, history, keyed_ear, speaker),
            MountAnswers(session, teller),
        ),
        ear=keyed_ear,
        teller=teller,
        speaker=speaker,
        health=Health(devices, capture, speaker, keyed_ear, teller, typing=typing, headset=headset, clock=clock),
        patience=Patience(clock, lambda: speaker.is_speaking or keyed_ear.hears_voice),
    )
