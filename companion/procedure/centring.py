"""Bring one star to the middle: by eye, in the finder, then in the low-power eyepiece; and what to do when it isn't there."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TypeAlias, assert_never

from companion import sky
from companion.equipment import LastKeys
from companion.procedure.agreement import Agreement, points_at, stands_still
from companion.procedure.alignment_state import AlignmentState, Ending, FinderReply, Hiding, Visit
from companion.procedure.arrows import Arrows, keys_of, last_keys
from companion.procedure.ask_mount import ask_last_keys
from companion.procedure.misses import told_miss
from companion.procedure.notes import MissTold, learned_by
from companion.procedure.nudging import EYEPIECE_STEP_DEG, FINDER_STEP_DEG, can_step, nudged
from companion.procedure.readings import read_and_sync
from companion.procedure.script import Steps, ask
from companion.procedure.turning import ALIGNED_WITHIN_DEG, ANYWHERE_DEG
from companion.talk.answers import (
    EyepieceAnswer,
    FinderAnswer,
    MissAnswer,
    NudgeAnswer,
    SlewingAnswer,
    StarNameAnswer,
    UnseenAnswer,
    ViewAnswer,
)
from companion.talk.centring_phrases import (
    ArrowKey,
    ArrowsDoNotFit,
    BackToTheFinder,
    BringItToFocus,
    CapsAndDew,
    ConfirmStar,
    DriftIsNormal,
    FocusTheEyepiece,
    IsItCentred,
    IsItCentredNow,
    IsItInTheFinder,
    IsItThereNow,
    PressRightOnce,
    PressTheseKeys,
    PressUpOnce,
    SeeTheFinderIsTrue,
    SteerItThere,
    SteerToTheFinder,
    SweepForIt,
    SwitchTheDotOn,
    TheOneOfTwo,
    TheSkyDarkens,
    WhatDoYouSee,
    WhereInTheView,
    WhileItSlews,
)
from companion.talk.mistakes_phrases import MissHeard, WhichWayAndHowFar
from companion.talk.saying import Ask, Reply
from companion.talk.stars_phrases import AnotherStar, FindStar, FirstStar, HowHigh, LeaveStar, WhatColour, WhereFromTheMoon

_STEPS_TO: Mapping[str, str] = {"left": "left", "right": "right", "top": "up", "bottom": "down"}
"""Which way a mount on the line is moved for a star at a side, in two steps at a corner; "wrong way" turns it round in a mirrored view."""
_DARK_DEG = -12.0
"""With the Sun higher than this a sky still darkens enough to bring out a bright star: nautical dusk."""
Question: TypeAlias = Ask[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]
"""A question about the finder; the star the mount names instead is an answer, too."""


def centre(star: str, state: AlignmentState) -> Steps[Visit]:
    """Introduce a star and bring it to the middle; return how that ended."""
    yield AnotherStar(star, state.points_at) if state.visited else FirstStar(star, state.points_at)
    return (yield from bring_to_the_middle(star, state))


def bring_to_the_middle(star: str, state: AlignmentState) -> Steps[Visit]:
    """From the slew on, until the star is centred, way off, or given up."""
    turns_by_itself = state.choice != "unnamed"
    state.steering = state.steering.at_another()
    step: Visit | Question = IsItInTheFinder(state.watches(star)) if turns_by_itself else SteerToTheFinder()
    while not isinstance(step, Visit):
        step = yield from _next_step(star, state, (yield from ask(step)))
    return step


def _next_step(star: str, state: AlignmentState, told: FinderReply) -> Steps[Visit | Question]:
    """Take what was told about the finder; return the next question about it, or how the work on this star ended."""
    match told.command:
        case NudgeAnswer():
            yield from _nudge(Reply(told.command, told.time, told.slots), state, FINDER_STEP_DEG)
            return IsItThereNow()
        case FinderAnswer.IN_FINDER | FinderAnswer.IN_EYEPIECE:
            return (yield from _in_the_eyepiece(star, state))
        case StarNameAnswer.STAR_NAME if star in told.slots.values():
            return IsItThereNow()
        case FinderAnswer.NAMES_ANOTHER | StarNameAnswer.STAR_NAME | StarNameAnswer.STAR_LETTERS:
            return Visit(Ending.NAMED_ANOTHER, told.time, told)
        case FinderAnswer.WAY_OFF | MissAnswer():
            if isinstance(told.command, MissAnswer):
                miss = yield from _keep_miss(star, state, Reply(told.command, told.time, told.slots))
            else:
                miss = yield from ask_miss(star, state, WhichWayAndHowFar(star))
            return Visit(Ending.WAY_OFF, told.time) if miss is not None and miss.is_large else SteerItThere()
        case FinderAnswer.SLEWING:
            return (yield from _while_it_slews(star, state))
        case FinderAnswer.STOPPED if not (yield from stands_still(state.context)):
            return (yield from _while_it_slews(star, state))
        case FinderAnswer.STOPPED:
            return IsItThereNow()
        case FinderAnswer.CANNOT_SEE:
            return (yield from _unseen(star, state, told.time))
        case FinderAnswer.WHICH_ONE | FinderAnswer.NOT_SURE:
            return FindStar(star)
        case FinderAnswer.AT_SIDE:
            side = told.slots["near_side"]
            if not (yield from _stepped_towards(side, told.time, state, FINDER_STEP_DEG)):
                # Nothing is finished in the finder, so no slack is taken up there.
                state.finder_arrows, _ = yield from _say_the_arrows(side, state.finder_arrows, _finder_mirrors(state))
        case FinderAnswer.HOW_HIGH:
            yield HowHigh(star)
        case FinderAnswer.MOON_SIDE:
            yield WhereFromTheMoon(star)
        case FinderAnswer.COLOUR:
            yield WhatColour(star)
        case FinderAnswer.TWO_THERE:
            yield TheOneOfTwo()
        case FinderAnswer.CLOUD:
            return (yield from _leave(star, state, told.time, "cloud"))
        case FinderAnswer.TREE:
            return (yield from _leave(star, state, told.time, "tree"))
        case FinderAnswer.OVERCAST:
            return Visit(Ending.CLOUDED, told.time)
        case FinderAnswer.ANOTHER | FinderAnswer.SKIP | StarNameAnswer.SKIP:
            return (yield from _leave(star, state, told.time))
        case _:
            assert_never(told.command)
    return IsItThereNow()


def _leave(star: str, state: AlignmentState, time: datetime, behind: Hiding | None = None) -> Steps[Visit]:
    """Leave a star, and keep in mind what hides it."""
    if behind is not None:
        state.hide(star, time, behind)
    yield LeaveStar()
    return Visit(Ending.LEFT, time)


def ask_miss(star: str, state: AlignmentState, question: Ask[MissAnswer]) -> Steps[MissTold | None]:
    """Ask where the star lay from where the tube points, and keep it."""
    return (yield from _keep_miss(star, state, (yield from ask(question))))


def _keep_miss(star: str, state: AlignmentState, reply: Reply[MissAnswer]) -> Steps[MissTold | None]:
    """Keep what was told of a miss, asked or not."""
    miss = told_miss(star, reply, (*state.suspicion.misses, *state.misses), synced=bool(state.centred), fist_deg=state.fist_deg)
    if miss is not None:
        state.misses.append(miss)
        yield miss
        yield MissHeard(miss.right_deg, miss.up_deg, miss.turn_deg)
    return miss


def _while_it_slews(star: str, state: AlignmentState) -> Steps[Visit | Question]:
    """Be quiet until it has stopped."""
    told = yield from ask(WhileItSlews())
    match told.command:
        case SlewingAnswer.IN_FINDER:
            return (yield from _in_the_eyepiece(star, state))
        case SlewingAnswer.STOPPED if not (yield from stands_still(state.context)):
            return (yield from _while_it_slews(star, state))
        case SlewingAnswer.STOPPED:
            return IsItThereNow()
        case SlewingAnswer.SKIP:
            return (yield from _leave(star, state, told.time))
        case _:
            assert_never(told.command)


def _unseen(star: str, state: AlignmentState, time: datetime) -> Steps[Visit | Question]:
    """Try something else each time a star can't be seen: what is before the eye, a sweep, the finder's aim, a darker sky, another star."""
    times = state.unseen[star] = state.unseen.get(star, 0) + 1
    ways: list[Question] = [SweepForIt(), SeeTheFinderIsTrue(star)]
    if sky.sun_state(state.context.moment(time)).altitude_deg > _DARK_DEG:
        ways.append(TheSkyDarkens())
    if times == 1:
        return (yield from _why_unseen(star, state))
    return ways[times - 2] if times - 2 < len(ways) else (yield from _leave(star, state, time))


def _why_unseen(star: str, state: AlignmentState) -> Steps[Visit | Question]:
    """Look for what hides a star, nearest first: caps, dew, the dot, focus, clouds, trees."""
    told = yield from ask(WhatDoYouSee())
    match told.command:
        case UnseenAnswer.CLOUD:
            return (yield from _leave(star, state, told.time, "cloud"))
        case UnseenAnswer.TREE:
            return (yield from _leave(star, state, told.time, "tree"))
        case UnseenAnswer.OVERCAST:
            return Visit(Ending.CLOUDED, told.time)
        case UnseenAnswer.ANOTHER | UnseenAnswer.SKIP:
            return (yield from _leave(star, state, told.time))
        case UnseenAnswer.IN_FINDER:
            return (yield from _in_the_eyepiece(star, state))
        case UnseenAnswer.CANNOT_SEE:
            return (yield from _unseen(star, state, told.time))
        case UnseenAnswer.DARK:
            return CapsAndDew()
        case UnseenAnswer.NO_DOT:
            return SwitchTheDotOn()
        case UnseenAnswer.BLURRED:
            return BringItToFocus()
        case UnseenAnswer.BRIGHT_SKY:
            return TheSkyDarkens()
        case UnseenAnswer.OTHER_STARS | UnseenAnswer.NOT_SURE:
            return FindStar(star)
        case _:
            assert_never(told.command)


def _in_the_eyepiece(star: str, state: AlignmentState) -> Steps[Visit | Question]:
    """Centre a star that is in the finder; return that it is, or the next question about the finder."""
    if state.watches(star):
        state.asked_last_keys = True
        asked: Steps[LastKeys | None] = learned_by(ask_last_keys(), "mount", "last_keys")
        state.last_keys = keys_of((yield from asked))
    told = yield from ask(IsItCentred(star, not state.centred, state.last_keys))
    while True:
        match told.command:
            case NudgeAnswer():
                yield from _nudge(Reply(told.command, told.time, told.slots), state, EYEPIECE_STEP_DEG)
            case EyepieceAnswer.CENTRED if (agreed := (yield from _agreement(star, state))) in ("turning", "elsewhere"):
                if agreed == "elsewhere":
                    return FindStar(star)
            case EyepieceAnswer.CENTRED if state.context.linked and (yield from read_and_sync(star, state)):
                return Visit(Ending.CENTRED, told.time)
            case EyepieceAnswer.CENTRED:
                yield ConfirmStar(star, state.context.equipment.mount.confirm_key)
                return Visit(Ending.CENTRED, told.time)
            case EyepieceAnswer.SKIP:
                return (yield from _leave(star, state, told.time))
            case EyepieceAnswer.GONE:
                return BackToTheFinder(star)
            case EyepieceAnswer.WHICH_ARROW:
                seen = yield from ask(WhereInTheView())
                if seen.command is ViewAnswer.GONE:
                    return BackToTheFinder(star)
                if seen.command is ViewAnswer.VIEW:
                    yield from _steer_in_the_eyepiece(seen.slots["side"], state)
            case EyepieceAnswer.JUST_OFF:
                side = told.slots["near_side"]
                if not (yield from _stepped_towards(side, told.time, state, EYEPIECE_STEP_DEG)):
                    yield from _steer_in_the_eyepiece(side, state)
            case EyepieceAnswer.DRIFTS:
                yield DriftIsNormal()
            case EyepieceAnswer.BLURRED:
                yield FocusTheEyepiece()
            case EyepieceAnswer.TWO_THERE:
                yield TheOneOfTwo()
            case _:
                assert_never(told.command)
        told = yield from ask(IsItCentredNow())


def _agreement(star: str, state: AlignmentState) -> Steps[Agreement]:
    """Compare with what the mount reads, unless the observer was believed against it before."""
    if state.reading_is_doubted:
        return "believed"
    agreed = yield from points_at(star, state.context, state.told_miss_deg(star))
    state.reading_is_doubted = agreed == "believed"
    return agreed


def _nudge(told: Reply[NudgeAnswer], state: AlignmentState, first_deg: float) -> Steps[None]:
    """Move the tube by a small step. Before the first star is taken in, a mount may point anywhere."""
    uncertainty_deg = ALIGNED_WITHIN_DEG if state.synced else ANYWHERE_DEG
    state.steering = yield from nudged(
        told, state.steering, linked=state.context.linked, first_deg=first_deg, uncertainty_deg=uncertainty_deg
    )


def _stepped_towards(side: str, time: datetime, state: AlignmentState, first_deg: float) -> Steps[bool]:
    """Move the tube towards a side or corner of the view, where a mount on the line can be moved; return whether it can."""
    if not (yield from can_step(linked=state.context.linked)):
        return False
    for towards in side.split("-"):
        before = state.steering
        yield from _nudge(Reply(NudgeAnswer.NUDGE, time, {"way": _STEPS_TO[towards]}), state, first_deg)
        if state.steering is before:
            # Refused, or halted: then nothing else is moved, either.
            break
    return True


def _finder_mirrors(state: AlignmentState) -> bool | None:
    """Say whether the finder shows left and right exchanged: a lit mark never does; of an optical one nobody knows."""
    return False if state.context.equipment.instrument.finder == "dot" else None


def _steer_in_the_eyepiece(seen_at: str, state: AlignmentState) -> Steps[None]:
    """Say the keys, and keep with which of them the star is finished."""
    mirrors = state.context.equipment.instrument.has_diagonal
    state.arrows, pressed = yield from _say_the_arrows(seen_at, state.arrows, mirrors, state.last_keys)
    state.last_keys = last_keys(state.last_keys, pressed)


def _say_the_arrows(
    seen_at: str, arrows: Arrows | None, mirrors: bool | None, last: tuple[ArrowKey, ...] = ()
) -> Steps[tuple[Arrows | None, tuple[ArrowKey, ...]]]:
    """Say which keys bring a star to the middle; how the view is turned is learned from one press, or two.

    Return what is known of it now, and the keys said.
    """
    if arrows is None:
        on_right = yield from ask(PressRightOnce())
        if on_right.command is not ViewAnswer.VIEW:
            return None, ()
        if mirrors is None:
            on_up = yield from ask(PressUpOnce())
            if on_up.command is not ViewAnswer.VIEW:
                return None, ()
            arrows = Arrows.from_two_presses(on_right.slots["side"], on_up.slots["side"])
        else:
            arrows = Arrows.from_one_press(on_right.slots["side"], mirrored=mirrors)
    keys = arrows.keys_to_centre(seen_at)
    if not keys:
        # Both arrows can't move it the same way: one of them was told wrongly, so they are learnt anew.
        yield ArrowsDoNotFit()
        return None, ()
    yield PressTheseKeys(keys, last)
    return arrows, keys
