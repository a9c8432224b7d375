"""Read out what the hand control asks for, a line at a time, digit by digit."""

from __future__ import annotations

from companion.events import Ask, Say
from companion.procedure.script import Context, Script

LINES = ("key-the-date", "key-the-time", "key-daylight-saving", "key-the-zone", "key-the-latitude", "key-the-longitude")


def key_in_settings(context: Context) -> Script:
    """Say each line as it must be keyed and wait until it is in; "skip this" leaves a line out."""
    yield Say("before-the-settings")
    for line in LINES:
        yield Ask(line, expects="line")
    return {}
