"""Our own voice taken out of what was captured, by what the loudspeaker played meanwhile."""

from __future__ import annotations

from companion.audio import SPEECH_RATE_HZ
from companion.hearing.echo_canceller import EchoCanceller
from companion.hearing.stream import Captured
from companion.hearing.vad import FloatArray
from companion.live.playback_reference import PlaybackReference


class EchoRemoval:
    """Captured sound in, the same without our voice out."""

    def __init__(self, reference: PlaybackReference) -> None:
        """Take what knows what is played."""
        self._reference = reference
        self._canceller = EchoCanceller()

    def part(self, captured: Captured) -> tuple[Captured, FloatArray]:
        """Return what was captured without what was played, as far as it is ready, and what was taken out, the same shape."""
        parted = self._canceller.feed(captured.samples, self._reference.beside(captured))
        return Captured(parted.rest, captured.at - self._canceller.waiting / SPEECH_RATE_HZ), parted.echo
