"""Where a mount on the line and the observer say different things: asked, not decided."""

from __future__ import annotations

from typing import Literal, TypeAlias

from companion import sky
from companion.observing import found_among
from companion.procedure.mount_calls import read_mount
from companion.procedure.script import Context, Steps, ask
from companion.talk.answers import YesNoAnswer
from companion.talk.mount_phrases import DoesItStandStill, IsItReallyThat

FAR_DEG = 10.0
"""Farther from a star than this, beyond a miss that was told, a mount that was sent there stands at another. Judgement."""
Agreement: TypeAlias = Literal["agreed", "believed", "turning", "elsewhere"]
"""``believed``: against what the mount reads."""


def stands_still(context: Context) -> Steps[bool]:
    """Say whether it stands, as the observer said: where the line says that it turns they are asked again, and believed."""
    read = (yield from read_mount()) if context.linked else None
    if read is None or not read.slewing:
        return True
    return (yield from ask(DoesItStandStill())).command is not YesNoAnswer.NO


def points_at(name: str, context: Context, told_deg: float = 0.0) -> Steps[Agreement]:
    """Say whether it points at something, as the observer said; ``told_deg`` is how far off it was told to be when it stopped."""
    read = (yield from read_mount()) if context.linked else None
    if read is None:
        return "agreed"
    if read.slewing:
        stands = (yield from ask(DoesItStandStill())).command is not YesNoAnswer.NO
        return "agreed" if stands else "turning"
    if read.altitude_deg is None or read.azimuth_deg is None:
        return "agreed"
    seen = sky.sight(found_among(context.own, name), context.moment(read.time), refraction=False)
    away_deg = sky.angle_deg(seen.altitude_deg, seen.azimuth_deg, read.altitude_deg, read.azimuth_deg)
    if away_deg <= FAR_DEG + told_deg:
        return "agreed"
    is_it = yield from ask(IsItReallyThat(name, away_deg))
    return "elsewhere" if is_it.command is YesNoAnswer.NO else "believed"
