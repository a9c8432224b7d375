"""``python -m tests.fuzzing [INPUTS [SEED [TARGET…]]]``: so many damaged inputs to each target; what is found is printed, input and all."""

from __future__ import annotations

import random
import sys
import tempfile
import time
from pathlib import Path

from tests.fuzzing.damage import damaged
from tests.fuzzing.targets import TARGETS, finding


def sweep(name: str, inputs: int, seed: int, folder: Path) -> list[tuple[bytes, str]]:
    """Return the first three findings among so many inputs to a target."""
    chance, target, found = random.Random(f"{seed} {name}"), TARGETS[name], list[tuple[bytes, str]]()
    for _ in range(inputs):
        data = damaged(chance.choice(target.right), chance)
        what = finding(target, data, folder)
        if what is not None:
            found.append((data, what))
        if len(found) == 3:
            break
    return found


def main() -> int:
    """Sweep and print a line a target; the exit code is 1 where anything was found."""
    inputs, seed = (int(number) for number in (*sys.argv[1:3], "1000", "1")[:2]) if len(sys.argv) != 2 else (int(sys.argv[1]), 1)
    failed = False
    for name in sys.argv[3:] or TARGETS:
        began = time.monotonic()
        with tempfile.TemporaryDirectory() as folder:
            found = sweep(name, inputs, seed, Path(folder))
        print(f"{name}: {inputs} inputs, seed {seed}, {len(found)} findings, {time.monotonic() - began:.1f} s", flush=True)
        for data, what in found:
            failed = True
            print(f"  {what[:300]}\n    {data[:300]!r}", flush=True)
    return int(failed)


if __name__ == "__main__":
    sys.exit(main())
