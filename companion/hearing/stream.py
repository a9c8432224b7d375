"""What flows from the microphone towards the recogniser, one way. Times are seconds on the clock that stamps captured sound."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from companion.audio import Audio
from companion.hearing.vad import FloatArray


@dataclass(frozen=True, eq=False)
class Captured:
    """A stretch of what the microphone heard."""

    samples: FloatArray
    """Shape (n,), 16 kHz mono."""
    at: float
    """``time.monotonic()`` when the last of them had arrived."""


class SegmentExtent(enum.Enum):
    """How much of what somebody says a segment holds."""

    RUNNING = "running"
    """The voice has fallen quiet a moment ago: time to look for a word that can't wait, and for nothing else."""
    PAUSED = "paused"
    """There is a pause: a whole answer ends here, any other may go on."""
    OVER = "over"
    """All of it: it was too long, or the stream ended."""


@dataclass(frozen=True, eq=False)
class Segment:
    """What somebody has said so far, from just before the voice began."""

    sound: Audio
    began: float
    """When a voice was noticed."""
    voice_ended: float
    """When the voice in it ended: before the pause that told us."""
    extent: SegmentExtent


@dataclass(frozen=True)
class PauseOver:
    """Only quiet followed the segment that paused last: it was all that was said."""

    at: float
    """When that was certain."""
