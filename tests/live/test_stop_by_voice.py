"""A shout halts the mount; ``python -m tests.live.stop_by_voice`` measures how soon, many times over."""

from __future__ import annotations

import pytest

from tests.live.stop_by_voice import halts, told


@pytest.mark.alone
@pytest.mark.slow
def test_a_shout_halts_the_mount() -> None:
    """One "stop" by a synthesised voice: it stands within a second and a half of the word's end, also on a machine that is busy."""
    found = list(halts(1, ("flite:slt",)))
    print(told(found))
    (halt,) = found
    assert halt.after_s is not None, halt
    assert 0.0 < halt.after_s < 1.5, halt
