"""Ask what hides the sky near the horizon: trees, houses, hills."""

from __future__ import annotations

from typing import assert_never

from companion.equipment import FIST_DEG, Obstruction
from companion.messages import Slots
from companion.procedure.script import Steps, ask
from companion.procedure.spoken_figures import ask_yes_no, fists_of
from companion.talk.answers import HorizonAnswer
from companion.talk.equipment_phrases import AnythingElseInTheWay, InTheWayHeard, WhatIsInTheWay

_MOST_PARTS = 12
_HALF_A_POINT_DEG = 22.5  # what one of eight compass points covers to either side


def ask_horizon(fist_deg: float = FIST_DEG) -> Steps[tuple[Obstruction, ...] | None]:
    """Ask for what stands in the way, part by part; return it, () for an open horizon, None where it was skipped.

    Heights are told in fists of ``fist_deg`` degrees.
    """
    parts: list[Obstruction] = []
    while len(parts) < _MOST_PARTS:
        answer = yield from ask(AnythingElseInTheWay() if parts else WhatIsInTheWay())
        match answer.command:
            case HorizonAnswer.DONE:
                break
            case HorizonAnswer.SKIP:
                return tuple(parts) or None
            case HorizonAnswer.OBSTRUCTION:
                part = _part(answer.slots, fist_deg)
            case _:
                assert_never(answer.command)
        heard = InTheWayHeard(part.from_azimuth_deg, part.to_azimuth_deg, part.altitude_deg, part.what, fists_of(answer.slots))
        if (yield from ask_yes_no(heard)):
            parts.append(part)
    return tuple(parts)


def _part(slots: Slots, fist_deg: float) -> Obstruction:
    """Return the obstruction an answer tells of."""
    sides = [float(side) for side in slots["side"].split()]
    from_deg, to_deg = sides[0], sides[-1]
    if from_deg == to_deg:
        from_deg, to_deg = (from_deg - _HALF_A_POINT_DEG) % 360, (to_deg + _HALF_A_POINT_DEG) % 360
    elif (to_deg - from_deg) % 360 > 180:
        # People name the ends in any order; the shorter way round is meant.
        from_deg, to_deg = to_deg, from_deg
    return Obstruction(from_deg, to_deg, min(90.0, fists_of(slots) * fist_deg), slots["what"])
