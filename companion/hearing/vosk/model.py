"""A model directory, looked at before the library is: some mistakes in it end the process, and none is named by the library."""

from __future__ import annotations

import re
import struct
from dataclasses import dataclass
from pathlib import Path

from companion.errors import MissingPart

USUAL_RATE_HZ = 16_000
"""Where the model's features name no rate."""
_POSSIBLE_RATES_HZ = range(8_000, 48_001)
_SMALL = "a small or lgraph model, such as vosk-model-small-en-us-0.15 (companion model get en)"
_NEEDED = ("am/final.mdl", "conf/mfcc.conf", "graph/Gr.fst", "graph/HCLr.fst")
_RATE = re.compile(r"^\s*--sample-frequency\s*=\s*([\d.]+)", re.MULTILINE)
_MAGIC = b"\xd6\xfd\xb2\x7e"
"""How an OpenFst file begins."""
_STATE_BYTES, _ARC_BYTES = 20, 16
"""What one state and one arc take in a const graph of OpenFst."""


@dataclass(frozen=True)
class ModelDirectory:
    """A directory that holds all a recogniser of changing grammars needs."""

    path: Path
    rate_hz: int
    """What its features are computed from."""


def check_model(directory: Path) -> ModelDirectory:
    """Return the directory if it holds a whole dynamic-graph model. Raises MissingPart with what is wrong and which model to install."""
    try:
        return _checked(directory)
    except OSError as error:
        raise _unfit(directory, f"it can't be read ({error.strerror})") from error


def _checked(directory: Path) -> ModelDirectory:
    if not directory.is_dir():
        raise _unfit(directory, "is no directory" if directory.exists() else "there is no such directory")
    graph = directory / "graph"
    if (graph / "HCLG.fst").exists() and not (graph / "HCLr.fst").exists():
        raise _unfit(directory, "this model has a static graph (HCLG.fst), which can't be held to a grammar")
    for name in _NEEDED:
        file = directory / name
        if not file.is_file() or file.stat().st_size == 0:
            raise _unfit(directory, f"this is no whole Vosk model ({name} is {'empty' if file.is_file() else 'missing'})")
    for file in (graph / "Gr.fst", graph / "HCLr.fst"):
        if not _is_whole(file):
            raise _unfit(directory, f"graph/{file.name} is damaged or cut short; unpack the model again")
    return ModelDirectory(directory, _rate_hz(directory))


def _unfit(directory: Path, reason: str) -> MissingPart:
    return MissingPart(f"{directory}: {reason}; give the folder of {_SMALL}")


def _rate_hz(directory: Path) -> int:
    found = _RATE.search((directory / "conf" / "mfcc.conf").read_text("utf-8", errors="replace"))
    rate_hz = round(float(found[1])) if found and found[1].count(".") <= 1 else USUAL_RATE_HZ
    if rate_hz not in _POSSIBLE_RATES_HZ:
        raise _unfit(directory, f"conf/mfcc.conf asks for the impossible rate of {rate_hz} Hz")
    return rate_hz


def _is_whole(file: Path) -> bool:
    """Tell whether a graph is one and, as far as its head tells, all there: the library ends the process over half a HCLr.fst."""
    with file.open("rb") as opened:
        head = opened.read(400)
    if not head.startswith(_MAGIC):
        return False
    inner = head.find(_MAGIC, len(_MAGIC))
    if inner < 0:
        return True  # No graph with a table for looking ahead, so nothing we can count.
    try:
        kind, at = _text(head, inner + len(_MAGIC))
        _, at = _text(head, at)
        _, _, _, _, states, arcs = struct.unpack_from("<iiQqqq", head, at)
    except struct.error:
        return False
    return kind != b"const" or file.stat().st_size >= _STATE_BYTES * states + _ARC_BYTES * arcs


def _text(head: bytes, at: int) -> tuple[bytes, int]:
    """Return a string with its length before it, and where it ends."""
    (length,) = struct.unpack_from("<i", head, at)
    return head[at + 4 : at + 4 + length], at + 4 + length
