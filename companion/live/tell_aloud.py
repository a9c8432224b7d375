"""Sentences told one after another outside an evening: spoken where that can be done, printed always."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Sequence

from companion.errors import CompanionError
from companion.speaking import Player, Voice
from companion.speaking.speaker import SoundOut, Speaker

_LOOK_EVERY_S = 0.05


def tell_aloud(
    texts: Iterable[str],
    voices: Sequence[Voice],
    show: Callable[[str], None],
    open_loudspeaker: Callable[[], SoundOut] = Player,
    complain: Callable[[str], None] = lambda _: None,
) -> bool:
    """Tell each text; return whether all of it was spoken. ``complain`` hears why there is no loudspeaker; the voices are closed."""
    loudspeaker: SoundOut | None = None
    try:
        loudspeaker = open_loudspeaker()
    except CompanionError as error:
        complain(str(error))
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
