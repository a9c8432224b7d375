"""The program: ``companion`` and ``python -m companion``."""

import os
import sys


def run() -> int:
    """Run the command line."""
    # Two BLAS threads that share their cores with anything else wait for each other: a decision took 4.2 s instead of 0.28 s. numpy
    # reads this when it is loaded, hence before the import; whoever sets it keeps what they set.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from companion.cli import main  # noqa: PLC0415

    return main()


if __name__ == "__main__":
    sys.exit(run())
