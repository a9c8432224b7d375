"""Silence that is broken once."""

from __future__ import annotations

from companion.live.patience import REMINDER_SECONDS, Patience
from companion.messages import Silence


def test_patience_reminds_once() -> None:
    """A long silence is broken once; somebody's speaking puts it off; told to wait, it waits."""
    now, busy = [0.0], [False]
    patience = Patience(lambda: now[0], lambda: busy[0])

    def heard_at(time: float) -> list[object]:
        now[0] = time
        return list(patience.hearings())

    assert heard_at(1000.0) == []
    now[0] = 2000.0
    patience.wait()
    assert heard_at(2000.0 + REMINDER_SECONDS - 1) == []
    busy[0] = True
    assert heard_at(2010.0) == []
    busy[0] = False
    assert heard_at(2010.0 + REMINDER_SECONDS - 1) == []
    assert heard_at(2010.0 + REMINDER_SECONDS) == [Silence()]
    assert heard_at(4000.0) == []
    patience.wait()
    patience.wait_no_longer()
    busy[0] = True
    assert heard_at(4001.0) == []
    busy[0] = False
    assert heard_at(9000.0) == []
