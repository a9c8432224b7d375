"""What stands at the top of the sky, where a mount that turns round and up follows badly, and when it has left it."""

from __future__ import annotations

from datetime import datetime

from companion.observing.candidates import candidates
from companion.observing.showpieces import Showpiece
from companion.observing.target_reasons import OVERHEAD_DEG
from companion.sky import ephemeris
from companion.sky.crossings import crossings, sampled
from companion.sky.night import altitude_curve
from companion.sky.positions import sights, target
from companion.sky.types import Body, Moment

_FINEST = 3
_AHEAD_S, _STEP_S = 3 * 3600.0, 600.0
"""Nobody waits longer. Judgement."""
_LEFT_DEG = 78.0
"""Below it a target loses nothing by its height: as ``target_choice`` has it."""


def finest_overhead(moment: Moment) -> list[Showpiece]:
    """Return the finest showpieces that stand at the top of the sky, the famous first."""
    finest = [showpiece for showpiece in candidates(moment) if showpiece.rating == _FINEST]
    up = zip(finest, sights([showpiece.body for showpiece in finest], moment), strict=True)
    return sorted((showpiece for showpiece, seen in up if seen.altitude_deg > OVERHEAD_DEG), key=lambda one: not one.famous)


def leaves_the_top(body: Body, moment: Moment) -> datetime | None:
    """Return when a body has left the top of the sky, UTC; None where that takes more than three hours."""
    curve = altitude_curve(moment.site, target(body), moment.time)
    falls = crossings(curve, sampled(curve, 0.0, _AHEAD_S, _STEP_S), (_LEFT_DEG,), upward=False)[_LEFT_DEG]
    return ephemeris.after(moment.time, falls[0]) if falls else None
