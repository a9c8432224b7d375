"""Takes our own voice out of what the microphone hears, by what the loudspeaker played.

The way from loudspeaker to microphone is taken for a delay and a short filter: the least-squares solution over the last moments in
which we spoke. Nothing in it can run away, and what somebody else says meanwhile is only noise to the estimate.
"""

from __future__ import annotations

import math
from collections import deque
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from companion.audio import SPEECH_RATE_HZ
from companion.hearing.vad import FloatArray

TAPS = 256
"""Length of the filter, 16 ms: the direct way, and what a table or the ground throws back."""
LONGEST_DELAY = round(0.6 * SPEECH_RATE_HZ)
"""Samples by which the echo may be late: the buffers of both devices, and the air."""
_CHUNK = 1024
"""The estimate is renewed after so many samples."""
_KEPT = 0.7
"""Share of the evidence kept from chunk to chunk: a memory of a fifth of a second. The clocks of two devices drift apart by a sample or
two a second, and a longer memory blurs: with three seconds 5 dB were gained over a drifting card, with this 15."""
_KEPT_FOR_DELAY = 0.97
"""The same for the delay, which a short memory finds less surely: two seconds."""
_BEFORE = 32
"""Taps before the strongest one."""
_OFF_BY = 24
"""The strongest tap may wander so far before the filter is moved."""
_AUDIBLE = 1e-4
"""RMS of what we play from which it can be heard at all."""
_RIDGE = 1e-3
"""Share of the mean power added to the diagonal: frequencies we don't speak at are left alone."""

_REST = 10 ** (-12 / 10)
"""Less than this share of the echo's power is taken for what the filter could not remove: in a drifting room it leaves -20 dB at the
median, -15 in the worst of thirty tenths of a second."""
_LOUDER_THAN_PLACE = 2.0
"""Unless it is hardly louder (3 dB) than the place: a kitchen with holes in it deafens a voice detector, as bursts of a rest do."""
_BLOCK = 512
_PLACE_BLOCKS, _PLACE_PERCENT, _NO_ECHO = 128, 20, 0.1
"""The place is known by the quieter moments of the last four seconds that hold next to no echo."""
_FADES = 0.5
"""From block to block the echo's power is held to fall no faster: rooms ring longer than the filter."""
_FAINT = 1e-4
_STANDS_OUT = 20.0
"""Of the likeness at all delays, the best must stand so far out of the usual: with an echo it is 30 to 90 times, else mostly four, but
up to 17 where both happen to begin at once."""

_SPAN = LONGEST_DELAY + TAPS + _CHUNK


@dataclass(frozen=True, eq=False)
class Parted:
    """What was heard, in two."""

    rest: FloatArray
    """Without our voice, shape (n,)."""
    echo: FloatArray
    """What our voice was taken for, the same shape."""


class EchoCanceller:
    """Removes the echo from a stream. Both streams have 16 kHz, and the same samples of each belong to the same time, but for the delay.

    A chunk is cleaned with the filter that it has taught itself. With the one before it, as was done first, clocks 200 millionths apart
    left a tenth of all moments at -6 dB of the echo, those after a pause of ours at 0 dB; now at -16.
    """

    def __init__(self) -> None:
        """Begin without an estimate."""
        self._played: FloatArray = np.zeros(_SPAN, np.float32)
        self._waiting: FloatArray = np.zeros(0, np.float32)
        self._spectrum: NDArray[np.complex128] = np.zeros(_fft_size() // 2 + 1, np.complex128)
        self._delay: int | None = None
        self._echo_power = 0.0
        self._place: deque[float] = deque(maxlen=_PLACE_BLOCKS)
        self._noise = np.random.default_rng(0)
        self._forget()

    @property
    def waiting(self) -> int:
        """How many samples of what was heard are still to be given out."""
        return len(self._waiting)

    def feed(self, heard: FloatArray, played: FloatArray) -> Parted:
        """Take what was heard and what was played, shape (n,) each; return what is ready.

        That is all of it, or up to 64 ms less while we can be heard.
        """
        self._waiting = np.concatenate([self._waiting, heard])
        self._played = np.concatenate([self._played, played])[-(_SPAN + len(self._waiting)) :]
        parts: list[Parted] = []
        while len(self._waiting) >= _CHUNK:
            beside = len(self._played) - len(self._waiting) + _CHUNK
            parts.append(self._parted(self._waiting[:_CHUNK], self._played[beside - _SPAN : beside]))
            self._waiting = self._waiting[_CHUNK:]
        if len(self._waiting) and float(np.sqrt(np.mean(self._played**2))) < _AUDIBLE:
            parts.append(self._untouched(self._waiting))
            self._waiting = np.zeros(0, np.float32)
        none: list[FloatArray] = [np.zeros(0, np.float32)]
        return Parted(np.concatenate(none + [part.rest for part in parts]), np.concatenate(none + [part.echo for part in parts]))

    def _parted(self, heard: FloatArray, played: FloatArray) -> Parted:
        """Take a chunk of what was heard, and what was played from LONGEST_DELAY before its beginning to its end."""
        self._learn(heard, played)
        echo = self._echo(len(heard), played)
        rest = heard - echo
        # A bad estimate, as after a beep, must not add to what is heard.
        if np.sum(rest**2) > np.sum(heard**2):
            return self._untouched(heard)
        return Parted(self._without_own_rest(rest, echo), echo)

    def _untouched(self, heard: FloatArray) -> Parted:
        nothing = np.zeros(len(heard), np.float32)
        return Parted(self._without_own_rest(heard, nothing), nothing)

    def _forget(self) -> None:
        self._filter: FloatArray = np.zeros(TAPS, np.float32)
        self._own = np.zeros((TAPS, TAPS))
        self._cross = np.zeros(TAPS)

    def _echo(self, count: int, played: FloatArray) -> FloatArray:
        """Return the echo in the last ``count`` samples, of what was played up to them."""
        if self._delay is None:
            return np.zeros(count, np.float32)
        end = len(played) - self._delay
        recent = played[end - count - TAPS + 1 : end]
        if float(np.abs(recent).max(initial=0.0)) < _AUDIBLE:
            return np.zeros(count, np.float32)
        return np.asarray(np.convolve(recent, self._filter, "valid"), np.float32)

    def _without_own_rest(self, rest: FloatArray, echo: FloatArray) -> FloatArray:
        """Put the place's own noise where no more is left than the rest of an echo: voice detectors hear a voice however faint it is."""
        pieces = []
        for start in range(0, len(rest), _BLOCK):
            piece, ours = rest[start : start + _BLOCK], echo[start : start + _BLOCK]
            power = float(np.mean(piece**2))
            self._echo_power = max(float(np.mean(ours**2)), self._echo_power * _FADES)
            if self._echo_power < _NO_ECHO * power:
                self._place.append(power)
            place = float(np.percentile(self._place, _PLACE_PERCENT)) if self._place else 0.0
            if _LOUDER_THAN_PLACE * place < power < _REST * self._echo_power:
                piece = (max(_FAINT, math.sqrt(place)) * self._noise.standard_normal(len(piece))).astype(np.float32)
            pieces.append(piece)
        return np.concatenate(pieces)

    def _learn(self, heard: FloatArray, played: FloatArray) -> None:
        """Take a chunk of what was heard, and what was played from LONGEST_DELAY before its beginning to its end."""
        if float(np.sqrt(np.mean(played**2))) < _AUDIBLE:
            return
        peak = self._strongest(heard, played)
        if peak is not None and (self._delay is None or not _BEFORE - _OFF_BY <= peak - self._delay <= _BEFORE + _OFF_BY):
            self._delay = max(0, peak - _BEFORE)
            self._forget()
        if self._delay is None:
            return
        # A delay once found holds: clocks apart in a loud place, it can't be told for seconds, and the filter must follow all the same.
        end = len(played) - self._delay
        recent = played[end - _CHUNK - TAPS + 1 : end].astype(np.float64)
        if float(np.sqrt(np.mean(recent**2))) < _AUDIBLE:
            return
        self._own = _KEPT * self._own + _covariance(recent)
        self._cross = _KEPT * self._cross + np.correlate(recent, heard.astype(np.float64), "valid")[::-1]
        ridge = _RIDGE * float(np.trace(self._own)) / TAPS
        self._filter = np.linalg.solve(self._own + ridge * np.eye(TAPS), self._cross).astype(np.float32)

    def _strongest(self, heard: FloatArray, played: FloatArray) -> int | None:
        """Return the delay at which what was heard is most like what was played, all frequencies alike; None where there is no echo."""
        size = _fft_size()
        behind = np.concatenate([np.zeros(len(played) - len(heard), np.float32), heard])
        self._spectrum = _KEPT_FOR_DELAY * self._spectrum + np.fft.rfft(behind, size) * np.conj(np.fft.rfft(played, size))
        whitened = self._spectrum / (np.abs(self._spectrum) + 1e-9 * float(np.abs(self._spectrum).max()) + 1e-30)
        likeness = np.abs(np.fft.irfft(whitened, size)[:LONGEST_DELAY])
        peak = int(np.argmax(likeness))
        return peak if likeness[peak] > _STANDS_OUT * float(np.sqrt(np.mean(likeness**2))) else None


def _fft_size() -> int:
    return 1 << (_SPAN + LONGEST_DELAY).bit_length()


def _covariance(sound: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return for taps i and j the sum over a chunk of x[n - i] x[n - j], shape (TAPS, TAPS); ``sound`` begins TAPS - 1 before it.

    Only the first row is summed; each further one differs from the row above by what enters at the beginning and leaves at the end.
    """
    count = len(sound) - TAPS + 1
    first = np.correlate(sound, sound[TAPS - 1 :], "valid")[::-1]
    entering = sound[TAPS - 2 :: -1]  # x[first - 1 - i] for i < TAPS - 1
    leaving = sound[count:][::-1]  # x[last - i] for i < TAPS - 1
    table = np.zeros((TAPS, TAPS))
    table[0] = table[:, 0] = first
    step = np.outer(entering, entering) - np.outer(leaving, leaving)
    for row in range(1, TAPS):
        table[row, 1:] = table[row - 1, :-1] + step[row - 1]
    return table
