"""Sound as a value: mono float samples that carry their own rate, WAV files in and out, and resampling at the edge."""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import soundfile
import soxr
from numpy.typing import NDArray

from companion.errors import AudioFileError

SPEECH_RATE_HZ = 16_000
"""The rate every recogniser here is fed at."""
LONGEST_UTTERANCE_SECONDS = 30.0
"""A file that is one utterance is no longer than this: as much as the built-in recogniser's network takes at once."""


@dataclass(frozen=True, eq=False)
class Audio:
    """A stretch of mono sound."""

    samples: NDArray[np.float32]
    """Shape (n,), full scale is -1..1."""
    rate_hz: int
    """Samples a second."""

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return len(self.samples) / self.rate_hz

    def at_rate(self, rate_hz: int) -> Audio:
        """Return the same sound at another rate (band-limited, soxr high quality)."""
        if rate_hz == self.rate_hz:
            return self
        return Audio(soxr.resample(self.samples, self.rate_hz, rate_hz).astype(np.float32), rate_hz)


def silence(seconds: float, rate_hz: int) -> Audio:
    """Return digital silence."""
    return Audio(np.zeros(round(seconds * rate_hz), np.float32), rate_hz)


def join(parts: Iterable[Audio], rate_hz: int) -> Audio:
    """Put sounds one after another, each brought to ``rate_hz``."""
    pieces = [part.at_rate(rate_hz).samples for part in parts]
    return Audio(np.concatenate(pieces) if pieces else np.zeros(0, np.float32), rate_hz)


def read_wav(path: str | os.PathLike[str], longest_seconds: float | None = None) -> Audio:
    """Read a sound file of any rate, width and number of channels as mono.

    Raises AudioFileError when it is missing, empty, not sound, not finite or longer than ``longest_seconds``.
    """
    name = os.fspath(path)
    if not Path(name).is_file():
        raise AudioFileError("there is no such file" if not Path(name).exists() else "this is not a file", file=name)
    if Path(name).stat().st_size == 0:
        raise AudioFileError("the file is empty; record it again", file=name)
    try:
        with soundfile.SoundFile(name) as file:
            if longest_seconds is not None and file.frames > longest_seconds * file.samplerate:
                raise AudioFileError(f"longer than {longest_seconds:g} seconds; cut it into single utterances", file=name)
            frames = file.read(dtype="float32", always_2d=True)
            rate_hz = file.samplerate
    except (soundfile.SoundFileError, OSError, RuntimeError, ValueError) as error:
        raise AudioFileError("not a sound file this can read; give a WAV", file=name) from error
    if len(frames) == 0:
        raise AudioFileError("holds no sound; record it again", file=name)
    if not np.isfinite(frames).all():
        raise AudioFileError("holds values that are not numbers; record it again", file=name)
    return Audio(frames.mean(axis=1, dtype=np.float32), rate_hz)


def write_wav(path: str | os.PathLike[str], audio: Audio) -> None:
    """Write 16-bit mono WAV, whole or not at all."""
    target = Path(path)
    partial = target.with_name(target.name + ".part")
    try:
        soundfile.write(partial, np.clip(audio.samples, -1.0, 1.0), audio.rate_hz, format="WAV", subtype="PCM_16")
        partial.replace(target)
    except (OSError, soundfile.SoundFileError) as error:
        partial.unlink(missing_ok=True)
        raise AudioFileError(f"can't be written ({error}); choose another place", file=str(target)) from error
