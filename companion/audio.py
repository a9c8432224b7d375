"""Sound as a value: mono float samples that carry their own rate, WAV files in and out, and resampling at the edge."""

from __future__ import annotations

import io
import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

import numpy as np
import soundfile
import soxr
from numpy.typing import NDArray

from companion.errors import AudioFileError
from companion.files import open_file, write_whole

SPEECH_RATE_HZ = 16_000
"""The rate every recogniser here is fed at."""
LONGEST_UTTERANCE_SECONDS = 30.0
"""A file that is one utterance is no longer than this: as much as the built-in recogniser's network takes at once."""
HIGHEST_RATE_HZ, MOST_CHANNELS = 384_000, 32
"""No recorder writes more; a file that claims it is damaged, or meant to fill the memory."""
_BLOCK_FRAMES = 1 << 16


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
    """Read a sound file of any width, up to 384,000 samples a second and 32 channels, as mono.

    Raises AudioFileError when it is missing, empty, not sound, not finite or longer than ``longest_seconds``; what its head says is
    believed only as a reason to refuse it, and no more is read than fits.
    """
    name = os.fsdecode(path)
    try:
        with open_file(name) as opened:
            if not os.fstat(opened.fileno()).st_size:
                raise AudioFileError("the file is empty; record it again", file=name)
            return _sound(opened, name, longest_seconds)
    except FileNotFoundError as error:
        raise AudioFileError("there is no such file", file=name) from error
    except OSError as error:
        raise AudioFileError(f"can't be read ({error.strerror or error}); give a WAV", file=name) from error
    except (soundfile.SoundFileError, RuntimeError, ValueError, TypeError) as error:
        raise AudioFileError("not a sound file this can read; give a WAV", file=name) from error


def _sound(opened: BinaryIO, name: str, longest_seconds: float | None) -> Audio:
    # By its number: what a library's callback into Python stumbles over would be printed as a trace.
    with np.errstate(invalid="ignore", over="ignore"), soundfile.SoundFile(opened.fileno(), closefd=False) as file:
        rate_hz, channels = file.samplerate, file.channels
        if not 0 < rate_hz <= HIGHEST_RATE_HZ or channels > MOST_CHANNELS:
            raise AudioFileError(
                f"{rate_hz} samples a second in {channels} channels; at most {HIGHEST_RATE_HZ} in {MOST_CHANNELS} are read", file=name
            )
        most = None if longest_seconds is None else int(longest_seconds * rate_hz)
        too_long = AudioFileError(f"longer than {longest_seconds or 0:g} seconds; cut it into single utterances", file=name)
        if most is not None and file.frames > most:
            raise too_long
        # Each block becomes mono at once: 32 channels of thirty seconds would be more than a gigabyte.
        parts: list[NDArray[np.float32]] = []
        while len(block := file.read(_BLOCK_FRAMES, dtype="float32", always_2d=True)):
            parts.append(block.mean(axis=1, dtype=np.float32))
            if most is not None and sum(map(len, parts)) > most:
                raise too_long
    if not parts:
        raise AudioFileError("holds no sound; record it again", file=name)
    samples = np.concatenate(parts)
    if not np.isfinite(samples).all():
        raise AudioFileError("holds values that are not numbers; record it again", file=name)
    return Audio(samples, rate_hz)


def write_wav(path: str | os.PathLike[str], audio: Audio) -> None:
    """Write 16-bit mono WAV, whole or not at all."""
    sound = io.BytesIO()
    soundfile.write(sound, np.clip(audio.samples, -1.0, 1.0), audio.rate_hz, format="WAV", subtype="PCM_16")
    try:
        write_whole(Path(path), sound.getvalue())
    except OSError as error:
        raise AudioFileError(f"can't be written ({error.strerror}); choose another place", file=os.fsdecode(path)) from error
