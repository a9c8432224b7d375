"""Going on to the next target: the best there is of what was wished for, else the best there is at all."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import TypeAlias

from companion import observing, sky
from companion.procedure.night.offer import Offer, offer_of, offers, offers_in, offers_towards
from companion.procedure.night.state import Night, PutOff
from companion.procedure.script import Context, Steps
from companion.sky.bands import CompassPoint
from companion.talk.night_phrases import (
    AtTheTopNow,
    HiddenNow,
    IntroduceTarget,
    NoMoreOfThem,
    NoneInConstellation,
    NoneInDirection,
    NoneOfThem,
    NothingNow,
    NotUpNow,
    Told,
    TooNearTheSun,
    Wish,
)
from companion.talk.saying import Ask

Onward: TypeAlias = tuple[Night, Ask[Told]]
"""What the night has become, and what is asked then."""

_AMONG_THE_BEST = 3
"""What is promised must be worth the wait then. Judgement."""


def lead_on(context: Context, night: Night, time: datetime) -> Steps[Onward]:
    """Introduce the next target; where nothing is left of what was wished for, say so once and go on with the rest."""
    if night.wish == "anything" and night.shown:
        night = yield from _promise_what_is_overhead(context, night, time)
    found = _promised(context, night, time) or _best(context, night, time, night.wish)
    if found is None and night.wish != "anything":
        yield NoMoreOfThem(night.wish)
        night = replace(night, wish="anything")
        found = _best(context, night, time, "anything")
    return introduced(context, night, found) if found is not None else (night.at(None), NothingNow())


def _promise_what_is_overhead(context: Context, night: Night, time: datetime) -> Steps[Night]:
    """Tell of one of the finest that stands at the top of the sky, and would be among the best when it has left it; each once."""
    moment = context.moment(time)
    known = {*night.passed_over(time), *(one.name for one in night.awaited), night.now}
    for showpiece in observing.finest_overhead(moment):
        body = showpiece.body
        until = None if body.name in known else observing.leaves_the_top(body, moment)
        if until is None:
            continue
        then = offers(context.moment(until), context.equipment, night, "anything", _AMONG_THE_BEST)
        now = offers(moment, context.equipment, night, "anything")
        if body.name in {one.body.name for one in then} and body.name not in {one.body.name for one in now}:
            yield AtTheTopNow(body.name, until)
            return replace(night, awaited=(*night.awaited, PutOff(body.name, until)))
    return night


def _promised(context: Context, night: Night, time: datetime) -> Offer | None:
    """Return what was promised for now, where it can still be seen."""
    if night.wish != "anything":
        return None
    due = (one.name for one in night.awaited if one.until <= time and one.name not in night.passed_over(time))
    seen = (sky.sight(night.find(name), context.moment(time)) for name in due)
    name = next((sight.body.name for sight in seen if not context.hides(sight) and not night.hides(sight)), None)
    return None if name is None else offer_of(name, context.moment(time), context.equipment, night)


def lead_to(context: Context, night: Night, time: datetime, wish: Wish) -> Onward:
    """Introduce what answers a wish; where nothing does, say so and stay."""
    found = _best(context, night, time, wish)
    return introduced(context, night, found) if found is not None else (night, NoneOfThem(wish))


def lead_to_constellation(context: Context, night: Night, time: datetime, constellation: str) -> Onward:
    """Introduce the best of a constellation; where nothing of it stands well, say so and stay."""
    found = offers_in(constellation, context.moment(time), context.equipment, night)
    return introduced(context, night, found[0]) if found else (night, NoneInConstellation(constellation))


def lead_towards(context: Context, night: Night, time: datetime, point: CompassPoint) -> Onward:
    """Introduce the best on one side of the sky; where nothing there stands well, say so and stay."""
    found = offers_towards(point, context.moment(time), context.equipment, night)
    return introduced(context, night, found[0]) if found else (night, NoneInDirection(point))


def lead_to_named(context: Context, night: Night, time: datetime, name: str) -> Onward:
    """Introduce what was asked for by name, or say why not: it is down, hidden, or too near the Sun."""
    body, moment = night.find(name), context.moment(time)
    sight = sky.sight(body, moment)
    sun = sky.sight(sky.SUN, moment, refraction=False)
    unsafe = sun.altitude_deg > sky.SUN_UNSAFE_ABOVE_DEG and sky.separation_deg(sight, sun) < sky.SUN_BERTH_DEG
    if body.kind == "sun" or unsafe:
        return night, TooNearTheSun()
    if sight.altitude_deg < 0:
        return night, NotUpNow(body.name)
    if context.hides(sight):
        return night, HiddenNow(body.name)
    return introduced(context, night, offer_of(body.name, moment, context.equipment, night))


def introduced(context: Context, night: Night, found: Offer) -> Onward:
    """Go to a target."""
    body, widest = found.body, context.equipment.instrument.lowest_power
    finding_mm = None if widest is None else widest.focal_length_mm
    better_mm = None if found.eyepiece_mm == finding_mm else found.eyepiece_mm
    change = not night.shown or night.eyepiece_mm is not None
    return night.at(body.name, better_mm), IntroduceTarget(body.name, body.kind, finding_mm, change)


def _best(context: Context, night: Night, time: datetime, wish: Wish) -> Offer | None:
    """Return the best answer to a wish; before nothing at all, what was put off though it isn't time yet."""
    moment = context.moment(time)
    found = offers(moment, context.equipment, night, wish)
    if not found and night.put_off:
        found = offers(moment, context.equipment, night.overdue(time), wish)
    return found[0] if found else None
