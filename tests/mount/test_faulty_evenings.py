"""A few of the random evenings with faults; ``python -m tests.mount.faulty_evenings`` runs many."""

from __future__ import annotations

import pytest

from tests.mount.faulty_evenings import one_evening


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(16_000, 16_004))
def test_nothing_turns_unasked_and_nothing_is_sent_twice(seed: int) -> None:
    """Whatever is said and whatever fails on the line, through a resume."""
    one_evening(seed)
