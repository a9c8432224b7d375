"""The last moment of what is heard, for a look at whether it holds a word that can't wait: no pause is waited for.

While a voice goes on that stands out of the place and of what the echo removal leaves of ours, it is looked at whole, again and again.
"""

from __future__ import annotations

from collections import deque

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.stream import Captured
from companion.hearing.vad import FloatArray

WINDOW_SECONDS, EVERY_SECONDS = 0.8, 0.19
"""So much is looked at, so often. Of 37 shouts on the virtual card, 22 of them into our own sentence as loud as it, each was surely heard
in one of the windows that end within a third of a second after it; a second and more holds too much of ours beside the word."""
LONGEST_SECONDS, _A_WORD_SECONDS = 1.6, 0.45
"""Where a look takes long, so that the next comes late, more is looked at: a word must be whole in one of them."""
LEAST_SECONDS = 0.5
"""In less than that the rest of a word sounds like a whole other one."""
_FAINTER = 0.5
"""What is fainter than half of our echo (6 dB) is what is left of it, and no shout: of what was looked at beside our voice about a third,
of the looks at shouts about one in seven, counted by eye in a busy machine's logs."""
_ECHO_FADES_SECONDS = 1.5
_PEAK_SECONDS = 0.1
_STANDS_OUT, _PLACE_PERCENT = 2.0, 20
"""Nor is what is less than twice as loud (6 dB) as the place at its quieter moments."""
_BESIDE_US = 3.0
"""Or than three times (10 dB), while we play something: an echo of ours that is fainter than the place can't be taken out of it, but a
voice detector hears it there. In a kitchen 5 dB above it the loudest tenth of a second in 0.8 s came to 2.8 times, of a voice 12 dB
above the kitchen to 5.8."""
_LEVELS = 128
_GAP_SECONDS = 0.5


class LastMoment:
    """What was heard last, our own voice taken out."""

    def __init__(self) -> None:
        """Begin with nothing heard."""
        self._sound: FloatArray = np.zeros(0, np.float32)
        self._levels: deque[float] = deque(maxlen=_LEVELS)
        self._echo = 0.0
        self._at = 0.0
        self._looked_at = self._asked_at = -EVERY_SECONDS

    def add(self, clean: Captured, echo: FloatArray) -> None:
        """Take what was heard next without our own voice, and that. After a gap what was heard before is forgotten."""
        if clean.at - self._at > _GAP_SECONDS:
            self._sound, self._asked_at = np.zeros(0, np.float32), clean.at
        self._sound = np.concatenate([self._sound, clean.samples])[-round(LONGEST_SECONDS * SPEECH_RATE_HZ) :]
        self._levels.append(_rms(clean.samples))
        faded = self._echo * 0.5 ** (len(clean.samples) / SPEECH_RATE_HZ / _ECHO_FADES_SECONDS)
        self._echo = max(_rms(echo), faded)
        self._at = clean.at

    def look(self, since: float = 0.0, *, beside_us: bool = False) -> Audio | None:
        """Return what to look at, None where nothing new stands out. What was heard before ``since`` isn't meant.

        ``beside_us`` means that our own voice may be in it. To be asked after each piece that is added, or as soon as there is time again.
        """
        if self._at - self._looked_at < EVERY_SECONDS:
            return None
        late = max(WINDOW_SECONDS, self._at - self._asked_at + _A_WORD_SECONDS)
        self._asked_at = self._at
        meant = min(late, LONGEST_SECONDS, self._at - since, len(self._sound) / SPEECH_RATE_HZ)
        if meant < LEAST_SECONDS:
            return None
        sound = self._sound[-round(meant * SPEECH_RATE_HZ) :]
        if self.is_too_faint(sound, beside_us=beside_us):
            return None
        self._looked_at = self._at
        return Audio(sound.copy(), SPEECH_RATE_HZ)

    def skip(self) -> None:
        """Be told that there was time for a look that nobody wanted."""
        self._asked_at = self._at

    def is_too_faint(self, sound: FloatArray, *, beside_us: bool) -> bool:
        """Say whether a sound is hardly louder than the place, or than what the echo removal leaves."""
        return self.may_be_left_of_ours(sound) or self.hardly_stands_out(sound, _BESIDE_US if beside_us else _STANDS_OUT)

    def may_be_left_of_ours(self, sound: FloatArray) -> bool:
        """Say whether a sound is no louder than what the echo removal may leave of our voice."""
        return _peak(sound) < _FAINTER * self._echo

    def hardly_stands_out(self, sound: FloatArray, times: float = _STANDS_OUT) -> bool:
        """Say whether a sound is less than so many times as loud as the place; False before anything was heard."""
        return bool(self._levels) and _peak(sound) < times * float(np.percentile(self._levels, _PLACE_PERCENT))


def _peak(sound: FloatArray) -> float:
    """Return the RMS of the loudest tenth of a second."""
    length = round(_PEAK_SECONDS * SPEECH_RATE_HZ)
    pieces = sound[len(sound) % length :].reshape(-1, length)
    return float(np.sqrt(np.max(np.mean(pieces**2, axis=1), initial=0.0)))


def _rms(samples: FloatArray) -> float:
    return float(np.sqrt(np.mean(samples**2))) if len(samples) else 0.0
