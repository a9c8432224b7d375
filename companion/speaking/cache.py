"""Sentences already rendered, so that a repeated one starts at once."""

from __future__ import annotations

import threading
from collections import OrderedDict

from companion.audio import Audio
from companion.speaking.voices import Voice


class CachedVoice:
    """A voice that remembers the sentences used last, up to so many seconds of sound. Safe to use from several threads."""

    def __init__(self, voice: Voice, seconds: float = 600.0) -> None:
        """Wrap ``voice``; 600 s of 24 kHz sound take 58 MB."""
        self._voice = voice
        self._seconds = seconds
        self._kept: OrderedDict[tuple[str, int], Audio] = OrderedDict()
        self._lock = threading.Lock()

    @property
    def name(self) -> str:
        """The wrapped voice's name."""
        return self._voice.name

    @property
    def rate_wpm(self) -> int:
        """Words a minute, the wrapped voice's; may be changed between sentences."""
        return self._voice.rate_wpm

    @rate_wpm.setter
    def rate_wpm(self, rate_wpm: int) -> None:
        self._voice.rate_wpm = rate_wpm

    def render(self, text: str) -> Audio:
        """Return the sentence as sound, rendered now or before. Raises what the wrapped voice raises, and keeps nothing then."""
        key = (text, self.rate_wpm)
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return self._kept[key]
        audio = self._voice.render(text)
        with self._lock:
            self._kept[key] = audio
            while len(self._kept) > 1 and sum(kept.seconds for kept in self._kept.values()) > self._seconds:
                self._kept.popitem(last=False)
        return audio

    def close(self) -> None:
        """Close the wrapped voice and forget everything."""
        with self._lock:
            self._kept.clear()
        self._voice.close()
