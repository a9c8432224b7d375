"""Where utterances begin and end in a stream of sound. No clock and no device: times come with the sound."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.stream import Captured, PauseOver, Segment, SegmentExtent
from companion.hearing.vad import FRAME, FloatArray, VoiceDetector

FRAME_SECONDS = FRAME / SPEECH_RATE_HZ


@dataclass(frozen=True)
class Timing:
    """How patient the ear is."""

    pre_roll_seconds: float = 0.6
    """Sound kept from before the voice was noticed; detectors notice late."""
    glance_seconds: float = 0.16
    """Quiet after which a word that can't wait is looked for."""
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
    """Cuts captured sound into segments.

    Each pause gives one segment. Whoever finds a whole answer in it says so with ``cut`` before taking the next; otherwise the
    utterance goes on, until a new pause gives a longer segment or ``PauseOver`` tells that there is no more.
    """

    def __init__(self, detector: VoiceDetector, timing: Timing | None = None) -> None:
        """Take a detector for this stream, and the patience."""
        self._detector = detector
        self._timing = timing or Timing()
        self._rest: FloatArray = np.zeros(0, np.float32)
        self._before: deque[FloatArray] = deque(maxlen=max(1, round(self._timing.pre_roll_seconds / FRAME_SECONDS)))
        self._frames: list[FloatArray] = []
        self._voiced = self._quiet = 0
        self._paused = False
        self._began = 0.0

    @property
    def hears_voice(self) -> bool:
        """Whether an utterance is going on."""
        return bool(self._frames)

    @property
    def began(self) -> float:
        """When the utterance that is going on, or the last one, began."""
        return self._began

    def so_far(self, now: float) -> Segment | None:
        """Return what is being said as far as it has come; None in a pause, and where nobody speaks."""
        return self._segment(now, SegmentExtent.RUNNING) if self._frames and not self._paused else None

    def feed(self, captured: Captured) -> Iterator[Segment | PauseOver]:
        """Take what was captured next and yield what ends or pauses in it. The iterator must be used up."""
        waiting = np.concatenate([self._rest, captured.samples])
        whole = len(waiting) // FRAME * FRAME
        self._rest = waiting[whole:]
        for start in range(0, whole, FRAME):
            now = captured.at - (len(waiting) - start - FRAME) / SPEECH_RATE_HZ
            if (found := self._step(waiting[start : start + FRAME], now)) is not None:
                yield found

    def cut(self) -> None:
        """Let the utterance end here: what was said is whole. Its end is the beginning of the next one's pre-roll."""
        self._before.extend(self._frames[-(self._before.maxlen or 1) :] if self._quiet else [])
        self._frames = []
        self._voiced = self._quiet = 0
        self._paused = False

    def finish(self, at: float) -> Iterator[Segment | PauseOver]:
        """Yield the end of the utterance that is going on, if any: the stream is over, and so is what was said."""
        if self._paused:
            yield PauseOver(at)
        elif self._is_long_enough():
            yield self._segment(at, SegmentExtent.OVER)
        self.reset()

    def begin_anew(self) -> None:
        """Have the detector forget what it heard, as our own voice, unless an utterance is going on."""
        if not self._frames:
            self._detector.reset()

    def reset(self) -> None:
        """Forget what was heard, as after a gap in the stream."""
        self._rest = np.zeros(0, np.float32)
        self._before.clear()
        self._quiet = 0
        self.cut()

    def _step(self, frame: FloatArray, now: float) -> Segment | PauseOver | None:
        probability = self._detector.probability(frame)
        if not self._frames:
            self._before.append(frame)
            if probability >= self._timing.begins_at:
                self._frames, self._voiced, self._began = list(self._before), 1, now
                self._before.clear()
            return None
        self._frames.append(frame)
        if probability >= self._timing.goes_on_at:
            self._voiced += 1
            self._quiet, self._paused = 0, False
        else:
            self._quiet += 1
        return self._found(now)

    def _found(self, now: float) -> Segment | PauseOver | None:
        """Return what ends or pauses with this frame."""
        timing, quiet_seconds = self._timing, self._quiet * FRAME_SECONDS
        too_long = len(self._frames) * FRAME_SECONDS >= timing.longest_seconds
        if self._paused:
            return self._ended(PauseOver(now)) if too_long or quiet_seconds >= timing.after_incomplete_seconds else None
        if too_long:
            return self._ended(self._segment(now, SegmentExtent.OVER))
        if quiet_seconds >= timing.after_complete_seconds:
            if not self._is_long_enough():
                self.cut()
                return None
            self._paused = True
            return self._segment(now - timing.after_complete_seconds, SegmentExtent.PAUSED)
        if self._quiet == round(timing.glance_seconds / FRAME_SECONDS) and self._is_long_enough():
            return self._segment(now - timing.glance_seconds, SegmentExtent.RUNNING)
        return None

    def _segment(self, voice_ended: float, extent: SegmentExtent) -> Segment:
        return Segment(Audio(np.concatenate(self._frames), SPEECH_RATE_HZ), self._began, voice_ended, extent)

    def _ended(self, last: Segment | PauseOver) -> Segment | PauseOver:
        self.cut()
        return last

    def _is_long_enough(self) -> bool:
        return self._voiced * FRAME_SECONDS >= self._timing.shortest_voice_seconds
