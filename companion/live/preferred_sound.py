"""The microphone and the loudspeaker of a profile: opened, and chosen by trying them with the observer."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from companion import devices
from companion.audio import Audio
from companion.devices import LOUDSPEAKER, MICROPHONE
from companion.documents.profile_tables import SoundPreference
from companion.hearing import Engine, Scope, listen
from companion.hearing.microphone import Microphone
from companion.live.first_sound import Answered, FirstSound, in_turn
from companion.live.sound_devices import Opener
from companion.messages import Heard
from companion.speaking import Player, Voice
from companion.speaking.speaker import Speaker
from companion.talk.answers import YesNoAnswer
from companion.talk.saying import Say
from companion.vocabulary import Vocabulary


def microphone_opener(
    preferred: SoundPreference, named: str | None = None, tap: Callable[[NDArray[np.float32], int, float], None] | None = None
) -> Opener[Microphone]:
    """Return what opens the microphone named for this evening, else the preferred one, else another; ``tap`` as of a Microphone."""
    return Opener(MICROPHONE, lambda name: Microphone(name, tap), named=named, remembered=preferred.microphone)


def loudspeaker_opener(
    preferred: SoundPreference, named: str | None = None, tap: Callable[[NDArray[np.float32], int], None] | None = None
) -> Opener[Player]:
    """Return what opens the loudspeaker named for this evening, else the preferred one, else another; ``tap`` as of a Player."""
    return Opener(LOUDSPEAKER, lambda name: Player(name, tap), named=named, remembered=preferred.loudspeaker)


def try_pairs(
    voices: Sequence[Voice],
    engine: Engine,
    vocabulary: Vocabulary,
    tell: Callable[[Say], str],
    key_pressed: Callable[[], bool] | None,
) -> Answered | None:
    """Ask on each loudspeaker whether we are heard, and listen with every microphone; return what answered, None where nothing did.

    ``tell`` prints a saying and returns its words; ``key_pressed`` says whether a key was struck meanwhile, None where nobody has one.
    The voices are closed. Raises MissingPart where there is no device of a kind.
    """
    active = vocabulary.active(YesNoAnswer)
    engine.prepare(active)

    def is_yes(sound: Audio) -> bool:
        hearing = listen(engine, sound, Scope(active))
        return isinstance(hearing, Heard) and hearing.command == YesNoAnswer.YES

    names = [in_turn(devices.present(kind), devices.find(kind, None)) for kind in (LOUDSPEAKER, MICROPHONE)]
    speaker = Speaker(voices, None)
    try:
        first = FirstSound(speaker, is_yes, tell, open_microphone=Microphone, open_loudspeaker=Player, key_pressed=key_pressed)
        return first.found(*names)
    finally:
        speaker.close()
