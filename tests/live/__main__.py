"""``python -m tests.live``: what is too long for a test: hours of noise, virtual or real, and the delays of an evening by voice."""

from __future__ import annotations

import argparse
import os
import tempfile
from pathlib import Path


def main() -> None:
    """Do what is asked, and print what it showed."""
    parser = argparse.ArgumentParser(prog="python -m tests.live", description=__doc__)
    parser.add_argument("what", choices=["virtual", "real", "delays"])
    parser.add_argument("length", nargs="?", type=float, default=1.0, help="hours of 'virtual', minutes of 'real'")
    options = parser.parse_args()
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from tests.live import measure, soak  # noqa: PLC0415 - after numpy's threads are set

    match options.what:
        case "virtual":
            print(soak.virtual(options.length * 3600))
        case "real":
            print(soak.real(options.length * 60))
        case "delays":
            with tempfile.TemporaryDirectory() as folder:
                print(measure.measured(Path(folder)))


if __name__ == "__main__":
    main()
