"""Trying ear and voice on this machine's devices: one sentence out, the noise of the place, and one word back."""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from contextlib import closing

import numpy as np

from companion.errors import MissingPart
from companion.hearing import Engine, Scope, listen
from companion.hearing.endpoint import Endpointer
from companion.hearing.microphone import Microphone
from companion.hearing.noise_floor import NoiseFloor, level_db
from companion.hearing.stream import Segment, SegmentExtent
from companion.hearing.vad import FloatArray, best_detector
from companion.messages import Heard, Hearing
from companion.speaking import LISTENING, Outcome, Player, Voice
from companion.talk.answers import YesNoAnswer
from companion.talk.command_phrases import LoudspeakerPlayed, MicrophoneGave, WordHeard
from companion.vocabulary import Vocabulary

ANSWER_SECONDS = 8.0
FAINTEST_DB = -85.0
"""A microphone that gives less than this is switched off: even a quiet night is louder in the cheapest one."""
CLIPPING = 0.99


def try_loudspeaker(voice: Voice, sentence: str, open_loudspeaker: Callable[[], Player] = Player) -> LoudspeakerPlayed:
    """Speak a sentence; return what was done. Raises MissingPart where it can't be heard."""
    with open_loudspeaker() as player:
        sound = voice.render(sentence)
        if player.play(sound).wait() is Outcome.DEVICE_LOST:
            raise MissingPart("the loudspeaker went away while it was used; connect it again")
        player.play(LISTENING).wait()
        return LoudspeakerPlayed(player.name, player.rate_hz, sound.seconds, player.underflows)


def try_microphone(
    engine: Engine, vocabulary: Vocabulary, open_microphone: Callable[[], Microphone] = Microphone
) -> tuple[MicrophoneGave, WordHeard | None]:
    """Listen to the place and then for one word; return what was found of each. Raises MissingPart where nothing comes.

    To be called when the sentence has just been spoken. The second answer is None when nobody said a word that was understood.
    """
    active = vocabulary.active(YesNoAnswer)
    engine.prepare(active)
    with closing(open_microphone()) as microphone:
        place = NoiseFloor()
        endpointer = Endpointer(best_detector())
        word: WordHeard | None = None
        loudest, heard = 0.0, []
        ends = time.monotonic() + ANSWER_SECONDS
        while time.monotonic() < ends and not word and not microphone.lost:
            captured = microphone.read(0.1)
            if captured is None:
                continue
            heard.append(captured.samples)
            loudest = max(loudest, float(np.abs(captured.samples).max()))
            for segment in endpointer.feed(captured):
                if isinstance(segment, Segment) and segment.extent is not SegmentExtent.RUNNING:
                    word = word or _word(listen(engine, segment.sound, Scope(active)), place.speech_to_noise_db(segment.sound))
            place.feed(captured.samples, voice=endpointer.hears_voice)
        return _levels(microphone, heard, loudest, place), word


def _word(hearing: Hearing, above_db: float | None) -> WordHeard | None:
    return WordHeard(hearing.phrase, hearing.confidence, above_db) if isinstance(hearing, Heard) else None


def _levels(microphone: Microphone, heard: list[FloatArray], loudest: float, place: NoiseFloor) -> MicrophoneGave:
    if not heard:
        raise MissingPart("the microphone gives nothing; connect it again, or name another one with --microphone")
    if level_db(np.concatenate(heard)) < FAINTEST_DB:
        raise MissingPart("the microphone gives no sound at all; switch it on, or raise its level in the system's settings")
    loudest_db = 20 * math.log10(max(loudest, 1e-5))
    return MicrophoneGave(microphone.name, microphone.rate_hz, place.level_db, loudest_db, loudest > CLIPPING)
