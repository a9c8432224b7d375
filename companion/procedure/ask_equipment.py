"""Ask what the observer has and how they work. Every question may be skipped, and can also be asked alone where an evening needs it."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import Literal, TypeAlias, TypeVar, assert_never, get_args

from companion import alignment, equipment
from companion.equipment import CompassKind, FinderKind, LastKeys, Limit, PoseTime, StarChoice
from companion.procedure.ask_horizon import ask_horizon
from companion.procedure.ask_place import ask_place
from companion.procedure.equipment_told import ConfirmKey, EquipmentTold, EyepieceTold, InstrumentTold, MountTold, ObserverTold
from companion.procedure.notes import Learned
from companion.procedure.script import Context, Steps, ask
from companion.procedure.spoken_figures import ask_figure, ask_yes_no, fists_of, read_back
from companion.talk.answers import (
    CompanyAnswer,
    CompassKindAnswer,
    ConfirmKeyAnswer,
    FinderKindAnswer,
    FistsAnswer,
    FullnessAnswer,
    LastKeysAnswer,
    LimitsAnswer,
    PhoneNorthAnswer,
    PoseTimeAnswer,
    StarChoiceAnswer,
    StarChoiceElseAnswer,
    TubeRoseAnswer,
    TubeTurnedAnswer,
    YesNoAnswer,
)
from companion.talk.centring_phrases import AndToWhichSide, WasItRising
from companion.talk.equipment_phrases import (
    AboutYourEquipment,
    AloneOrWithPeople,
    AnotherEyepiece,
    AnotherLimit,
    Aperture,
    ApparentField,
    DoesItTurnByHand,
    DoYouSeeTheMilkyWay,
    EquipmentKnown,
    EyepieceHeard,
    FistHeard,
    FistLeft,
    FocalLength,
    HasItADiagonal,
    HowManyFists,
    InFullOrShort,
    NoPairForTheFist,
    TelescopeHeard,
    UnlikelyFist,
    WhatIsHardForYou,
    WhenIsThePoseTaken,
    WhichCompass,
    WhichEyepiece,
    WhichFinder,
    WhichKeyConfirms,
    WhichNorthDoesThePhoneShow,
    WhichStarsDoesItTake,
    WhichTwoArrowsLast,
    WhoChoosesTheStars,
)

T = TypeVar("T")
Question: TypeAlias = Steps[T | None]
"""A piece of a script that ends with what was answered, None where the question was skipped."""

_MOST_EYEPIECES = 12


def ask_about_equipment(context: Context) -> Steps[EquipmentTold]:
    """Ask everything."""
    yield AboutYourEquipment()
    site = yield from ask_place()
    return replace((yield from ask_about_telescope(context)), site=site)


def ask_about_telescope(context: Context) -> Steps[EquipmentTold]:
    """Ask everything but the place."""
    instrument = yield from ask_instrument()
    compass = yield from ask_compass()
    star_choice = yield from ask_star_choice()
    mount = MountTold(
        star_choice,
        pose_time=(yield from ask_pose_time()),
        turns_by_hand=(yield from ask_turns_by_hand()),
        confirm_key=(yield from ask_confirm_key()),
        last_keys=None if star_choice in (None, "unnamed") else (yield from ask_last_keys_by_the_manual()),
    )
    horizon = yield from ask_horizon(context.equipment.observer.fist_deg)
    observer = ObserverTold(
        compass,
        sees_milky_way=(yield from ask_milky_way()),
        in_company=(yield from ask_company()),
        limits=(yield from ask_limits()),
        terse=(yield from ask_fullness()),
    )
    yield EquipmentKnown()
    return EquipmentTold(None, instrument, mount, observer, horizon)


def ask_instrument() -> Steps[InstrumentTold]:
    """Ask for the telescope, its eyepieces and its finder."""
    telescope = (yield from read_back(_ask_telescope, _telescope_heard)) or (None, None)
    return InstrumentTold(
        aperture_mm=telescope[0],
        focal_length_mm=telescope[1],
        eyepieces=(yield from ask_eyepieces()),
        has_diagonal=(yield from ask_yes_no(HasItADiagonal())),
        finder=(yield from ask_finder()),
    )


def _ask_telescope() -> Steps[tuple[float | None, float | None]]:
    """Ask for aperture and focal length, millimetres."""
    aperture_mm = yield from ask_figure(Aperture(), equipment.APERTURE_MM)
    return aperture_mm, (yield from ask_figure(FocalLength(), equipment.FOCAL_LENGTH_MM))


def _telescope_heard(told: tuple[float | None, float | None]) -> TelescopeHeard | None:
    return None if told == (None, None) else TelescopeHeard(*told)


def ask_eyepieces() -> Question[tuple[EyepieceTold, ...]]:
    """Ask for the eyepieces, one after another: focal length, and how wide their view seems."""
    eyepieces: list[EyepieceTold] = []
    while len(eyepieces) < _MOST_EYEPIECES:
        eyepiece = yield from read_back(_ask_eyepiece, _eyepiece_heard)
        if eyepiece is None:
            break
        eyepieces.append(eyepiece)
        if not (yield from ask_yes_no(AnotherEyepiece())):
            break
    return tuple(eyepieces) or None


def _ask_eyepiece() -> Question[EyepieceTold]:
    """Ask for one eyepiece."""
    focal_length_mm = yield from ask_figure(WhichEyepiece(), equipment.EYEPIECE_MM)
    if focal_length_mm is None:
        return None
    return EyepieceTold(focal_length_mm, (yield from ask_figure(ApparentField(), equipment.APPARENT_FIELD_DEG)))


def _eyepiece_heard(told: EyepieceTold | None) -> EyepieceHeard | None:
    return None if told is None else EyepieceHeard(told.focal_length_mm, told.apparent_field_deg)


def ask_finder() -> Question[FinderKind | Literal["none"]]:
    """Ask what kind of finder there is, if any."""
    told = (yield from ask(WhichFinder())).command
    match told:
        case FinderKindAnswer.DOT:
            return "dot"
        case FinderKindAnswer.OPTICAL:
            return "optical"
        case FinderKindAnswer.NO_FINDER:
            return "none"
        case FinderKindAnswer.SKIP:
            return None
        case _:
            assert_never(told)


def ask_compass() -> Question[CompassKind]:
    """Ask what kind of compass is at hand."""
    told = (yield from ask(WhichCompass())).command
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


def ask_star_choice() -> Question[StarChoice]:
    """Ask how the mount settles on its stars."""
    told = (yield from ask(WhoChoosesTheStars())).command
    match told:
        case StarChoiceAnswer.NAMES:
            return "names"
        case StarChoiceAnswer.LIST:
            return "list"
        case StarChoiceAnswer.NEITHER:
            return (yield from _ask_star_choice_else())
        case StarChoiceAnswer.UNNAMED:
            return "unnamed"
        case StarChoiceAnswer.ONE:
            return "one"
        case StarChoiceAnswer.BODY:
            return "body"
        case StarChoiceAnswer.SKIP:
            return None
        case _:
            assert_never(told)


def _ask_star_choice_else() -> Question[StarChoice]:
    """Ask what a mount takes that neither names a star nor asks for one."""
    told = (yield from ask(WhichStarsDoesItTake())).command
    match told:
        case StarChoiceElseAnswer.UNNAMED:
            return "unnamed"
        case StarChoiceElseAnswer.ONE:
            return "one"
        case StarChoiceElseAnswer.BODY:
            return "body"
        case StarChoiceElseAnswer.SKIP:
            return None
        case _:
            assert_never(told)


def ask_pose_time() -> Question[PoseTime]:
    """Ask when the mount wants its starting pose."""
    told = (yield from ask(WhenIsThePoseTaken())).command
    match told:
        case PoseTimeAnswer.BEFORE_POWER:
            return "before-power"
        case PoseTimeAnswer.AFTER_SETTINGS:
            return "after-settings"
        case PoseTimeAnswer.BY_ITSELF:
            return "by-itself"
        case PoseTimeAnswer.SKIP:
            return None
        case _:
            assert_never(told)


def ask_turns_by_hand() -> Question[bool]:
    """Ask whether the mount may be turned by hand."""
    return (yield from ask_yes_no(DoesItTurnByHand()))


def ask_confirm_key() -> Question[ConfirmKey]:
    """Ask what is written on the key that confirms."""
    told = (yield from ask(WhichKeyConfirms())).command
    match told:
        case ConfirmKeyAnswer.ENTER:
            return "enter"
        case ConfirmKeyAnswer.OKAY:
            return "okay"
        case ConfirmKeyAnswer.SELECT:
            return "select"
        case ConfirmKeyAnswer.CONFIRM:
            return "confirm"
        case ConfirmKeyAnswer.OTHER | ConfirmKeyAnswer.SKIP:
            return None
        case _:
            assert_never(told)


def ask_last_keys_by_the_manual() -> Question[LastKeys]:
    """Ask, by day, what the manual says of it; None where it says nothing."""
    told = (yield from ask(WhichTwoArrowsLast())).command
    match told:
        case LastKeysAnswer.UP_RIGHT:
            return "up-right"
        case LastKeysAnswer.UP_LEFT:
            return "up-left"
        case LastKeysAnswer.DOWN_RIGHT:
            return "down-right"
        case LastKeysAnswer.DOWN_LEFT:
            return "down-left"
        case LastKeysAnswer.CANT_TELL | LastKeysAnswer.SKIP:
            return None
        case _:
            assert_never(told)


def ask_last_keys() -> Question[LastKeys]:
    """Ask how the mount came to rest after a turn that the observer has just seen; None where that can't be told whole."""
    rose = (yield from ask(WasItRising())).command
    if rose is TubeRoseAnswer.CANT_TELL or rose is TubeRoseAnswer.SKIP:
        return None
    turned = (yield from ask(AndToWhichSide())).command
    if turned is TubeTurnedAnswer.CANT_TELL or turned is TubeTurnedAnswer.SKIP:
        return None
    if rose is TubeRoseAnswer.UP:
        return "up-right" if turned is TubeTurnedAnswer.RIGHT else "up-left"
    return "down-right" if turned is TubeTurnedAnswer.RIGHT else "down-left"


def ask_milky_way() -> Question[bool]:
    """Ask how dark the place is."""
    return (yield from ask_yes_no(DoYouSeeTheMilkyWay()))


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


def learned_by(question: Question[T], table: str, key: str) -> Question[T]:
    """Return what is answered, noted under that key of a profile; None, and nothing noted, where the question is skipped."""
    told = yield from question
    if told is not None:
        yield Learned.one(table, key, told)
    return told


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
