"""From a stream of sound to what was said: ends of utterances and recogniser together. No device and no clock: times are handed in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.active import ActiveSet
from companion.hearing.endpoint import Endpointer, Timing
from companion.hearing.engine import Engine, listen
from companion.hearing.vad import FRAME, FloatArray, VoiceDetector
from companion.messages import Heard, Hearing


@dataclass(frozen=True)
class Live:
    """What may be said."""

    active: ActiveSet
    """What is an answer."""
    everything: ActiveSet | None = None
    """What is known beside it: said now, it is NotNow. None where that doesn't matter."""


@dataclass(frozen=True)
class Utterance:
    """Something was said."""

    sound: Audio
    hearing: Hearing
    """What it says in the set that was live."""
    began: float
    """When a voice was noticed; on the clock of the times handed in, seconds."""
    voice_ended: float
    """When the voice in it ended: before the pause that told us."""
    decided: float
    """When the pause after it was over."""


class Listener:
    """Hears utterance after utterance of one stream."""

    def __init__(
        self,
        engine: Engine,
        detector: VoiceDetector,
        live: Callable[[float, float], Live],
        timing: Timing | None = None,
    ) -> None:
        """Take the parts; ``live(began, voice_ended)`` names what an utterance between these times may say."""
        self._engine = engine
        self._live = live
        self._timing = timing or Timing()
        self._endpointer = Endpointer(detector, self._is_whole, self._timing)
        self._rest: FloatArray = np.zeros(0, np.float32)
        self._began = self._now = self._voice_ended = 0.0
        self._judged: tuple[Audio, Hearing] | None = None

    @property
    def hears_voice(self) -> bool:
        """Whether an utterance is going on."""
        return self._endpointer.hears_voice

    @property
    def began(self) -> float:
        """When the utterance that is going on, or the last one, began."""
        return self._began

    def feed(self, samples: FloatArray, at: float) -> Iterator[Utterance]:
        """Take the next samples at 16 kHz, the last of which arrived at ``at``; yield each utterance that ends in them, to the last."""
        waiting = np.concatenate([self._rest, samples])
        whole = len(waiting) // FRAME * FRAME
        self._rest = waiting[whole:]
        for start in range(0, whole, FRAME):
            now = self._now = at - (len(waiting) - start - FRAME) / SPEECH_RATE_HZ
            heard_before = self._endpointer.hears_voice
            for sound in self._endpointer.feed(waiting[start : start + FRAME]):
                hearing = self._hearing(sound)
                yield Utterance(sound, hearing, self._began, self._voice_ended, now)
            if self._endpointer.hears_voice and not heard_before:
                self._began, self._judged = now, None

    def finish(self, at: float) -> Iterator[Utterance]:
        """Yield the utterance that is going on, if any: the stream is over, and so is what was said."""
        self._now = self._voice_ended = at
        sound = self._endpointer.finish()
        if sound is not None:
            yield Utterance(sound, self._recognised(sound), self._began, self._voice_ended, at)
        self.reset()

    def reset(self) -> None:
        """Forget the sound so far, as after a gap in the stream."""
        self._rest = np.zeros(0, np.float32)
        self._endpointer.reset()

    def _is_whole(self, sound: Audio) -> bool:
        """Judge the sound so far in a pause; all of it is recognised here, so that nothing is left to do when the pause goes on."""
        self._voice_ended = self._now - self._timing.after_complete_seconds
        hearing = self._recognised(sound)
        self._judged = (sound, hearing)
        return isinstance(hearing, Heard)

    def _hearing(self, sound: Audio) -> Hearing:
        if self._judged is not None:
            judged, hearing = self._judged
            pause_seconds = self._timing.after_incomplete_seconds - self._timing.after_complete_seconds
            if sound.seconds - judged.seconds <= pause_seconds + 2 * FRAME / SPEECH_RATE_HZ:
                # Only quiet came after what was judged.
                return hearing
        self._voice_ended = self._now
        return self._recognised(sound)

    def _recognised(self, sound: Audio) -> Hearing:
        live = self._live(self._began, self._voice_ended)
        return listen(self._engine, sound, live.active, live.everything)
