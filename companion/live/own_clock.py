"""Whether this machine's clock runs on while it is switched off."""

from __future__ import annotations

import sys
from pathlib import Path

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
