"""Under cloud: one question about the whole sky, then the part that is clear, the wait, or the end; never star after star."""

from __future__ import annotations

from datetime import datetime
from typing import assert_never

from companion import sky
from companion.equipment import Obstruction
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.script import Steps, ask
from companion.sky.bands import CompassPoint
from companion.talk.answers import ClearSkyAnswer, ReadyAnswer
from companion.talk.cloud_phrases import IsAnyOfItClear, NothingGoodThere, WaitForTheSky, WhichPartIsClear
from companion.talk.saying import Reply
from companion.talk.stars_phrases import CapsOffNow

_CLEAR_DEG = 60.0
"""How far to each side of a compass point somebody means who says that part is clear: judgement."""
_OVERHEAD_DEG = 45.0
_OVERHEAD = "overhead"


def find_clear_sky(state: AlignmentState, time: datetime) -> Steps[datetime | None]:
    """Ask what is clear and look only there, or wait; return when to go on, None to go on without the stars."""
    told = yield from ask(IsAnyOfItClear())
    if told.command is ClearSkyAnswer.YES:
        told = yield from ask(WhichPartIsClear())
    match told.command:
        case ClearSkyAnswer.CLEAR_PART:
            state.forgive()
            state.hidden.append(_all_but(told))
            if state.next_star(told.time) is not None:
                return told.time
            yield NothingGoodThere()
        case ClearSkyAnswer.YES | ClearSkyAnswer.SKIP:
            # Some of it is, or nobody can say: what isn't known to be hidden is tried.
            state.clouded = 0
            return told.time
        case ClearSkyAnswer.NONE_CLEAR:
            pass
        case _:
            assert_never(told.command)
    cleared = yield from ask(WaitForTheSky())
    state.forgive()
    if cleared.command is ReadyAnswer.READY:
        if not sky.sun_state(state.context.moment(cleared.time)).is_up:
            yield CapsOffNow()
        return cleared.time
    state.no_star_tonight = True
    return None


def _all_but(told: Reply[ClearSkyAnswer]) -> Obstruction:
    """Return what hides everything outside the part that was told."""
    part = told.slots["clear_part"]
    if part == _OVERHEAD:
        return Obstruction(0.0, 360.0, _OVERHEAD_DEG, "cloud")
    middle_deg = 45.0 * CompassPoint[part.upper().replace("-", "_")].value
    return Obstruction((middle_deg + _CLEAR_DEG) % 360, (middle_deg - _CLEAR_DEG) % 360, 90.0, "cloud")
