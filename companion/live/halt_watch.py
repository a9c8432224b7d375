"""While a mount on the line turns, a thread of its own hears the microphone and halts it at a "stop", whatever the conversation does.

The conversation's thread may be looking up for seconds what was said before, and needs a pause to hear where words end. Here nothing is
looked up but what halts, in what ends just now, and in the last moment of a voice that goes on.
"""

from __future__ import annotations

import logging
import sys
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
from companion.hearing.vad import FloatArray, VoiceDetector
from companion.live.barge_in import STOP
from companion.live.last_moment import LastMoment
from companion.live.playback_reference import PlaybackReference
from companion.messages import Heard, NotUnderstood

LOOK_SECONDS = 0.02
BEFORE_SECONDS = 2.0
"""So much of what was heard before it turned teaches how our echo arrives."""
DOUBTFUL = 0.3
"""Where we don't speak, what ends just now and is so likely a word that halts halts it: asked for is 0.6 elsewhere. Judgement: a false
halt costs a slew, a missed word perhaps a tube."""
IN_PASSING = 0.97
"""So sure must be a look at a voice that goes on, or at one beside ours. Of 60 words, each in 0.8 s with a kitchen or wind 12 dB below it,
57 came to it, 58 to 0.9; of 744 looks at what is left of our sentences, at wind, kitchens and talk that had come to 0.5 and more, 154
did, 405 to 0.9 (voices that may be tuned on)."""
_SWITCH_SECONDS = 1e-4
"""So soon the interpreter passes from one thread to the next while it turns, instead of after 5 ms: beside a search through all we know
the longest of eight looks took 0.65 s instead of 1.28 (a machine under load 8, where it took 0.63 alone)."""
_OURS_SECONDS, _AUDIBLE = 1.5, 1e-3
"""For so long after we played something that loud (RMS), what is left of it may be in what is looked at."""
_TIMING = Timing(
    pre_roll_seconds=0.35,
    glance_seconds=0.1,
    after_complete_seconds=0.3,
    after_incomplete_seconds=0.4,
    longest_seconds=3.0,
)
_QUIET_SECONDS = 1.0
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
        self._ear = HaltEar(engine, detector, halting, reference)
        self._is_needed, self._halt = is_needed, halt
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
        # A first look at words that weren't prepared takes seconds.
        self._ear.prepare()
        while not self._over.wait(LOOK_SECONDS):
            if not self._is_needed():
                # What was heard a moment before it turns is kept.
                continue
            usual = sys.getswitchinterval()
            sys.setswitchinterval(_SWITCH_SECONDS)
            try:
                self._while_it_turns()
            except Exception:
                _LOG.exception("the watch for a spoken halt failed and begins anew")
            finally:
                sys.setswitchinterval(usual)

    def _while_it_turns(self) -> None:
        self._ear.begin()
        began = self._blocks[-1][2] if self._blocks else 0.0
        while self._is_needed() and not self._over.wait(0.0 if self._blocks else LOOK_SECONDS):
            while self._blocks:
                block, rate_hz, at = self._blocks.popleft()
                if at < began - BEFORE_SECONDS:
                    continue
                self._ear.take(block, rate_hz, at)
                if self._ear.hears_halt(began, is_behind=bool(self._blocks)):
                    self._halt()
                    # What is still to be heard was said before it can have stood.
                    self._blocks.clear()
                    return


class HaltEar:
    """Says whether a word that halts was just said. No clock and no thread of its own: times come with the sound.

    Where a voice is heard to end, what ended is looked at; while it goes on, its last moment, again and again. Beside our own voice, too:
    what the echo removal leaves is no voice to the detector, so nothing is looked at that our own playback explains.
    """

    def __init__(self, engine: Engine, detector: VoiceDetector, halting: ActiveSet, reference: PlaybackReference | None) -> None:
        """Take the recogniser, a voice detector for this stream alone, the words, and what plays (None: our voice can't be heard)."""
        self._engine, self._detector, self._halting, self._reference = engine, detector, halting, reference
        self.begin()

    def prepare(self) -> None:
        """Get ready for the words."""
        self._engine.prepare(self._halting)

    def begin(self) -> None:
        """Forget what was heard."""
        self._detector.reset()
        self._endpointer = Endpointer(self._detector, _TIMING)
        self._canceller, self._last = EchoCanceller(), LastMoment()
        self._rate_hz = 0
        self._ended: Segment | None = None
        self._at, self._ours_at, self._voice_at = 0.0, -_OURS_SECONDS, 0.0

    def take(self, block: NDArray[np.float32], rate_hz: int, at: float) -> None:
        """Take a block as the microphone gives it, shape (n, channels), and when its last sample came."""
        if rate_hz != self._rate_hz:
            self._rate_hz = rate_hz
            self._resampler = soxr.ResampleStream(rate_hz, SPEECH_RATE_HZ, 1, dtype="float32")
        samples = np.nan_to_num(self._resampler.resample_chunk(block.mean(axis=1, dtype=np.float32)))
        if not len(samples):
            return
        clean, echo = self._without_ours(Captured(np.asarray(samples, np.float32), at))
        if not len(clean.samples):
            return
        self._last.add(clean, echo)
        self._at = clean.at
        self._follow(clean)

    def _follow(self, clean: Captured) -> None:
        """See where a voice ends. After a second without one the detector begins anew: what is left of our own deafens it."""
        for found in self._endpointer.feed(clean):
            if isinstance(found, Segment):
                self._ended = found
        if self._endpointer.hears_voice or self._ended is not None:
            self._voice_at = clean.at
        elif clean.at - self._voice_at > _QUIET_SECONDS:
            self._detector.reset()
            self._voice_at = clean.at

    def hears_halt(self, since: float, *, is_behind: bool = False) -> bool:
        """Say whether one ends about here that was said after a time; where nothing new stands out, that costs nothing.

        Who ``is_behind``, with more sound waiting, looks only at what ended.
        """
        ended, self._ended = self._ended, None
        if ended is not None and ended.voice_ended > since and not self._last.is_too_faint(ended.sound.samples, beside_us=self._is_ours):
            return self._says_halt(ended.sound, IN_PASSING if self._is_ours else DOUBTFUL)
        if is_behind:
            return False
        if self._endpointer.hears_voice:
            return self._says_halt(self._last.look(since, beside_us=self._is_ours), IN_PASSING)
        self._last.skip()
        return False

    def _says_halt(self, sound: Audio | None, least: float) -> bool:
        if sound is None:
            return False
        hearing = glance(self._engine, sound, self._halting)
        if isinstance(hearing, Heard) and hearing.command != STOP:
            return False
        return isinstance(hearing, Heard | NotUnderstood) and hearing.confidence >= least

    @property
    def _is_ours(self) -> bool:
        """Whether what ends now may hold what is left of our own voice."""
        return self._at - self._ours_at < _OURS_SECONDS

    def _without_ours(self, captured: Captured) -> tuple[Captured, FloatArray]:
        if self._reference is None:
            return captured, np.zeros_like(captured.samples)
        played = self._reference.beside(captured)
        if float(np.sqrt(np.mean(played**2))) > _AUDIBLE:
            self._ours_at = captured.at
        parted = self._canceller.feed(captured.samples, played)
        return Captured(parted.rest, captured.at - self._canceller.waiting / SPEECH_RATE_HZ), parted.echo
