"""Our own voice taken out of what was captured, by what the loudspeaker played meanwhile."""

from __future__ import annotations

from companion.hearing.echo_canceller import EchoCanceller
from companion.hearing.stream import Captured
from companion.live.playback_reference import PlaybackReference


class EchoRemoval:
    """Captured sound in, the same without our voice out."""

    def __init__(self, reference: PlaybackReference) -> None:
        """Take what knows what is played."""
        self._reference = reference
        self._canceller = EchoCanceller()

    def clean(self, captured: Captured) -> Captured:
        """Return what was captured without what was played."""
        return Captured(self._canceller.feed(captured.samples, self._reference.beside(captured)), captured.at)
