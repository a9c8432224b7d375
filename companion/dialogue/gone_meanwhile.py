"""Going back to a target that can't be seen any more: an hour later it may be low, down, or behind the trees."""

from __future__ import annotations

from companion import sky
from companion.dialogue.stage_run import StageRun
from companion.observing import found_among
from companion.sky import Moment
from companion.talk.night_phrases import FindTarget, IntroduceTarget, NoLongerThere
from companion.talk.turning_phrases import ShallITurnThere, ShallITurnThereToo

_TOO_LOW_DEG = 5.0
"""Lower nothing shows but what is bright. Judgement."""


def gone_meanwhile(run: StageRun, moment: Moment) -> NoLongerThere | None:
    """Return what to say where the open question offers a target that is gone by now; None where it is another, or still there."""
    if not isinstance(run.question, IntroduceTarget | FindTarget | ShallITurnThere | ShallITurnThereToo):
        return None
    sight = sky.sight(found_among(run.context.own, run.question.target), moment)
    gone = sight.altitude_deg < _TOO_LOW_DEG or run.context.hides(sight)
    return NoLongerThere(run.question.target) if gone else None
