"""How soon the program answers: ``companion --help`` beside a Python that only loads its standard library's argument reader."""

from __future__ import annotations

import subprocess
import sys
from statistics import median
from time import perf_counter

YARDSTICK = ("-c", "import argparse")
HELP = ("-m", "companion", "--help")


def startup(runs: int) -> list[str]:
    """Return lines for both medians and their ratio; the runs alternate, so that others' work on this machine slows both alike."""
    _seconds(HELP)  # the first run writes the byte code
    pairs = [(_seconds(YARDSTICK), _seconds(HELP)) for _ in range(runs)]
    plain, ours = (median(seconds) for seconds in zip(*pairs, strict=True))
    return [
        f"median of {runs} runs each",
        f"  python -c 'import argparse'  {plain * 1000:6.1f} ms",
        f"  python -m companion --help   {ours * 1000:6.1f} ms, {ours / plain:.2f} times as long",
    ]


def _seconds(arguments: tuple[str, ...]) -> float:
    began = perf_counter()
    subprocess.run([sys.executable, *arguments], stdout=subprocess.DEVNULL, check=True)
    return perf_counter() - began
