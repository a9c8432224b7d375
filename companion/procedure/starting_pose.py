"""Bring the mount into its starting pose: base level, facing true north, tube level; before power or after the settings, as it wants it."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from companion import alignment
from companion.equipment import CompassKind, PoseTime
from companion.procedure.ask_mount import ask_pose_time
from companion.procedure.ask_observer import ask_compass, compass_told
from companion.procedure.handset import learn_the_level_aid
from companion.procedure.notes import learned_by
from companion.procedure.script import Context, Done, Question, Script, Steps, ask
from companion.procedure.spoken_figures import figure_of
from companion.procedure.tripod import StoodFirm
from companion.talk.answers import BearingAnswer, CompassKindAnswer, NorthAnswer
from companion.talk.pose_phrases import (
    AtNorth,
    FaceTrueNorth,
    LetItFindItsPose,
    LevelAgain,
    LevelTheBase,
    LevelTheTube,
    NoOtherWay,
    NorthAgain,
    NorthByAMark,
    NorthByLandmark,
    NorthByThePole,
    NorthByTheShadow,
    NorthByTheSunset,
    PoseBeforePowerThen,
    SayFacingNorth,
    TubeLevelAgain,
    TurnByCompass,
    WhatDoesItRead,
)
from companion.talk.saying import Ask

USUAL_POSE_TIME: PoseTime = "before-power"


def before_power(context: Context) -> Script:
    """Learn when the mount wants its pose; take it now where that is before it is switched on."""
    asked: Question[PoseTime] = learned_by(ask_pose_time(), "mount", "pose_time")
    wanted = context.equipment.mount.pose_time or (yield from asked)
    if wanted is None:
        yield PoseBeforePowerThen()
        wanted = USUAL_POSE_TIME
    if wanted == "before-power":
        yield from take_pose(context)
    return Done()


def after_settings(context: Context) -> Script:
    """Take the pose now where the mount wants it so, or let it find its own."""
    wanted = context.equipment.mount.pose_time
    if wanted == "after-settings":
        yield from take_pose(context)
    elif wanted == "by-itself":
        yield from ask(LetItFindItsPose())
    return Done()


def take_pose(context: Context) -> Steps[datetime]:
    """Level the base, face true north, level the tube; return when that was done."""
    stood = context.found(StoodFirm)
    if stood is None or not stood.level_aid_asked:
        yield from learn_the_level_aid(context)
    level = yield from ask(LevelTheBase())
    yield from face_north(context, level.time)
    return (yield from ask(LevelTheTube())).time


def take_pose_again(context: Context, time: datetime) -> Steps[datetime]:
    """Take it again in short, with who has done it tonight; a mount that finds its own does so. Return when that was done."""
    if context.equipment.mount.pose_time == "by-itself":
        return (yield from ask(LetItFindItsPose())).time
    yield from ask(LevelAgain())
    told = yield from ask(NorthAgain())
    if told.command in (NorthAnswer.WHICH_WAY, NorthAnswer.READS):
        yield from face_north(context, told.time)
    return (yield from ask(TubeLevelAgain())).time


def face_north(context: Context, time: datetime) -> Steps[None]:
    """Turn the mount to true north by what the person has; each "another way" offers one that wasn't told yet."""
    asked: Question[CompassKind] = learned_by(ask_compass(), "observer", "compass")
    compass: CompassKind | Literal["unknown"] = context.equipment.observer.compass or (yield from asked) or "unknown"
    question: Ask[AtNorth] = _ways_to_north(context, time, compass)[0]
    told = {type(question)}
    while True:
        answer = yield from ask(question)
        match answer.command:
            case NorthAnswer.WHICH_WAY:
                # Stars have come out since, or the Sun has set.
                ways = _ways_to_north(context, answer.time, compass)
                question = next((way for way in ways if type(way) not in told), NoOtherWay())
                told.add(type(question))
            case NorthAnswer.READS:
                read = yield from ask(WhatDoesItRead())
                if read.command is BearingAnswer.BEARING:
                    yield TurnByCompass(compass, int(figure_of(read.slots)) % 360)
                question = SayFacingNorth()
            case BearingAnswer.BEARING:
                yield TurnByCompass(compass, int(figure_of(answer.slots)) % 360)
                question = SayFacingNorth()
            case NorthAnswer.READY | NorthAnswer.SKIP | BearingAnswer.SKIP | CompassKindAnswer.SKIP:
                return
            case told_of_it:
                it_is: Question[CompassKind] = learned_by(compass_told(told_of_it), "observer", "compass")
                compass = (yield from it_is) or compass
                question = _ways_to_north(context, answer.time, compass)[0]
                told.add(type(question))


def _ways_to_north(context: Context, time: datetime, compass: CompassKind | Literal["unknown"]) -> list[Ask[AtNorth]]:
    """Return the ways that are open at a time to this person, the surest first; a landmark always is."""
    if context.equipment.observer.by_touch:
        return [*([] if compass == "none" else [FaceTrueNorth(compass)]), NorthByLandmark()]
    moment = context.moment(time)
    ways: list[Ask[AtNorth]] = [] if compass == "none" else [FaceTrueNorth(compass)]
    if alignment.shadow_direction(moment) is not None:
        ways.append(NorthByTheShadow())
    if (pole_way := alignment.pole_way(moment, context.conceals)) is not None:
        ways.append(NorthByThePole(pole_way))
    if alignment.sunset_direction(moment) is not None:
        ways.append(NorthByTheSunset())
    if (mark := alignment.north_mark(moment, context.conceals)) is not None:
        ways.append(NorthByAMark(mark.body.name))
    return [*ways, NorthByLandmark()]
