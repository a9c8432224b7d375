"""Watching a slew in flight: off the expected box, near the Sun or silent means stop. Pure: a judgement over the readings so far."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from companion.mount.clear_way import Way, is_near_sun
from companion.mount.values import Horizontal

OFF_BOX_DEG = 3.0
"""How far a mount may be beyond start and end, on the sky: some overshoot to take up the play of their gears. Judgement."""
SILENT_S = 1.5
"""Without a reading for so long we don't know where it is: three readings missed at two a second. Judgement."""

Flight = Literal["on_course", "off_course", "near_sun", "silent"]
"""Everything but ``on_course`` means stop."""


@dataclass(frozen=True)
class Seen:
    """Where the mount was seen to point."""

    at_s: float
    """On a clock that only goes forward."""
    pointing: Horizontal


def judge_flight(
    way: Way, seen: Sequence[Seen], *, started_s: float, now_s: float, sun: Horizontal | None, uncertainty_deg: float
) -> Flight:
    """Judge a slew by all that was seen of it so far, oldest first.

    Which turn it took shows as it goes: once it has gone one way round, going back past its start and the other way is off course too.
    """
    if now_s - (seen[-1].at_s if seen else started_s) > SILENT_S:
        return "silent"
    if any(is_near_sun(one.pointing, sun, uncertainty_deg) for one in seen[-1:]):
        return "near_sun"
    return "on_course" if _in_box(way, [one.pointing for one in seen]) else "off_course"


def _in_box(way: Way, pointings: Sequence[Horizontal]) -> bool:
    lowest_deg, highest_deg = way.heights_deg
    turned_deg, furthest_deg, furthest_back_deg = 0.0, 0.0, 0.0
    for before, now in pairwise([way.start, *pointings]):
        # Between two readings no axis turns half way round.
        turned_deg += (now.azimuth_deg - before.azimuth_deg + 180.0) % 360.0 - 180.0
        room_deg = _azimuth_room_deg(now.altitude_deg)
        if not lowest_deg - OFF_BOX_DEG <= now.altitude_deg <= highest_deg + OFF_BOX_DEG:
            return False
        if not way.clockwise_deg - 360.0 - room_deg <= turned_deg <= way.clockwise_deg + room_deg:
            return False
        furthest_deg, furthest_back_deg = max(furthest_deg, turned_deg - room_deg), min(furthest_back_deg, turned_deg + room_deg)
    return not (furthest_deg > 0.0 and furthest_back_deg < 0.0)


def _azimuth_room_deg(altitude_deg: float) -> float:
    """Return how much azimuth the room on the sky is at a height: near the zenith all of it."""
    level = math.cos(math.radians(altitude_deg))
    return 180.0 if level * 180.0 <= OFF_BOX_DEG else OFF_BOX_DEG / level
