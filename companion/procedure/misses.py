"""Where a star lay when the mount stopped: what the observer answers, as degrees."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Literal, TypeAlias, assert_never

from companion import diagnosis, sky
from companion.equipment import FIST_DEG
from companion.messages import Slots
from companion.procedure.notes import MissTold
from companion.talk.answers import MissAnswer
from companion.talk.saying import Reply

_FACED_SIGMA_DEG = 15.0
"""How exact "a quarter turn" is: a sixth of it. Judgement; the same for the next."""
_BEHIND_DEG, _BEHIND_SIGMA_DEG = 180.0, 30.0
""""Behind me" is a rough half turn: it is said of anything well beyond a quarter."""

_MOST_WEIGHED = 5
"""So many stars are weighed: more would take seconds and tell little."""

Message: TypeAlias = Literal["failed", "success", "none"]
"""What the mount said of the alignment."""


def told_miss(
    star: str, reply: Reply[MissAnswer], before: Sequence[MissTold], *, synced: bool, fist_deg: float = FIST_DEG
) -> MissTold | None:
    """Return the miss an answer means; None where it says no direction ("just outside the finder" is an ordinary miss).

    ``before``: the misses told so far, those of earlier goes at the alignment among them.
    """
    match reply.command:
        case MissAnswer.MISS:
            right_deg, up_deg = (part * fist_deg / FIST_DEG for part in _parts(reply.slots))
            return MissTold(star, reply.time, right_deg, up_deg, synced)
        case MissAnswer.BEHIND | MissAnswer.TURN:
            said = reply.slots.get("upright")
            upright = None if said is None else _signed(_degrees(said), said.split(), "up", "down") * fist_deg / FIST_DEG
            if reply.command is MissAnswer.BEHIND:
                return MissTold(star, reply.time, None, upright, synced, _BEHIND_DEG, _BEHIND_SIGMA_DEG)
            turned = reply.slots["turned"]
            turn_deg = _signed(_degrees(turned), turned.split(), "right", "left")
            return MissTold(star, reply.time, None, upright, synced, turn_deg, _FACED_SIGMA_DEG)
        case MissAnswer.SAME:
            of_this = [miss for miss in before if miss.star == star]
            last = (of_this or before)[-1:]
            return replace(last[0], star=star, time=reply.time, synced=synced) if last else None
        case MissAnswer.NOWHERE:
            return MissTold(star, reply.time, None, None, synced)
        case MissAnswer.JUST_OUTSIDE | MissAnswer.SKIP:
            return None
        case _:
            assert_never(reply.command)


def as_request(
    site: sky.Site, started: datetime, misses: Sequence[MissTold], centred: Mapping[str, datetime], message: Message
) -> diagnosis.DiagnoseRequest:
    """Return what the sky's diagnosis works on: the misses, and the stars that were centred with none told, in their order.

    ``centred``: when each star was taken in.
    """
    freely = [
        diagnosis.Miss(sky.find(star), time, centred=True) for star, time in centred.items() if star not in {miss.star for miss in misses}
    ]
    in_order = sorted([*map(_as_miss, misses), *freely], key=lambda miss: miss.time)
    while len(in_order) > _MOST_WEIGHED:  # one that was left says nothing of where the mount went afterwards
        in_order.remove(next((miss for miss in in_order[:-1] if miss.body.name not in centred), in_order[0]))
    taken_in = [False, *(miss.body.name in centred for miss in in_order)]
    seen = tuple(replace(miss, synced=before) for miss, before in zip(in_order, taken_in, strict=False))
    return diagnosis.DiagnoseRequest(site, started, seen, message=message)


def _as_miss(told: MissTold) -> diagnosis.Miss:
    """Return a miss told by eye as the diagnosis takes it."""
    miss = diagnosis.Miss(sky.find(told.star), told.time, told.right_deg, told.up_deg, sigma_deg=told.sigma_deg)
    return miss if told.turn_deg is None else replace(miss, turn_deg=told.turn_deg, turn_sigma_deg=told.turn_sigma_deg)


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
