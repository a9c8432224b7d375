"""A day by voice on stand-ins for devices and clock: what is said stays right, and nothing grows."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from tests.live.fakes import Night, quiet, voice
from tests.live.soak import resident_mb

HOURS = 24 if os.environ.get("COMPANION_FULL_SWEEP") == "1" else 4


@pytest.mark.slow
def test_hours_of_silence_cost_nothing(tmp_path: Path) -> None:
    """Four hours, or a day with COMPANION_FULL_SWEEP=1: the time is right twice, patience is offered once after each word."""
    memory_mb: list[float] = []

    def frames() -> Iterator[np.ndarray]:
        for number in (1, 2, 3):
            yield from quiet(45)
            yield from voice(number)
        for _ in range(2):
            yield from quiet(HOURS * 1800)
            memory_mb.append(resident_mb())
            yield from voice(4)
        yield from quiet(45)

    night = Night(tmp_path, frames(), words=["yes", "yes", "ready", "what time is it"])
    night.hold()
    told = [line.split(". ")[0].removeprefix("it:  ") for line in night.shown if line.startswith("it:  It's ")]
    # It begins at eight in the evening, and three answers take two minutes.
    by_hours = {4: ["two minutes past ten in the evening", "two minutes past twelve at night"]}
    day = ["two minutes past eight in the morning", "two minutes past eight in the evening"]
    assert told == [f"It's {time}" for time in by_hours.get(HOURS, day)]
    assert sum("Take your time" in line for line in night.shown) == 3
    assert memory_mb[1] - memory_mb[0] < 5.0
