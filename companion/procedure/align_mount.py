"""Teach the mount the sky: star after star, its verdict, and, where something is wrong, the mistake found, mended and begun again."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, assert_never

from companion import diagnosis
from companion.equipment import StarChoice
from companion.procedure.alignment_state import MANY_CLOUDED, STAR_COUNTS, AlignmentState, Ending, Visit
from companion.procedure.arrows import keys_of
from companion.procedure.centring import ask_miss, bring_to_the_middle, centre
from companion.procedure.clouds import find_clear_sky
from companion.procedure.misses import Message
from companion.procedure.next_star import Offered, hear_its_star, offer
from companion.procedure.readings import judge_readings
from companion.procedure.script import Context, Result, Steps, ask
from companion.procedure.starting_pose import take_pose_again
from companion.procedure.why_it_failed import Mended, Unsolved, find_the_mistake
from companion.talk.answers import OutcomeAnswer, ReadyAnswer
from companion.talk.mistakes_phrases import WhereWasTheLastStar
from companion.talk.stars_phrases import ItFailed, NoMoreStars, WhatDoesTheMountSay, WhatToExpect

_MOST_STARS = 6
"""More than any mount asks for."""
BadVerdict = Literal[OutcomeAnswer.FAILED, OutcomeAnswer.SUCCESS_BUT_OFF, OutcomeAnswer.MOON_OFF, OutcomeAnswer.WORSE_FAR_AWAY]


@dataclass(frozen=True)
class Aligned(Result):
    """How an alignment ended."""

    stars: tuple[str, ...]
    left: tuple[str, ...]
    """What was seen to be hidden, or left for another reason."""
    outcome: Literal["success", "skip", "incomplete", "failed"]
    """``skip`` where the verdict was left out; ``incomplete`` without enough stars; ``failed`` where it was given up."""


def align(context: Context, time: datetime, choice: StarChoice, *, from_pose: bool = True) -> Steps[Aligned]:
    """Go through the stars and the mount's verdict; begin again after each mistake that is mended."""
    fist_deg = context.equipment.observer.fist_deg
    finish = keys_of(context.equipment.mount.last_keys)
    state = AlignmentState(context, time, choice, STAR_COUNTS[choice], fist_deg=fist_deg, from_pose=from_pose, last_keys=finish)
    while True:
        mended = yield from _centre_all(state, time)
        if mended is None and len(state.centred) < state.wanted:
            later = None if state.no_star_tonight else (yield from ask(NoMoreStars(choice)))
            if later is None or later.command is ReadyAnswer.SKIP:
                return _ended(state, "incomplete")
            state.forgive()
            time = later.time
            continue
        if mended is None and context.linked and (yield from judge_readings(state)):
            yield _what_to_expect(state)
            return _ended(state, "success")
        if mended is None:
            verdict = yield from ask(WhatDoesTheMountSay())
            time = verdict.time
            match verdict.command:
                case OutcomeAnswer.WANTS_ANOTHER if state.wanted < _MOST_STARS:
                    state.wanted += 1
                    continue
                case OutcomeAnswer.SUCCESS | OutcomeAnswer.WANTS_ANOTHER:
                    if verdict.command is OutcomeAnswer.SUCCESS:
                        yield _what_to_expect(state)
                    return _ended(state, "success")
                case OutcomeAnswer.SKIP:
                    return _ended(state, "skip")
                case bad:
                    mended = yield from after_a_bad_verdict(state, bad)
        if not mended.done:
            return _ended(state, "failed")
        anew = state.from_pose and mended.from_the_start_position
        time = (yield from take_pose_again(context, mended.time)) if anew else mended.time
        state = AlignmentState(
            context,
            time,
            choice,
            STAR_COUNTS[choice],
            suspicion=state.suspicion.begun_again(state.misses, from_the_start_position=mended.from_the_start_position),
            hidden=state.hidden,
            fist_deg=state.fist_deg,
            arrows=state.arrows,
            finder_arrows=state.finder_arrows,
            last_keys=state.last_keys,
            asked_last_keys=state.asked_last_keys,
            left_since=not anew,
        )


def _what_to_expect(state: AlignmentState) -> WhatToExpect:
    """Return what to expect of the pointing, by what is known of the base's lean; or that it leant, and nobody measured what is left."""
    return WhatToExpect(tuple(state.centred), state.lean_deg, if_level=state.suspicion.leant and state.lean_deg is None)


def _ended(state: AlignmentState, outcome: Literal["success", "skip", "incomplete", "failed"]) -> Aligned:
    return Aligned(tuple(state.centred), tuple(state.refused), outcome)


def after_a_bad_verdict(state: AlignmentState, verdict: BadVerdict) -> Steps[Mended]:
    """Find out why the mount or the observer is not content; where no miss was told, ask for the last star's."""
    if not state.misses and state.centred:
        yield from ask_miss(state.centred[-1], state, WhereWasTheLastStar(state.centred[-1]))
    if state.misses:
        message, clue = _told_by(verdict)
        found = yield from find_the_mistake(state, message, clue)
        if isinstance(found, Mended):
            return found
    return Mended.by((yield from ask(ItFailed())))


def _told_by(verdict: BadVerdict) -> tuple[Message, diagnosis.Clue | None]:
    """Return what the mount said, and what there is in a verdict that has no degrees in it."""
    match verdict:
        case OutcomeAnswer.FAILED:
            return "failed", None
        case OutcomeAnswer.SUCCESS_BUT_OFF:
            return "success", None
        case OutcomeAnswer.MOON_OFF:
            return "none", "stars_fine_moon_off"
        case OutcomeAnswer.WORSE_FAR_AWAY:
            return "none", "good_near_first_star_worse_far_away"
        case _:
            assert_never(verdict)


def _centre_all(state: AlignmentState, time: datetime) -> Steps[Mended | None]:
    """Go through the stars; return when a mistake is mended, or None when all are centred or no star is left."""
    while len(state.centred) < state.wanted:
        offered = yield from offer(state, time)
        if offered is None:
            return None
        star, visit = yield from _visit(offered, state)
        time = visit.time
        if visit.ending is Ending.WAY_OFF:
            found = yield from find_the_mistake(state, more_stars=True)
            if isinstance(found, Mended):
                return found
            leave = found is Unsolved.ANOTHER_STAR
            visit = Visit(Ending.LEFT, time) if leave else (yield from bring_to_the_middle(star, state))
        state.settle(star, visit)
        if state.clouded >= MANY_CLOUDED:
            opened = yield from find_clear_sky(state, time)
            if opened is None:
                return None
            time = opened
    return None


def _visit(offered: Offered, state: AlignmentState) -> Steps[tuple[str, Visit]]:
    """Centre the star offered, or another that the mount takes instead; return which it was in the end, and how it ended."""
    star = offered.star
    visit = offered.is_down or (yield from centre(star, state))
    while visit.ending is Ending.NAMED_ANOTHER:
        named = yield from hear_its_star(state, visit.told)
        if named is None:
            visit = yield from bring_to_the_middle(star, state)
        else:
            star = named.star
            visit = named.is_down or (yield from centre(star, state))
    return star, visit
