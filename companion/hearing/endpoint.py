"""Where an utterance begins and ends in a stream of sound. No clock and no device: time is counted in frames."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.vad import FRAME, FloatArray, VoiceDetector

FRAME_SECONDS = FRAME / SPEECH_RATE_HZ


@dataclass(frozen=True)
class Timing:
    """How patient the listener is."""

    pre_roll_seconds: float = 0.6
    """Sound kept from before the voice was noticed; detectors notice late."""
    after_complete_seconds: float = 0.5
    """Quiet that ends an utterance which is a whole answer already."""
    after_incomplete_seconds: float = 1.2
    """Quiet that ends any other utterance."""
    longest_seconds: float = 8.0
    """An utterance is cut here, pre-roll included."""
    shortest_voice_seconds: float = 0.09
    """Less voice than this is a click, not an utterance."""
    begins_at: float = 0.3
    """Probability of a voice from which an utterance begins."""
    goes_on_at: float = 0.2
    """Probability below which a frame of an utterance is quiet."""


class Endpointer:
    """Cuts a stream of 16 kHz frames into utterances.

    ``is_complete`` is asked once in each pause, when it has lasted ``after_complete_seconds``: is the sound so far a whole answer?
    The same ``Audio`` object is returned when it is, so a recogniser asked about it need not listen twice.
    """

    def __init__(self, detector: VoiceDetector, is_complete: Callable[[Audio], bool], timing: Timing | None = None) -> None:
        """Take a detector for this stream, the judge of completeness, and the patience."""
        self._detector = detector
        self._is_complete = is_complete
        self._timing = timing or Timing()
        self._rest: FloatArray = np.zeros(0, np.float32)
        self._before: deque[FloatArray] = deque(maxlen=max(1, round(self._timing.pre_roll_seconds / FRAME_SECONDS)))
        self._frames: list[FloatArray] = []
        self._voiced = 0
        self._quiet = 0
        self._asked = False

    @property
    def hears_voice(self) -> bool:
        """Whether an utterance is going on."""
        return bool(self._frames)

    def feed(self, samples: FloatArray) -> Iterator[Audio]:
        """Take the next samples, shape (n,) for any n, and yield each utterance that ends in them. The iterator must be used up."""
        waiting = np.concatenate([self._rest, samples])
        whole = len(waiting) // FRAME * FRAME
        self._rest = waiting[whole:]
        for start in range(0, whole, FRAME):
            utterance = self._step(waiting[start : start + FRAME])
            if utterance is not None:
                yield utterance

    def finish(self) -> Audio | None:
        """Return the utterance still going on when the stream ends, if any, and forget everything heard."""
        utterance = self._sound() if self._frames and self._is_long_enough() else None
        self.reset()
        return utterance

    def reset(self) -> None:
        """Forget what was heard, as after speaking oneself."""
        self._rest = np.zeros(0, np.float32)
        self._before.clear()
        self._close()

    def _step(self, frame: FloatArray) -> Audio | None:
        probability = self._detector.probability(frame)
        if not self._frames:
            self._before.append(frame)
            if probability >= self._timing.begins_at:
                self._frames = list(self._before)
                self._before.clear()
                self._voiced, self._quiet, self._asked = 1, 0, False
            return None
        self._frames.append(frame)
        if probability >= self._timing.goes_on_at:
            self._voiced += 1
            self._quiet, self._asked = 0, False
        else:
            self._quiet += 1
        return self._ended()

    def _ended(self) -> Audio | None:
        """Return the utterance when it has ended with this frame."""
        quiet_seconds = self._quiet * FRAME_SECONDS
        timing = self._timing
        if len(self._frames) * FRAME_SECONDS >= timing.longest_seconds:
            return self._take(self._sound())
        if quiet_seconds < timing.after_complete_seconds:
            return None
        if not self._is_long_enough():
            self._close()
            return None
        if quiet_seconds >= timing.after_incomplete_seconds:
            return self._take(self._sound())
        if not self._asked:
            self._asked = True
            sound = self._sound()
            if self._is_complete(sound):
                return self._take(sound)
        return None

    def _is_long_enough(self) -> bool:
        return self._voiced * FRAME_SECONDS >= self._timing.shortest_voice_seconds

    def _sound(self) -> Audio:
        return Audio(np.concatenate(self._frames), SPEECH_RATE_HZ)

    def _take(self, sound: Audio) -> Audio:
        self._close()
        return sound

    def _close(self) -> None:
        """Go back to waiting; the end of this utterance is the beginning of the next one's pre-roll."""
        self._before.extend(self._frames[-(self._before.maxlen or 1) :] if self._quiet else [])
        self._frames = []
        self._voiced = self._quiet = 0
        self._asked = False
