"""Ask how the mount works: each question by itself, where an evening needs it."""

from __future__ import annotations

from typing import assert_never

from companion.equipment import LastKeys, PoseTime, StarChoice
from companion.procedure.equipment_told import ConfirmKey
from companion.procedure.script import Question, ask
from companion.procedure.spoken_figures import ask_yes_no
from companion.talk.answers import (
    ConfirmKeyAnswer,
    LastKeysAnswer,
    PoseTimeAnswer,
    StarChoiceAnswer,
    StarChoiceElseAnswer,
    TubeRoseAnswer,
    TubeTurnedAnswer,
)
from companion.talk.centring_phrases import AndToWhichSide, WasItRising
from companion.talk.equipment_phrases import (
    DoesItTurnByHand,
    WhenIsThePoseTaken,
    WhichKeyConfirms,
    WhichStarsDoesItTake,
    WhichTwoArrowsLast,
    WhoChoosesTheStars,
)


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
