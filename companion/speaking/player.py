"""Our own loudspeaker: one stream kept open at the device's own rate, fed in small blocks, silent at once when told to stop."""

from __future__ import annotations

import enum
import threading
import time
from collections import deque
from collections.abc import Callable
from types import TracebackType
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray

from companion import devices
from companion.audio import Audio
from companion.devices import LOUDSPEAKER, Device
from companion.errors import MissingPart

BLOCK_SECONDS = 0.02
LATENCY_SECONDS = 0.08
"""Asked of the device: short enough to stop within 200 ms, long enough for a busy small board."""
LEAD_IN_SECONDS = 0.3
"""Bluetooth and USB loudspeakers swallow what comes first after a pause."""
LEAD_IN_RMS = 10 ** (-72 / 20)
"""Faint hiss rather than zeros: nobody hears it, but a sleeping amplifier wakes on it."""
IDLE_SECONDS = 2.0
"""After so long without sound a lead-in is due again."""
DEAD_SECONDS = 3.0
"""A device that takes no block for so long is gone; a sound server may need a second for its first."""

Block = tuple[NDArray[np.float32], "Playback | None", bool]
"""Samples, whose they are, and whether its end comes with them."""


class Outcome(enum.Enum):
    """How a playback ended."""

    FINISHED = "finished"
    """It was played to its end."""
    STOPPED = "stopped"
    """``stop`` or ``close`` cut it off."""
    DEVICE_LOST = "device lost"
    """The loudspeaker went away."""


class Playback:
    """One sound handed to the player."""

    def __init__(self, player: Player) -> None:
        """Wait for the player to say how it ended."""
        self._player = player
        self._over = threading.Event()
        self._outcome = Outcome.STOPPED

    @property
    def over(self) -> bool:
        """Whether it has ended, one way or another."""
        return self._over.is_set()

    def wait(self) -> Outcome:
        """Block until the last of it has been heard, or it was stopped, or the device is lost; return which."""
        blocks = self._player.blocks_taken
        while not self._over.wait(DEAD_SECONDS):
            if self._player.blocks_taken == blocks:
                self._player._lose()
                self._end(Outcome.DEVICE_LOST)
            blocks = self._player.blocks_taken
        return self._outcome

    def _end(self, outcome: Outcome) -> None:
        if not self._over.is_set():
            self._outcome = outcome
            self._over.set()


class Player:
    """Plays sounds one after another on one loudspeaker. ``play`` and ``stop`` may be called from any thread."""

    def __init__(self, device: str | None = None, tap: Callable[[NDArray[np.float32], int], None] | None = None) -> None:
        """Open the loudspeaker whose name holds ``device`` (any case), else the system's default.

        ``tap`` is called with each block as it is handed to the device, and its rate, on the device's own thread: it must not wait.

        Raises MissingPart, with the remedy or the choices, when PortAudio or the loudspeaker is missing or refuses.
        """
        self._tap = tap
        self._pending: deque[Block] = deque()
        self._lock = threading.Lock()
        self.blocks_taken = 0
        """Blocks the device has asked for so far."""
        self.underflows = 0
        """How often the device ran dry before we answered."""
        self._lost = False
        self._taken_at = time.monotonic()
        self._closing = False
        self._loudspeaker = devices.find(LOUDSPEAKER, device)
        self._block_frames = round(BLOCK_SECONDS * self.rate_hz)
        self._quiet = np.zeros(self._block_frames, np.float32)
        self._idle_blocks = round(IDLE_SECONDS / BLOCK_SECONDS)
        self._stream = devices.opened(lambda: _opened(self._loudspeaker, self._block_frames, LATENCY_SECONDS, self._fill, self._finished))
        self._tail_blocks = 1 + round(self._stream.latency / BLOCK_SECONDS)

    @property
    def name(self) -> str:
        """What the system calls the loudspeaker."""
        return self._loudspeaker.name

    @property
    def rate_hz(self) -> int:
        """The rate the stream runs at, the device's own."""
        return self._loudspeaker.rate_hz

    @property
    def lost(self) -> bool:
        """Whether the device ended the stream by itself, or has taken nothing for DEAD_SECONDS."""
        return self._lost or (not self._closing and time.monotonic() - self._taken_at > DEAD_SECONDS)

    def play(self, audio: Audio) -> Playback:
        """Queue the sound behind what is playing and return at once. On a lost device it ends as DEVICE_LOST."""
        playback = Playback(self)
        samples = audio.at_rate(self.rate_hz).samples
        with self._lock:
            if not self._pending and self._is_idle and len(samples):
                samples = np.concatenate([self._lead_in(), samples])
            padded = np.pad(samples, (0, -len(samples) % self._block_frames)).reshape(-1, self._block_frames)
            # The end belongs to the block it comes with: whether more is queued may change while that is being handed over.
            self._pending.extend((block, playback, False) for block in padded)
            # What the device has taken it still has to play: the end is heard this much later.
            self._pending.extend((self._quiet, playback, tail == 1) for tail in range(self._tail_blocks, 0, -1))
            self._pending.append((self._quiet, None, False))
        if self.lost or self._closing:
            self.stop(Outcome.DEVICE_LOST if self.lost else Outcome.STOPPED)
        return playback

    def wake(self) -> None:
        """Wake an idle loudspeaker with the lead-in, or keep it awake, so that what is played within the next seconds needs none."""
        with self._lock:
            if not self._is_idle:
                self._idle_blocks = 0
            elif not self._pending:
                padded = np.pad(self._lead_in(), (0, -round(LEAD_IN_SECONDS * self.rate_hz) % self._block_frames))
                self._pending.extend((block, None, False) for block in padded.reshape(-1, self._block_frames))

    def stop(self, outcome: Outcome = Outcome.STOPPED) -> None:
        """Fade out within one block and forget everything queued."""
        with self._lock:
            cut = list(self._pending)
            self._pending.clear()
            if cut:
                fade = np.linspace(1, 0, self._block_frames, dtype=np.float32)
                self._pending.append((cut[0][0] * fade, None, False))
        for _, playback, _ in cut:
            if playback is not None:
                playback._end(outcome)

    def close(self) -> None:
        """Cut off what is playing and give the device back."""
        self._closing = True
        self.stop(Outcome.DEVICE_LOST if self.lost else Outcome.STOPPED)
        self._pending.clear()
        devices.let_go(self._stream)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self.close()

    @property
    def _is_idle(self) -> bool:
        return self._idle_blocks >= round(IDLE_SECONDS / BLOCK_SECONDS)

    def _lead_in(self) -> NDArray[np.float32]:
        noise: NDArray[np.float32] = np.random.default_rng(0).standard_normal(round(LEAD_IN_SECONDS * self.rate_hz), np.float32)
        return noise * np.float32(LEAD_IN_RMS)

    def _fill(self, outdata: NDArray[np.float32], frames: int, when: Any, status: Any) -> None:
        """Copy the next block to the device: called on PortAudio's own thread, which must never wait."""
        self.blocks_taken += 1
        self._taken_at = time.monotonic()
        if status.output_underflow:
            self.underflows += 1
        try:
            block, playback, is_last = self._pending.popleft()
            self._idle_blocks = 0
        except IndexError:
            block, playback, is_last = self._quiet, None, False
            self._idle_blocks += 1
        outdata[:] = block[:, np.newaxis]
        if self._tap is not None:
            self._tap(block, self.rate_hz)
        if playback is not None and is_last:
            playback._end(Outcome.FINISHED)

    def _finished(self) -> None:
        """Note that the stream ended, which only the device does on its own."""
        if not self._closing:
            self._lose()

    def _lose(self) -> None:
        self._lost = True
        self.stop(Outcome.DEVICE_LOST)


def _opened(device: Device, block_frames: int, latency_seconds: float, fill: Callable[..., None], finished: Callable[[], None]) -> Any:
    """Return a started stream of 32-bit floats, both channels alike; raises MissingPart when the device refuses."""
    sounddevice = devices.sounddevice()
    settings = {"device": device.index, "channels": min(2, device.channels), "samplerate": device.rate_hz, "dtype": "float32"}
    try:
        sounddevice.check_output_settings(**settings)
        stream = sounddevice.OutputStream(
            **settings, blocksize=block_frames, latency=latency_seconds, callback=fill, finished_callback=finished
        )
        stream.start()
    except sounddevice.PortAudioError as error:
        message = f"the loudspeaker {device.name!r} can't be opened ({error}); choose another: {devices.names(LOUDSPEAKER)}"
        raise MissingPart(message) from error
    return stream
