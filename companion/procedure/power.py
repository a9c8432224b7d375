"""Switch the mount on, and what to do when it stays dark or starts again by itself."""

from __future__ import annotations

from companion.messages import Ask, Say
from companion.procedure.script import Context, Script

_TROUBLES = {"dead": "no-power", "restarted": "it-restarted"}


def switch_on(context: Context) -> Script:
    """Switch on and wait until it is."""
    answer = yield Ask("switch-on", expects="power")
    while answer.command in _TROUBLES:
        yield Say(_TROUBLES[answer.command])
        answer = yield Ask("say-when-it-is-on", expects="power")
    return {}
