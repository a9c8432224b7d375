"""How fast to speak, in words a minute."""

from __future__ import annotations

from companion.errors import BadRequest

USUAL_RATE_WPM = 165
"""In the comfortable range of 150 to 200 words a minute (Sutton 1995), slow enough for wind."""
SLOWEST_RATE_WPM = 110
FASTEST_RATE_WPM = 350
"""People used to synthetic speech follow this and more; nobody else does."""


def checked_rate(rate_wpm: int) -> int:
    """Return the rate; raises BadRequest when it is outside what we speak at."""
    if not SLOWEST_RATE_WPM <= rate_wpm <= FASTEST_RATE_WPM:
        raise BadRequest(f"{rate_wpm} words a minute: choose {SLOWEST_RATE_WPM} to {FASTEST_RATE_WPM}")
    return rate_wpm
