"""How dark the sky is here, asked once in the night by what an observer can tell then: how the Milky Way shows, or how many stars."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from typing import assert_never

from companion import sky
from companion.observing import (
    Figure,
    MilkyWay,
    SiteSky,
    darkness_from_faintest_star,
    darkness_from_milky_way,
    faintest_seen_mag,
    figure_to_count,
)
from companion.procedure.night.state import Night
from companion.procedure.notes import Learned
from companion.procedure.script import Context, Steps, ask
from companion.procedure.spoken_figures import number_in
from companion.sky import Body, Moment, Place
from companion.talk.answers import ToldFigureAnswer
from companion.talk.night_answers import MilkyWayAnswer, ShowMeAnswer, StarCountAnswer, TargetAnswer
from companion.talk.night_phrases import HowDoesTheMilkyWayShow, HowManyStarsInside, Told
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
    MilkyWayAnswer.DONT_KNOW: None,
    MilkyWayAnswer.SKIP: None,
}
_COUNTS_AS_SEEN = (MilkyWayAnswer.EASILY, MilkyWayAnswer.FAINTLY)
"""The profile knows seen and not seen: each stands for the sky that is nearer to it."""


def ask_how_dark(context: Context, night: Night, told: Reply[Told]) -> Steps[tuple[Night, Reply[Told]]]:
    """Before the next target ask, where nobody has told and it can be judged now; return the night as it is then, and what to do next.

    That is what was told, unless something else is wanted instead of an answer. Noted for the profile, which is kept only if wanted.
    """
    observer = context.equipment.observer
    can_tell = observer.sight is None or observer.eyes is not None
    wanted = can_tell and told.command is TargetAnswer.NEXT and not night.asked_how_dark
    question = _question(context, night, told.time) if wanted else None
    if question is None:
        return night, told
    night = replace(night, asked_how_dark=True)
    if isinstance(question, HowManyStarsInside):
        return (yield from _count(context, night, told, question))
    answer = yield from ask(question)
    if isinstance(answer.command, TargetAnswer | ShowMeAnswer | ToldFigureAnswer):
        return night, Reply(answer.command, answer.time, answer.slots)
    shows = _SHOWS[answer.command]
    if shows is not None:
        yield Learned.one("observer", "sees_milky_way", answer.command in _COUNTS_AS_SEEN)
        night = replace(night, site_sky=SiteSky(darkness_from_milky_way(shows)))
    return night, Reply(told.command, answer.time)


def _count(context: Context, night: Night, told: Reply[Told], question: HowManyStarsInside) -> Steps[tuple[Night, Reply[Told]]]:
    """Ask for the stars inside a figure, and take the sky to be as dark as they tell."""
    answer = yield from ask(question)
    match answer.command:
        case TargetAnswer() | ShowMeAnswer() | ToldFigureAnswer():
            return night, Reply(answer.command, answer.time, answer.slots)
        case StarCountAnswer.DONT_KNOW | StarCountAnswer.SKIP:
            return night, Reply(told.command, answer.time)
        case StarCountAnswer.STAR_COUNT | StarCountAnswer.NONE:
            limit_mag = faintest_seen_mag(Figure(question.corners), number_in(answer.slots, "number"), context.moment(answer.time))
        case _:
            assert_never(answer.command)
    sky_mag = round(darkness_from_faintest_star(limit_mag), 1)
    yield Learned.one("observer", "sky_mag_arcsec2", sky_mag)
    return replace(night, site_sky=SiteSky(sky_mag)), Reply(told.command, answer.time)


def _question(context: Context, night: Night, time: datetime) -> HowDoesTheMilkyWayShow | HowManyStarsInside | None:
    """Return what this observer can tell now; None before eyes have settled, in a light or cloudy sky, or where somebody has told."""
    observer, moment = context.equipment.observer, context.moment(time)
    known = observer.sees_milky_way is not None or observer.sky_mag_arcsec2 is not None or night.site_sky is not None
    if known or observer.by_touch or "faint-stars" in observer.limits or time - context.started < _EYES_SETTLED:
        return None
    if night.clouds or night.clear_side is not None or not _is_dark(moment):
        return None
    if _is_overhead(moment):
        return HowDoesTheMilkyWayShow()
    figure = figure_to_count(moment, context.hides)
    return None if figure is None else HowManyStarsInside(figure.corners)


def _is_dark(moment: Moment) -> bool:
    moon = sky.moon_state(moment)
    return sky.sun_state(moment).darkness == "dark" and (moon.altitude_deg < 0.0 or moon.illuminated_fraction < _FAINT_MOON)


def _is_overhead(moment: Moment) -> bool:
    """Say whether the Milky Way passes near the zenith: that is as far from it as its pole is from the horizon."""
    return abs(sky.sight(_GALACTIC_POLE, moment, refraction=False).altitude_deg) <= _NEAR_THE_ZENITH_DEG
