"""A few of the evenings whose clock jumps; more: ``python -m tests.jumping_clock``."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.jumping_clock import sweep


@pytest.mark.slow
def test_whatever_the_clock_does_the_evening_goes_on() -> None:
    """Nothing is lost and no sentence missing."""
    counts = Counter[str]()
    assert list(sweep(6, 20261126, counts)) == []
    assert counts["jumps"] > 30
    assert counts["resumes"] > 3
