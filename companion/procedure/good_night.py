"""End the evening safely, and offer to remember what was told for the next one."""

from __future__ import annotations

from companion.messages import Ask, Note, Say
from companion.procedure.notes import KEEP
from companion.procedure.script import Context, Script


def good_night(context: Context) -> Script:
    """Keep what was told only if that is wanted; say how to leave the telescope and oneself in one piece."""
    if context.something_learned and (yield Ask("shall-i-remember", expects="yes_no")).command == "yes":
        yield Note(KEEP)
    yield Say("good-night")
    return {}
