"""Before anything is looked at: firm ground, legs, clamp, balance, cables, caps, cooling."""

from __future__ import annotations

from companion import sky
from companion.messages import Ask, Say
from companion.procedure.script import Context, Script


def stand_firm(context: Context) -> Script:
    """Go through what has to be right before the mount is touched again."""
    yield Say("mind-the-weight")
    yield Ask("legs-and-ground", expects="ready")
    yield Ask("clamp-and-balance", expects="ready")
    yield Ask("cables-and-frost", expects="ready")
    last = yield Ask("caps-and-cooling", expects="ready")
    return {"capped": sky.sun_state(context.moment(last.time)).is_up}
