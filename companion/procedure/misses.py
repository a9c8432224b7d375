"""Where a star lay when the mount stopped: what the observer answers, as degrees."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Literal, TypeAlias, assert_never

from companion import diagnosis, sky
from companion.equipment import FIST_DEG
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
            right_deg = _signed(reply.slots.get("across"), "right") * fist_deg / FIST_DEG
            up_deg = _signed(reply.slots.get("upright"), "up") * fist_deg / FIST_DEG
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


def _signed(said: str | None, positive: str) -> float:
    """Return "8 right" as 8, "8 left" as -8, nothing as 0."""
    if said is None:
        return 0.0
    amount, side = said.split()
    return float(amount) if side == positive else -float(amount)
