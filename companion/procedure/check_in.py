"""Agree on time, zone and place before anything is built on them, and say how dark it is."""

from __future__ import annotations

from companion.events import Ask, Say
from companion.procedure.script import Context, Script


def check_in(context: Context) -> Script:
    """Ask whether our own clock and place are right: both are suspects, for a small board may have no clock chip."""
    yield Say("good-evening")
    while (yield Ask("is-the-clock-right", expects="yes_no")).command == "no":
        yield Ask("mend-the-clock", expects="ready")
    while (yield Ask("is-the-place-right", expects="yes_no")).command == "no":
        yield Ask("mend-the-place", expects="ready")
    yield Say("how-dark-it-is")
    yield Ask("shall-we-start", expects="ready")
    return {}
