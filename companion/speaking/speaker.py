"""Speaks texts sentence by sentence, the next one rendered while the last is heard; goes from voice to voice when one fails."""

from __future__ import annotations

import queue
import re
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from companion.audio import Audio, join, silence
from companion.errors import CompanionError
from companion.speaking.player import Outcome
from companion.speaking.rate import FASTEST_RATE_WPM, SLOWEST_RATE_WPM
from companion.speaking.voices import Voice

PAUSE_SECONDS = 0.25
"""Between sentences, beside the little that the loudspeaker adds."""
FAINT = 0.004
"""Voices begin and end a sentence with up to half a second fainter than this; it is cut, so that an answer comes at once."""
_EDGE_SECONDS = 0.02
LOUDER_DB = {"louder": 6.0, "softer": -6.0}
"""What a person hears as clearly louder or softer."""
FASTER = {"faster": 1.15, "slower": 1 / 1.15}
"""Some twenty words a minute at the usual rate: judgement."""
_GAINS_DB = (-18.0, 6.0)
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+")


class PlayingSound(Protocol):
    """A sound handed to a loudspeaker."""

    def wait(self) -> Outcome:
        """Block until it is over, and tell how it ended."""
        ...


class SoundOut(Protocol):
    """A loudspeaker: the ``Player``, or what stands for it in a test."""

    @property
    def name(self) -> str:
        """What the system calls it."""
        ...

    @property
    def lost(self) -> bool:
        """Whether the device went away."""
        ...

    def play(self, audio: Audio) -> PlayingSound:
        """Queue a sound and return at once."""
        ...

    def wake(self) -> None:
        """Have the device ready for sound that comes soon."""
        ...

    def stop(self) -> None:
        """Be silent, and forget what is queued."""
        ...

    def close(self) -> None:
        """Give the device back."""
        ...


@dataclass
class Speech:
    """One text on its way to the ear."""

    text: str
    begun: float | None = None
    """When its first sound was handed to the loudspeaker; None before."""
    over: float | None = None
    """When the last of it had been heard, or it was cut off; None before."""
    cut: bool = False
    """Whether it was told to be silent, or its loudspeaker went away."""


class Speaker:
    """Speaks on a loudspeaker. ``add``, ``sound`` and ``hush`` return at once."""

    def __init__(self, voices: Sequence[Voice], loudspeaker: SoundOut | None, clock: Callable[[], float] = time.monotonic) -> None:
        """Take the voices, best first, the loudspeaker where there is one, and the clock that stamps what is spoken."""
        self._voices = list(voices)
        self.loudspeaker = loudspeaker
        self._clock = clock
        self._gain_db = 0.0
        self._waiting: queue.Queue[Speech | None] = queue.Queue()
        self._speeches: list[Speech] = []
        self._worker = threading.Thread(target=self._work, name="speaker", daemon=True)
        self._worker.start()

    @property
    def is_mute(self) -> bool:
        """Whether nothing can be spoken: no loudspeaker, or no voice left."""
        return self.loudspeaker is None or self.loudspeaker.lost or not self._voices

    @property
    def is_speaking(self) -> bool:
        """Whether something is still being said, or about to be."""
        return any(speech.over is None for speech in self._speeches)

    @property
    def voices_left(self) -> int:
        """How many voices haven't failed."""
        return len(self._voices)

    def add(self, text: str) -> Speech:
        """Speak behind what is being spoken."""
        self._speeches = [speech for speech in self._speeches if speech.over is None]
        speech = Speech(text)
        if self.is_mute or not text:
            speech.begun = speech.over = self._clock()
            return speech
        self._speeches.append(speech)
        self._waiting.put(speech)
        return speech

    def sound(self, earcon: Audio) -> None:
        """Play a small sound behind what is playing."""
        if self.loudspeaker is not None and not self.loudspeaker.lost:
            self.loudspeaker.play(earcon)

    def wake(self) -> None:
        """Have the loudspeaker ready: something will be spoken soon."""
        if self.loudspeaker is not None and not self.loudspeaker.lost:
            self.loudspeaker.wake()

    def change(self, how: str) -> bool:
        """Be ``louder``, ``softer``, ``faster`` or ``slower`` from the next sentence on; return False where that is no longer possible."""
        if how in LOUDER_DB:
            gain_db = self._gain_db + LOUDER_DB[how]
            possible = _GAINS_DB[0] <= gain_db <= _GAINS_DB[1]
            self._gain_db = gain_db if possible else self._gain_db
            return possible
        rates_wpm = [round(voice.rate_wpm * FASTER[how]) for voice in self._voices]
        if not rates_wpm or not all(SLOWEST_RATE_WPM <= rate_wpm <= FASTEST_RATE_WPM for rate_wpm in rates_wpm):
            return False
        for voice, rate_wpm in zip(self._voices, rates_wpm, strict=True):
            voice.rate_wpm = rate_wpm
        return True

    def hush(self) -> None:
        """Be silent at once."""
        unfinished, self._speeches = [speech for speech in self._speeches if speech.over is None], []
        for speech in unfinished:
            speech.cut, speech.over = True, self._clock()
        if unfinished and self.loudspeaker is not None:
            self.loudspeaker.stop()

    def close(self) -> None:
        """Be silent and let go of the voices; the loudspeaker's owner closes that."""
        self.hush()
        self._waiting.put(None)
        self._worker.join(timeout=1.0)
        for voice in self._voices:
            voice.close()

    # --- on the worker's thread --------------------------------------------------------------------------------------

    def _work(self) -> None:
        while (speech := self._waiting.get()) is not None:
            playing = self._queue_sentences(speech)
            if playing is not None and playing.wait() is Outcome.DEVICE_LOST:
                speech.cut = True
            if speech.over is None:
                speech.over = self._clock()

    def _queue_sentences(self, speech: Speech) -> PlayingSound | None:
        """Hand sentence after sentence to the loudspeaker; return the last one's playback, None when nothing was played."""
        playing = None
        for sentence in sentences(speech.text):
            sound = self._rendered(sentence)
            if sound is None or speech.cut or self.loudspeaker is None:
                break
            spoken = _amplified(close_cut(sound), self._gain_db)
            playing = self.loudspeaker.play(join([spoken, silence(PAUSE_SECONDS, sound.rate_hz)], sound.rate_hz))
            if speech.begun is None:
                speech.begun = self._clock()
            if speech.cut:
                # Hushed between the question above and the answer: this one must go, too.
                self.loudspeaker.stop()
        return playing

    def _rendered(self, sentence: str) -> Audio | None:
        """Render by the best voice that works; one that fails isn't asked again."""
        while self._voices:
            try:
                return self._voices[0].render(sentence)
            except CompanionError:
                self._voices.pop(0)
        return None


def _amplified(sound: Audio, gain_db: float) -> Audio:
    """Return a sound louder or softer; peaks that no longer fit are rounded off, which a voice bears well."""
    if gain_db == 0:
        return sound
    samples = sound.samples * np.float32(10 ** (gain_db / 20))
    return Audio(np.tanh(samples) if gain_db > 0 else samples, sound.rate_hz)


def sentences(text: str) -> list[str]:
    """Cut a text after each full stop, question mark and exclamation mark."""
    return [sentence for sentence in _SENTENCE_END.split(text.strip()) if sentence]


def close_cut(sound: Audio) -> Audio:
    """Return a sentence without the silence around it."""
    audible = np.flatnonzero(np.abs(sound.samples) > FAINT)
    if not len(audible):
        return sound
    edge = round(_EDGE_SECONDS * sound.rate_hz)
    return Audio(sound.samples[max(0, audible[0] - edge) : audible[-1] + edge], sound.rate_hz)
