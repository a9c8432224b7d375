"""The clock an evening goes by, and whether this machine's runs on while it is switched off."""

from __future__ import annotations

import sys
import time as system_time
from collections.abc import Callable
from datetime import datetime, timedelta
from functools import partial
from pathlib import Path

Clock = Callable[[], datetime]

_CHIPS = Path("/sys/class/rtc")
"""Where Linux lists the clock chips it found (its documentation of the class, rtc.rst)."""
_SET_SINCE_THE_START = Path("/run/systemd/timesync/synchronized")
"""systemd-timesyncd makes this file once the clock has been set over the network (its manual page)."""


def keeps_time(chips: Path = _CHIPS, set_since_the_start: Path = _SET_SINCE_THE_START, system: str = sys.platform) -> bool:
    """Return False where a board has no clock chip and nothing has set its clock: after a power cut it may be anywhere.

    Systems but Linux are believed to have one.
    """
    if system != "linux":
        return True
    return (chips.is_dir() and any(chips.iterdir())) or set_since_the_start.exists()


def clock_from(time: datetime) -> Clock:
    """Return a clock that reads ``time`` now and runs on from there, through sleep, too.

    Where the system has a clock that nobody sets, that one is read: the evening doesn't jump when the machine's clock is put right.
    """
    counts = getattr(system_time, "CLOCK_BOOTTIME", None)
    elapsed_s = system_time.time if counts is None else partial(system_time.clock_gettime, counts)
    began_s = elapsed_s()
    return lambda: time + timedelta(seconds=elapsed_s() - began_s)
