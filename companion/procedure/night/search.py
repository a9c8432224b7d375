"""Where nothing shows: what to try, one thing at a time, the likeliest first."""

from __future__ import annotations

from companion.sky import Body
from companion.talk.night_phrases import CheckTheFinder, HowItLooks, LeaveItForLater, LookBeside, LowestPower, SweepForIt, Told
from companion.talk.saying import Ask

BY_HAND_AFTER = 5
"""After so many remedies the way there is gone by hand."""


def remedy(body: Body, tried: int) -> Ask[Told]:
    """Return what to try after so many remedies; in the end only to leave it."""
    steps: tuple[Ask[Told], ...] = (
        CheckTheFinder(body.name),
        LowestPower(),
        LookBeside(),
        HowItLooks(body.name, body.kind),
        SweepForIt(),
        LeaveItForLater(),
    )
    return steps[min(tried, len(steps) - 1)]
