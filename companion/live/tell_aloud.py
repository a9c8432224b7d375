"""Sentences spoken one after another outside an evening, where that can be done."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Sequence

from companion.errors import CompanionError
from companion.speaking import Voice
from companion.speaking.speaker import SoundOut, Speaker

_LOOK_EVERY_S = 0.05


def tell_aloud(
    texts: Iterable[str], voices: Sequence[Voice], show: Callable[[str], None], open_loudspeaker: Callable[[], SoundOut]
) -> bool:
    """Speak each text, shown when its turn has come; return whether all was spoken. The voices are closed."""
    try:
        loudspeaker: SoundOut | None = open_loudspeaker()
    except CompanionError:
        loudspeaker = None
    speaker = Speaker(voices, loudspeaker)
    spoken = True
    try:
        for text in texts:
            show(text)
            speech = speaker.add(text)
            while speech.over is None:
                time.sleep(_LOOK_EVERY_S)
            spoken = spoken and not speech.cut and not speaker.is_mute
        return spoken
    finally:
        speaker.close()
        if loudspeaker is not None:
            loudspeaker.close()
