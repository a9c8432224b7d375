"""Where a star lay when the mount stopped: what the observer answers, as degrees."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import datetime
from typing import Literal, TypeAlias, assert_never

from companion import diagnosis, sky
from companion.equipment import FIST_DEG
from companion.messages import Slots
from companion.procedure.notes import MissTold
from companion.talk.answers import MissAnswer
from companion.talk.saying import Reply

# By eye along the tube, in fists and fingers: 2 degrees and a fifth of the miss. Common practice, no published source.
_BY_EYE_DEG, _BY_EYE_SHARE = 2.0, 0.2
_HALF_TURN_SIGMA_DEG = 40.0
""""Behind me" is a rough half turn: anything beyond a quarter fits it."""

Message: TypeAlias = Literal["failed", "success", "none"]
"""What the mount said of the alignment."""


def told_miss(
    star: str, reply: Reply[MissAnswer], before: Sequence[MissTold], *, synced: bool, fist_deg: float = FIST_DEG
) -> MissTold | None:
    """Return the miss an answer means; None where it says no direction ("just outside the finder" is an ordinary miss)."""
    right_deg: float | None
    up_deg: float | None
    match reply.command:
        case MissAnswer.MISS:
            right_deg, up_deg = (part * fist_deg / FIST_DEG for part in _parts(reply.slots))
        case MissAnswer.SAME:
            if not before:
                return None
            right_deg, up_deg = before[-1].right_deg, before[-1].up_deg
        case MissAnswer.BEHIND:
            right_deg, up_deg = 180.0, 0.0
        case MissAnswer.NOWHERE:
            right_deg = up_deg = None
        case MissAnswer.JUST_OUTSIDE | MissAnswer.SKIP:
            return None
        case _:
            assert_never(reply.command)
    size_deg = max(abs(right_deg or 0.0), abs(up_deg or 0.0))
    sigma_deg = _HALF_TURN_SIGMA_DEG if reply.command is MissAnswer.BEHIND else _BY_EYE_DEG + _BY_EYE_SHARE * size_deg
    return MissTold(star, reply.time, right_deg, up_deg, synced, sigma_deg)


def as_request(site: sky.Site, started: datetime, misses: Sequence[MissTold], message: Message) -> diagnosis.DiagnoseRequest:
    """Return what the sky's diagnosis works on."""
    return diagnosis.DiagnoseRequest(
        site=site,
        time=started,
        misses=tuple(
            diagnosis.Miss(sky.find(miss.star), miss.time, miss.right_deg, miss.up_deg, miss.synced, miss.sigma_deg) for miss in misses
        ),
        message=message,
    )


def _parts(slots: Slots) -> tuple[float, float]:
    """Return how far to the right and how far up a miss is, by what was said of either; of "up and right" each has its share."""
    if amount := slots.get("amount"):
        sides = (slots.get("slanting") or slots.get("one_way") or "").split()
        share = _degrees(amount) / math.sqrt(len({"left", "right", "up", "down"} & set(sides)) or 1)
        return _signed(share, sides, "right", "left"), _signed(share, sides, "up", "down")
    across, upright = slots.get("across", ""), slots.get("upright", "")
    return _signed(_degrees(across), across.split(), "right", "left"), _signed(_degrees(upright), upright.split(), "up", "down")


def _degrees(said: str) -> float:
    """Return the sum of the numbers said: "20 5 degrees" is 25."""
    return sum(float(word) for word in said.split() if word[0].isdigit())


def _signed(size: float, said: Sequence[str], positive: str, negative: str) -> float:
    """Return a size with the sign of the side that was said, nought where neither was."""
    return size if positive in said else -size if negative in said else 0.0
