"""End the evening safely."""

from __future__ import annotations

from companion.events import Say
from companion.procedure.script import Context, Script


def good_night(context: Context) -> Script:
    """Say how to leave the telescope and oneself in one piece."""
    yield Say("good-night")
    return {}
