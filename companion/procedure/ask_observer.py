"""Ask what the observer has at hand, sees and can't do."""

from __future__ import annotations

from datetime import datetime
from typing import assert_never, get_args

from companion import alignment
from companion.equipment import CompassKind, Limit
from companion.procedure.notes import Learned
from companion.procedure.script import Context, Question, Steps, ask
from companion.procedure.spoken_figures import fists_of, sky_mag_of
from companion.talk.answers import (
    CompanyAnswer,
    CompassKindAnswer,
    FistsAnswer,
    FullnessAnswer,
    LimitsAnswer,
    PhoneNorthAnswer,
    ToldFigureAnswer,
    YesNoAnswer,
)
from companion.talk.equipment_phrases import (
    AloneOrWithPeople,
    AnotherLimit,
    DoYouSeeTheMilkyWay,
    FistHeard,
    FistLeft,
    HowManyFists,
    InFullOrShort,
    NoPairForTheFist,
    UnlikelyFist,
    WhatIsHardForYou,
    WhichCompass,
    WhichNorthDoesThePhoneShow,
)


def ask_compass() -> Question[CompassKind]:
    """Ask what kind of compass is at hand."""
    return (yield from compass_told((yield from ask(WhichCompass())).command))


def compass_told(told: CompassKindAnswer) -> Question[CompassKind]:
    """Return the kind of compass that was told; of a phone ask which north it shows."""
    match told:
        case CompassKindAnswer.NEEDLE:
            return "needle"
        case CompassKindAnswer.CARD:
            return "card"
        case CompassKindAnswer.PHONE:
            return (yield from _ask_which_north())
        case CompassKindAnswer.TRUE:
            return "true"
        case CompassKindAnswer.NONE:
            return "none"
        case CompassKindAnswer.SKIP:
            return None
        case _:
            assert_never(told)


def _ask_which_north() -> Question[CompassKind]:
    """Ask whether a phone has the declination taken off already."""
    told = (yield from ask(WhichNorthDoesThePhoneShow())).command
    match told:
        case PhoneNorthAnswer.MAGNETIC:
            return "card"
        case PhoneNorthAnswer.TRUE:
            return "true"
        case PhoneNorthAnswer.SKIP:
            return None
        case _:
            assert_never(told)


def ask_how_dark_it_is() -> Steps[tuple[bool | None, float | None]]:
    """Ask how dark the place is: whether the Milky Way shows, and what a meter shows instead, magnitudes per square arcsecond."""
    told = yield from ask(DoYouSeeTheMilkyWay())
    match told.command:
        case YesNoAnswer.YES:
            return True, None
        case YesNoAnswer.NO:
            return False, None
        case ToldFigureAnswer.SKY_MAG:
            return None, sky_mag_of(told.slots)
        case YesNoAnswer.SKIP | ToldFigureAnswer.FINDER_FIELD | ToldFigureAnswer.EYEPIECE_IN | ToldFigureAnswer.SKIP:
            return None, None
        case _:
            assert_never(told.command)


def ask_company() -> Question[bool]:
    """Ask whether other people are around."""
    told = (yield from ask(AloneOrWithPeople())).command
    match told:
        case CompanyAnswer.ALONE:
            return False
        case CompanyAnswer.COMPANY:
            return True
        case CompanyAnswer.SKIP:
            return None
        case _:
            assert_never(told)


def ask_limits() -> Question[tuple[Limit, ...]]:
    """Ask what the observer can't do, one thing at a time; () means nothing."""
    limits: set[Limit] = set()
    while len(limits) < len(get_args(Limit)):
        told = (yield from ask(AnotherLimit() if limits else WhatIsHardForYou())).command
        match told:
            case LimitsAnswer.FAINT_STARS:
                limits.add("faint-stars")
            case LimitsAnswer.KNEELING:
                limits.add("kneeling")
            case LimitsAnswer.REACHING:
                limits.add("reaching")
            case LimitsAnswer.DONE:
                break
            case LimitsAnswer.SKIP:
                return tuple(sorted(limits)) or None
            case _:
                assert_never(told)
    return tuple(sorted(limits))


def ask_fullness() -> Question[bool]:
    """Ask whether they want it in few words."""
    told = (yield from ask(InFullOrShort())).command
    match told:
        case FullnessAnswer.FULL:
            return False
        case FullnessAnswer.TERSE:
            return True
        case FullnessAnswer.SKIP:
            return None
        case _:
            assert_never(told)


def measure_fist(context: Context, time: datetime) -> Question[float]:
    """Measure the observer's fist on two stars that show at ``time``; return degrees, None where none show, or it was skipped or left."""
    pair = alignment.fist_pair(context.moment(time), context.hides)
    if pair is None:
        yield NoPairForTheFist()
        return None
    one, other, apart_deg = pair
    for _ in range(2):
        told = yield from ask(HowManyFists(one.body.name, other.body.name))
        if told.command is FistsAnswer.SKIP:
            return None
        fists = fists_of(told.slots)
        fist_deg = alignment.fist_from(apart_deg, fists)
        if fist_deg is None:
            yield UnlikelyFist(fists)
            continue
        confirmed = yield from ask(FistHeard(fists, fist_deg))
        if confirmed.command is YesNoAnswer.YES:
            yield Learned.one("observer", "fist_deg", round(fist_deg, 1))
            return fist_deg
    yield FistLeft()
    return None
