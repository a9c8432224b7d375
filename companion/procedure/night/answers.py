"""What each answer at a target leads to: the night as it is then, and the next question."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Literal, TypeAlias, assert_never

from companion import sky
from companion.equipment import Equipment
from companion.procedure.ask_observer import measure_fist
from companion.procedure.night.by_line import step_by_line
from companion.procedure.night.leading import Onward, lead_on, lead_to, lead_to_constellation, lead_to_named, lead_towards
from companion.procedure.night.offer import body_of, offers
from companion.procedure.night.search import found, measured_anew, not_there
from companion.procedure.night.state import NO_WAY, Cloud, Night, Obstacle
from companion.procedure.night.told_figures import take_figure
from companion.procedure.observation import write_down
from companion.procedure.recover import Mishap, bring_it_back
from companion.procedure.script import Context, Steps, ask
from companion.procedure.turning import why_not_now
from companion.procedure.verify import prove
from companion.sky import Body
from companion.sky.bands import CompassPoint, compass_point
from companion.talk import night_phrases as say
from companion.talk.answers import NudgeAnswer, ToldFigureAnswer, TurnAnswer
from companion.talk.centring_phrases import WhileItSlews
from companion.talk.mount_phrases import NotTurning
from companion.talk.night_answers import ShowMeAnswer, TargetAnswer
from companion.talk.night_phrases import Told, Wish
from companion.talk.saying import Ask, Receipt, Reply

LATER = timedelta(hours=1)
"""How long something is put off, and a cloud is expected to stay. Judgement."""
BREAK = timedelta(minutes=10)
_NAMED_AT_ONCE = 3
"""More names nobody keeps in mind."""
_KINDS: dict[TargetAnswer, Wish] = {
    TargetAnswer.PLANETS: "planets",
    TargetAnswer.DOUBLES: "doubles",
    TargetAnswer.CLUSTERS: "clusters",
    TargetAnswer.GLOBULARS: "globulars",
    TargetAnswer.OPEN_CLUSTERS: "open-clusters",
    TargetAnswer.PLANETARIES: "planetaries",
    TargetAnswer.RED_STARS: "red-stars",
    TargetAnswer.OWN_LIST: "own-list",
    TargetAnswer.GALAXIES: "galaxies",
    TargetAnswer.NEBULAE: "nebulae",
    TargetAnswer.FOR_CHILDREN: "for-children",
    TargetAnswer.WHATS_BEST: "anything",
}
"""A kind is wanted until none of it is left."""
_THIS_ONCE: dict[TargetAnswer, Wish] = {
    TargetAnswer.BRIGHTER: "brighter",
    TargetAnswer.EASIER: "easier",
    TargetAnswer.HARDER: "harder",
    TargetAnswer.NEAR_HERE: "near-here",
}
_ADVISED: dict[TargetAnswer, type[Ask[Told]]] = {
    TargetAnswer.DEW: say.DewOnTheGlass,
    TargetAnswer.BATTERY: say.BatteryFading,
    TargetAnswer.BLURRED: say.GetItSharp,
    TargetAnswer.SHAKING: say.LetItSettle,
    TargetAnswer.DAZZLED: say.EyesDazzled,
    TargetAnswer.UPSIDE_DOWN: say.WhyUpsideDown,
    TargetAnswer.MOON_COMING: say.MoonAndTargets,
}
"""What is told of sky and things, and what helps."""
_MISHAPS: dict[TargetAnswer, Mishap] = {
    TargetAnswer.WAS_FINE: "was-fine",
    TargetAnswer.KICKED: "kicked",
    TargetAnswer.RESTARTED: "restarted",
}
AboutIt: TypeAlias = Literal[
    TargetAnswer.FOUND,
    TargetAnswer.WHICH_ONE,
    TargetAnswer.WHAT_TO_SEE,
    TargetAnswer.WHICH_EYEPIECE,
    TargetAnswer.FILTER,
    TargetAnswer.WELL_PLACED,
    TargetAnswer.NOT_THERE,
]
"""What is said of the target we are at."""
OfTheSky: TypeAlias = Literal[TargetAnswer.CLOUD, TargetAnswer.HIDDEN, TargetAnswer.ONLY_CLEAR, TargetAnswer.CLEAR_AGAIN]
"""What is told of what hides the sky."""


def answered(context: Context, night: Night, question: Ask[Told], told: Reply[Told]) -> Steps[Onward]:
    """Do what was said."""
    body = None if night.now is None else body_of(night.now, night)
    match told.command:
        case ToldFigureAnswer.SKY_MAG | ToldFigureAnswer.FINDER_FIELD | ToldFigureAnswer.EYEPIECE_IN:
            taken = yield from take_figure(night, told)
            return (yield from _measured_anew(context, taken, body, told))
        case ShowMeAnswer.SHOW_ME:
            return lead_to_named(context, night, told.time, told.slots["name"])
        case NudgeAnswer() as way:
            return (yield from step_by_line(context, night, Reply(way, told.time, told.slots)))
        case TurnAnswer.TURN_THERE:
            why = (yield from why_not_now(aligned=night.by_line)) if context.linked else "cannot"
            if why is None and body is not None:
                # Announced anew, with where to stand: it may have been a while.
                return lead_to_named(context, night, told.time, body.name)
            yield NotTurning(why or "cannot")
            return night, _here(body)
        case TurnAnswer.BY_HAND:
            return night, _here(body)
        case TargetAnswer.NEXT | TargetAnswer.SKIP | TurnAnswer.SKIP | ToldFigureAnswer.SKIP:
            # Only what was found, or said to be seen, counts as seen.
            return (yield from lead_on(context, night, told.time))
        case TargetAnswer.LATER:
            yield say.ForLater()
            return (yield from lead_on(context, night.later(told.time + LATER), told.time))
        case TargetAnswer.NEVER:
            yield say.NotAgain()
            return (yield from lead_on(context, night.not_again(), told.time))
        case TargetAnswer.PREVIOUS:
            return lead_to_named(context, night, told.time, night.before) if night.before else (night, say.NothingBefore())
        case TargetAnswer.CLOUD | TargetAnswer.HIDDEN | TargetAnswer.ONLY_CLEAR | TargetAnswer.CLEAR_AGAIN as what:
            night, receipt = _where_it_is_clear(context, night, told, what)
            yield receipt
            return (yield from lead_on(context, night, told.time))
        case (
            TargetAnswer.PLANETS
            | TargetAnswer.GLOBULARS
            | TargetAnswer.OPEN_CLUSTERS
            | TargetAnswer.PLANETARIES
            | TargetAnswer.RED_STARS
            | TargetAnswer.OWN_LIST
            | TargetAnswer.DOUBLES
            | TargetAnswer.CLUSTERS
            | TargetAnswer.GALAXIES
            | TargetAnswer.NEBULAE
            | TargetAnswer.FOR_CHILDREN
            | TargetAnswer.WHATS_BEST
        ):
            wish = _KINDS[told.command]
            onward = lead_to(context, replace(night, wish=wish), told.time, wish)
            # A wish that nothing answers isn't kept to.
            return (night, onward[1]) if isinstance(onward[1], say.NoneOfThem) else onward
        case TargetAnswer.BRIGHTER | TargetAnswer.EASIER | TargetAnswer.HARDER | TargetAnswer.NEAR_HERE:
            return lead_to(context, night, told.time, _THIS_ONCE[told.command])
        case TargetAnswer.MEASURE_FIST:
            yield from measure_fist(context, told.time)
            return night, _here(body)
        case TargetAnswer.WAS_FINE | TargetAnswer.KICKED | TargetAnswer.RESTARTED:
            knows_the_sky, instead = yield from _mend(context, told.command, told.time)
            night = replace(night, by_line=night.by_line and knows_the_sky)
            return (night, _here(body)) if instead is None else (yield from answered(context, night, question, instead))
        case TargetAnswer.SLEWING:
            yield from ask(WhileItSlews())
            return night, say.SayNextTarget()
        case TargetAnswer.BREAK:
            return night, say.OnABreak(told.time + BREAK)
        case TargetAnswer.CARRY_ON:
            return night, _here(body) if isinstance(question, say.OnABreak) else question
        case TargetAnswer.WOW:
            return replace(night.saw(), tried=0), say.EnjoyIt()
        case TargetAnswer.IN_CONSTELLATION:
            return lead_to_constellation(context, night, told.time, told.slots["constellation"])
        case TargetAnswer.IN_DIRECTION:
            return lead_towards(context, night, told.time, _point(told))
        case (
            TargetAnswer.DEW
            | TargetAnswer.BATTERY
            | TargetAnswer.BLURRED
            | TargetAnswer.SHAKING
            | TargetAnswer.DAZZLED
            | TargetAnswer.UPSIDE_DOWN
            | TargetAnswer.MOON_COMING
        ):
            return night, _ADVISED[told.command]()
        case TargetAnswer.HOW_MANY:
            return night, say.HowManySeen(night.seen, len(night.passed))
        case TargetAnswer.WHATS_TO_COME:
            names = offers(context.moment(told.time), context.equipment, night, night.wish, _NAMED_AT_ONCE)
            return night, say.StillToCome(tuple(offer.body.name for offer in names))
        case TargetAnswer.TELL_MORE:
            return night, say.NothingNow() if body is None else say.MoreAboutIt(body.name, again=question == say.MoreAboutIt(body.name))
        case TargetAnswer.SEEN:
            return (yield from _write_down(context, night, question, told.time))
        case TargetAnswer.GOOD_NIGHT:
            return night, say.SayNextTarget()  # asked back before it comes here
        case about:
            return (night, say.NothingNow()) if body is None else _of_this(context, night, body, about, told.time)


def _of_this(context: Context, night: Night, body: Body, about: AboutIt, time: datetime) -> Onward:
    """Answer what is said of the target we are at."""
    moment, equipment, hides = context.moment(time), _equipment(context, night), context.hides
    match about:
        case TargetAnswer.FOUND if night.way.is_under_way:
            return found(night)
        case TargetAnswer.FOUND:
            return replace(night.saw(), tried=0, way=NO_WAY, look_told=True), say.LookAtIt(body.name, night.eyepiece_mm, night.look_told)
        case TargetAnswer.WHICH_ONE:
            return night, say.FindTarget(body.name, body.kind)
        case TargetAnswer.WHAT_TO_SEE:
            return replace(night, look_told=True), say.WhatToSee(body.name)
        case TargetAnswer.WHICH_EYEPIECE:
            return night, _eyepiece_for(night, body, equipment)
        case TargetAnswer.FILTER:
            return night, say.FilterForIt(body.name)
        case TargetAnswer.WELL_PLACED:
            return night, say.HowWellItStands(body.name)
        case TargetAnswer.NOT_THERE:
            return not_there(night, body, moment, equipment, hides)
        case _:
            assert_never(about)


def _eyepiece_for(night: Night, body: Body, equipment: Equipment) -> say.EyepieceForIt:
    """Say which eyepiece suits the target we are at."""
    finding = equipment.instrument.lowest_power
    finding_mm = None if finding is None else finding.focal_length_mm
    return say.EyepieceForIt(body.name, night.eyepiece_mm, finding_mm, is_only=len(equipment.instrument.eyepieces) == 1)


def _equipment(context: Context, night: Night) -> Equipment:
    """Return the equipment with what was told of the finder this night."""
    if night.finder_field_deg is None:
        return context.equipment
    return replace(context.equipment, instrument=replace(context.equipment.instrument, finder_field_deg=night.finder_field_deg))


def _measured_anew(context: Context, taken: Onward, body: Body | None, told: Reply[Told]) -> Steps[Onward]:
    """Where a way by hand is under way and a figure of the finder was taken, go on by that; else leave it at what was taken."""
    night, _ = taken
    if body is None or night.finder_field_deg is None or told.command is not ToldFigureAnswer.FINDER_FIELD:
        return taken
    onward = measured_anew(night, body, context.moment(told.time), _equipment(context, night), context.hides)
    if onward is None:
        return taken
    yield say.WayGoesByThat(night.finder_field_deg)
    return onward


def _write_down(context: Context, night: Night, question: Ask[Told], time: datetime) -> Steps[Onward]:
    """Lead through the form for the target we are at, and do what was wanted instead of the rest of it."""
    if night.now is None:
        return night, say.NothingNow()
    last, instead = yield from write_down(
        context, body_of(night.now, night), time, eyepiece_mm=night.eyepiece_in_mm, last=night.written_last
    )
    night = replace(night.saw(), written_last=last)
    if instead is None:
        return night, say.SayNextTarget()
    return (yield from answered(context, night, question, Reply(instead.command, instead.time, instead.slots)))


def _point(told: Reply[Told]) -> CompassPoint:
    return CompassPoint[told.slots["point"].upper().replace("-", "_")]


def _here(body: Body | None) -> Ask[Told]:
    """Return the question that brings one back to the target."""
    return say.NothingNow() if body is None else say.FindTarget(body.name, body.kind)


def _where_it_is_clear(context: Context, night: Night, told: Reply[Told], what: OfTheSky) -> tuple[Night, Receipt]:
    """Leave out what clouds, trees or roofs hide, and put off what we are at; or take it all in again."""
    match what:
        case TargetAnswer.ONLY_CLEAR:
            point = _point(told)
            return replace(night, clear_side=point), say.KeepTo(point)
        case TargetAnswer.CLEAR_AGAIN:
            return replace(night, clouds=(), clear_side=None), say.ClearAgain()
    if night.now is None:
        return night, say.AwayFromTheCloud()
    until = told.time + LATER
    here = sky.sight(night.find(night.now), context.moment(told.time))
    night = night.later(until)
    if what is TargetAnswer.CLOUD:
        return replace(night, clouds=(*night.clouds, Cloud(here, until))), say.AwayFromTheCloud()
    obstacle = Obstacle(here.azimuth_deg, here.altitude_deg)
    return replace(night, obstacles=(*night.obstacles, obstacle)), say.NothingSoLow(compass_point(here.azimuth_deg))


def _mend(context: Context, told: TargetAnswer, time: datetime) -> Steps[tuple[bool, Reply[Told] | None]]:
    """Bring the alignment back, and prove a new one; return whether the mount knows the sky again, and what is wanted instead."""
    recovered = yield from bring_it_back(context, _MISHAPS[told], time)
    if recovered.instead is not None:
        return True, Reply(recovered.instead.command, recovered.instead.time, recovered.instead.slots)
    if recovered.aligned is None:
        return True, None
    if recovered.aligned.outcome == "success":
        yield from prove(context, recovered.time, recovered.aligned)
    return recovered.aligned.outcome == "success", None
