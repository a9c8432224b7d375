"""How dark the sky is here, asked once in the night, by what an observer can tell: how the Milky Way shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta

from companion import sky
from companion.observing import MilkyWay, SiteSky, darkness_from_milky_way
from companion.procedure.night.state import Night
from companion.procedure.notes import Learned
from companion.procedure.script import Context, Steps, ask
from companion.sky import Body, Moment, Place
from companion.talk.night_answers import MilkyWayAnswer, TargetAnswer
from companion.talk.night_phrases import HowDoesTheMilkyWayShow, Told
from companion.talk.saying import Reply

_EYES_SETTLED = timedelta(minutes=20)
"""So long after the first target eyes are used to the dark: common practice, no published source."""
_FAINT_MOON = 0.15
"""A Moon lit more than so much, while it is up, hides how dark the place is. Judgement."""
_NEAR_THE_ZENITH_DEG = 35.0
"""How near to the zenith the Milky Way must pass to be judged there. Judgement."""
_GALACTIC_POLE = Body("galactic pole", "star", place=Place(192.859, 27.128))
"""J2000: IAU system of galactic coordinates of 1958, as in the Hipparcos catalogue's introduction, section 1.5.3."""
_SHOWS: Mapping[MilkyWayAnswer, MilkyWay | None] = {
    MilkyWayAnswer.EASILY: "overhead",
    MilkyWayAnswer.FAINTLY: "washed out",
    MilkyWayAnswer.JUST: "barely",
    MilkyWayAnswer.NOT_AT_ALL: "unseen",
    MilkyWayAnswer.SKIP: None,
}
_COUNTS_AS_SEEN = (MilkyWayAnswer.EASILY, MilkyWayAnswer.FAINTLY)
"""The profile knows seen and not seen: each stands for the sky that is nearer to it."""


def ask_how_dark(context: Context, night: Night, told: Reply[Told]) -> Steps[tuple[Night, Reply[Told]]]:
    """Before the next target ask, where nobody has told and it can be judged now; return the night as it is then, and what to do next.

    That is what was told, unless something else is wanted instead of an answer. Noted for the profile, which is kept only if wanted.
    """
    if told.command is not TargetAnswer.NEXT or night.asked_how_dark or not _can_be_judged(context, night, told.time):
        return night, told
    night = replace(night, asked_how_dark=True)
    answer = yield from ask(HowDoesTheMilkyWayShow())
    if isinstance(answer.command, TargetAnswer):
        return night, Reply(answer.command, answer.time, answer.slots)
    shows = _SHOWS[answer.command]
    if shows is not None:
        yield Learned.one("observer", "sees_milky_way", answer.command in _COUNTS_AS_SEEN)
        night = replace(night, site_sky=SiteSky(darkness_from_milky_way(shows)))
    return night, Reply(told.command, answer.time)


def _can_be_judged(context: Context, night: Night, time: datetime) -> bool:
    """Say whether this observer can tell now: nobody has told before, eyes have settled, and the sky is dark and clear overhead."""
    observer = context.equipment.observer
    if observer.sees_milky_way is not None or "faint-stars" in observer.limits or time - context.started < _EYES_SETTLED:
        return False
    return not night.clouds and night.clear_side is None and _is_overhead(context.moment(time)) and _is_dark(context.moment(time))


def _is_dark(moment: Moment) -> bool:
    moon = sky.moon_state(moment)
    return sky.sun_state(moment).darkness == "dark" and (moon.altitude_deg < 0.0 or moon.illuminated_fraction < _FAINT_MOON)


def _is_overhead(moment: Moment) -> bool:
    """Say whether the Milky Way passes near the zenith: that is as far from it as its pole is from the horizon."""
    return abs(sky.sight(_GALACTIC_POLE, moment, refraction=False).altitude_deg) <= _NEAR_THE_ZENITH_DEG
