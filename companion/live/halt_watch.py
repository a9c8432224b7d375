"""While a mount on the line turns, a thread of its own hears the microphone and halts it at a "stop", whatever the conversation does.

The conversation's thread may be looking up for seconds what was said before, and needs a pause to hear where words end. Here nothing is
looked up but what halts, in what ends just now and, while a voice goes on, in the last moment of it.
"""

from __future__ import annotations

import logging
import threading
from collections import deque
from collections.abc import Callable

import numpy as np
import soxr
from numpy.typing import NDArray

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing import Engine, glance
from companion.hearing.active import ActiveSet
from companion.hearing.echo_canceller import EchoCanceller
from companion.hearing.endpoint import Endpointer, Timing
from companion.hearing.stream import Captured, Segment
from companion.hearing.vad import VoiceDetector
from companion.live.barge_in import STOP
from companion.live.playback_reference import PlaybackReference
from companion.live.turn_policy import SURE
from companion.messages import Heard, NotUnderstood

LOOK_SECONDS = 0.02
BEFORE_SECONDS = 2.0
"""So much of what was heard before it turned teaches how our echo arrives."""
DOUBTFUL = 0.3
"""A word that halts and is so likely said halts it: asked for is 0.6 elsewhere. Judgement: a false halt costs a slew."""
_OURS_SECONDS, _AUDIBLE = 1.5, 1e-3
"""For so long after we played something that loud (RMS), what is left of it may be in what is looked at."""
_FAINTER = 0.5
"""What is fainter than half of our echo (6 dB) in that time is what is left of it, and no shout: of what was looked at beside our voice
about a third, of the looks at shouts about one in seven, counted by eye in a busy machine's logs."""
_PEAK_SECONDS = 0.1
_STANDS_OUT, _PLACE_PERCENT = 2.0, 20
"""Nor is what is less than twice as loud (6 dB) as the place at its quieter moments: the detector hears voices in mere hiss, too."""
WINDOW_SECONDS, WINDOW_EVERY_SECONDS = 0.9, 0.25
"""While a voice goes on, as ours may beside a shout, so much of its end is looked at so often."""
_TIMING = Timing(
    pre_roll_seconds=0.35,
    glance_seconds=0.1,
    after_complete_seconds=0.3,
    after_incomplete_seconds=0.4,
    longest_seconds=3.0,
)
_QUIET_SECONDS = 1.0
"""After so long without a voice the detector begins anew: what is left of our voice deafens it."""
_BLOCKS = 128

_LOG = logging.getLogger("companion.live")
_Block = tuple[NDArray[np.float32], int, float]


class HaltWatch:
    """Halts a mount by voice. ``took`` belongs to the microphone's thread, all else happens on one of its own."""

    def __init__(
        self,
        engine: Engine,
        detector: VoiceDetector,
        halting: ActiveSet,
        reference: PlaybackReference | None,
        *,
        is_needed: Callable[[], bool],
        halt: Callable[[], None],
    ) -> None:
        """Take the recogniser, a voice detector for this stream alone, the words, what plays (None: our voice can't be heard).

        ``is_needed`` says whether a mount turns that a word may halt, ``halt`` halts it; both are asked on this thread.
        """
        self._engine, self._detector, self._halting = engine, detector, halting
        self._reference, self._is_needed, self._halt = reference, is_needed, halt
        self._blocks: deque[_Block] = deque(maxlen=_BLOCKS)
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._watch, name="halt by voice", daemon=True)

    def took(self, block: NDArray[np.float32], rate_hz: int, at: float) -> None:
        """Take a block as the microphone gives it, shape (n, channels), and when its last sample came; never waits."""
        self._blocks.append((block, rate_hz, at))

    def start(self) -> None:
        """Begin to watch."""
        self._thread.start()

    def close(self) -> None:
        """End."""
        self._over.set()
        self._thread.join(2.0)

    def _watch(self) -> None:
        while not self._over.wait(LOOK_SECONDS):
            if not self._is_needed():
                # What was heard a moment before it turns is kept.
                continue
            try:
                self._while_it_turns()
            except Exception:
                _LOG.exception("the watch for a spoken halt failed and begins anew")

    def _while_it_turns(self) -> None:
        heard = _Heard(self._detector, self._reference)
        began = self._blocks[-1][2] if self._blocks else 0.0
        while self._is_needed() and not self._over.wait(0.0 if self._blocks else LOOK_SECONDS):
            while self._blocks:
                block, rate_hz, at = self._blocks.popleft()
                if at < began - BEFORE_SECONDS:
                    continue
                sound = heard.next(block, rate_hz, at, since=began, look=not self._blocks)
                if sound is not None and self._says_halt(sound, SURE if heard.is_ours(at) else DOUBTFUL):
                    self._halt()
                    # What is still to be heard was said before it can have stood.
                    self._blocks.clear()
                    return

    def _says_halt(self, sound: Audio, least: float) -> bool:
        hearing = glance(self._engine, sound, self._halting)
        if isinstance(hearing, Heard) and hearing.command != STOP:
            return False
        return isinstance(hearing, Heard | NotUnderstood) and hearing.confidence >= least


class _Heard:
    """What the microphone hears while a mount turns, our own voice taken out, cut into what is worth a look."""

    def __init__(self, detector: VoiceDetector, reference: PlaybackReference | None) -> None:
        self._detector = detector
        detector.reset()
        self._endpointer = Endpointer(detector, _TIMING)
        self._reference, self._canceller = reference, EchoCanceller()
        self._ours_at = -_OURS_SECONDS
        self._echo = 0.0
        self._levels: deque[float] = deque(maxlen=_BLOCKS)
        self._rate_hz = 0
        self._last: NDArray[np.float32] = np.zeros(round(WINDOW_SECONDS * SPEECH_RATE_HZ), np.float32)
        self._looked_at = self._voice_at = 0.0

    def is_ours(self, at: float) -> bool:
        """Say whether what ends at that time may hold what is left of our own voice."""
        return at - self._ours_at < _OURS_SECONDS

    def _without_ours(self, captured: Captured) -> Captured:
        if self._reference is None:
            return captured
        played = self._reference.beside(captured)
        clean = self._canceller.feed(captured.samples, played)
        if float(np.sqrt(np.mean(played**2))) > _AUDIBLE:
            self._ours_at = captured.at
        removed = float(np.sqrt(np.mean((captured.samples - clean) ** 2)))
        self._echo = max(removed, self._echo * 0.5 ** (len(clean) / SPEECH_RATE_HZ / _OURS_SECONDS)) if self.is_ours(captured.at) else 0.0
        return Captured(clean, captured.at)

    def _is_too_faint(self, sound: Audio) -> bool:
        """Say whether a sound is hardly louder than the place, or than what the echo removal leaves."""
        length = round(_PEAK_SECONDS * SPEECH_RATE_HZ)
        whole = sound.samples[: len(sound.samples) // length * length].reshape(-1, length)
        place = float(np.percentile(self._levels, _PLACE_PERCENT)) if self._levels else 0.0
        peak = float(np.sqrt(np.max(np.mean(whole**2, axis=1), initial=0.0)))
        return peak < max(_FAINTER * self._echo, _STANDS_OUT * place)

    def next(self, block: NDArray[np.float32], rate_hz: int, at: float, *, since: float, look: bool) -> Audio | None:
        """Return what to look at once a block is added, None where nothing new can have been said.

        What was said before ``since`` isn't meant; ``look``: whether there is time for a look into a voice that goes on.
        """
        if rate_hz != self._rate_hz:
            self._rate_hz = rate_hz
            self._resampler = soxr.ResampleStream(rate_hz, SPEECH_RATE_HZ, 1, dtype="float32")
        samples = np.nan_to_num(self._resampler.resample_chunk(block.mean(axis=1, dtype=np.float32)))
        if not len(samples):
            return None
        captured = Captured(np.asarray(samples, np.float32), at)
        clean = self._without_ours(captured)
        self._last = np.concatenate([self._last, clean.samples])[-len(self._last) :]
        self._levels.append(float(np.sqrt(np.mean(clean.samples**2))))
        segments = [found for found in self._endpointer.feed(clean) if isinstance(found, Segment)]
        if self._endpointer.hears_voice or segments:
            self._voice_at = at
        elif at - self._voice_at > _QUIET_SECONDS:
            self._detector.reset()
            self._voice_at = at
        if segments:
            self._looked_at = at
            meant = segments[-1].voice_ended > since and not self._is_too_faint(segments[-1].sound)
            return segments[-1].sound if meant else None
        goes_on = self._endpointer.hears_voice and at - max(self._looked_at, self._endpointer.began) > WINDOW_EVERY_SECONDS
        if not (look and goes_on and at - since > WINDOW_EVERY_SECONDS):
            return None
        self._looked_at = at
        last = Audio(self._last.copy(), SPEECH_RATE_HZ)
        return None if self._is_too_faint(last) else last
