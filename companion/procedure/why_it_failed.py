"""Find the mistake behind a miss: compute what explains it, ask what tells the causes apart, and say what to do and how sure that is."""

from __future__ import annotations

import enum
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache
from typing import TypeAlias, get_args

from companion import diagnosis, sky
from companion.diagnosis import Advice, Answer, Belief, Question, Reading
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.confirm_clock import agree_on_the_clock, minutes_off
from companion.procedure.misses import Message, as_request
from companion.procedure.notes import ItsClockIsWrong, LikelyCause, MissTold, WrongReading
from companion.procedure.script import Steps, ask
from companion.talk.answers import CheckAnswer, FacingAnswer, ReadyAnswer
from companion.talk.mistakes_phrases import (
    AnOrdinaryMiss,
    AnotherStarWillTell,
    CheckThis,
    CorrectThat,
    FairlySureOfTheCause,
    IsItsTimeRight,
    IsTheGroundSoft,
    KeyOurTimeAgain,
    MendThese,
    NorthWasALittleOff,
    OneAnswerDoesntFit,
    OneOfTheseCauses,
    PerhapsOurOwnClock,
    StillUnsure,
    ThatIsIt,
    WasItKnocked,
    WhichWayDidItFace,
)
from companion.talk.saying import Reply, Say

FAIRLY_SURE = 0.9
"""Said plainly from here on; below, other causes are named too. A confident wrong answer costs more than an honest list."""
NOT_SURE = 0.5
"""Below this no cause is named: what is excluded is, and what will tell."""
_MOST_CAUSES, _LIKELY = 3, 0.1
"""How many causes are named at once, and how likely each must be."""
_CLOCK_IS_WRONG_MINUTES = 5.0
_BEFORE_ANOTHER_STAR = 2
"""So many questions are asked before another star is gone to: where that lies tells more than a third."""
_MOST_LEFT = 2
"""Nor are more stars left for it than this: each costs minutes."""
_STEERABLE_DEG = 15.0
"""A first star this far to one side is what a compass does: the mount takes it in when the star is centred. Common practice."""
_ORDINARY_UP_DEG = 10.0
"""And this far up or down, what a tube roughly levelled does: no star farther off is called ordinary."""

_TAKEN_IN = 0.8
"""How often a turn about the vertical is taken in with the first star: some mounts turn by the shortest way (``evidence._SCHEMES``)."""


class Unsolved(enum.Enum):
    """How a search ends that mends nothing."""

    ORDINARY = enum.auto()
    """Nothing is wrong: the star is steered to."""
    ANOTHER_STAR = enum.auto()
    """Where the next star lies will tell: this one is left."""


@dataclass(frozen=True)
class Mended:
    """That a mistake is mended, or that it was given up, and when."""

    time: datetime
    done: bool
    cures: tuple[diagnosis.Cure, ...] = diagnosis.START_ANEW
    """What was done; where nobody knows what is wrong, all of the start position."""

    @classmethod
    def by(cls, reply: Reply[ReadyAnswer], cures: tuple[diagnosis.Cure, ...] = diagnosis.START_ANEW) -> Mended:
        """Return what an answer to "say ready" means."""
        return cls(reply.time, reply.command is ReadyAnswer.READY, cures)

    @property
    def from_the_start_position(self) -> bool:
        """Whether the mount begins again from level and north: not where only another star is taken, for it stands as it stood."""
        return self.cures != ("star",)


Found: TypeAlias = Mended | Unsolved


def find_the_mistake(
    state: AlignmentState, message: Message = "none", clue: diagnosis.Clue | None = None, *, more_stars: bool = False
) -> Steps[Found]:
    """Ask, conclude, and wait until it is mended; ``more_stars``: another star can be gone to instead."""
    belief = _suspected(state, message, clue)
    minutes = 0
    next_star = _another_star(state) if more_stars else None
    while (question := _next_question(belief, state)) is not None:
        wait = len(state.suspicion.answered) < _BEFORE_ANOTHER_STAR or diagnosis.found_wrong(state.suspicion.answered)
        if next_star is not None and not wait and _too_vague(belief, state):
            break
        answer, off = yield from _put(question, state)
        state.suspicion = state.suspicion.with_answer(question, answer)
        belief = diagnosis.settle(belief, question, answer, read_out=off is not None)
        if answer == "no" and question.about in get_args(Reading):
            yield WrongReading(question.about)
            minutes = off or minutes
            if _next_question(belief, state) is not None:
                yield CorrectThat()
    advice = _advised(belief, state)
    causes = diagnosis.causes_mended(belief, advice) or (belief.leading,)
    only_steer = advice.cures != ("none",) and _only_needs_steering(causes[0], state)
    yield LikelyCause(causes[0], round(advice.probability * (_TAKEN_IN if only_steer else 1.0), 3))
    if advice.cures == ("none",) or only_steer:
        yield NorthWasALittleOff() if "north" in diagnosis.found_wrong(state.suspicion.answered) else AnOrdinaryMiss()
        return Unsolved.ORDINARY
    if next_star is not None and _too_vague(belief, state):
        yield StillUnsure(_found_right(state))
        yield AnotherStarWillTell()
        return Unsolved.ANOTHER_STAR
    yield OneAnswerDoesntFit() if advice.against_an_answer else _how_sure(belief, advice, state)
    if (yield from _our_clock_is_wrong(belief, advice, state)):
        return Mended.by((yield from ask(KeyOurTimeAgain(state.context.equipment.mount.hours))), ("time",))
    if minutes:
        yield ItsClockIsWrong(minutes)
    state.suspicion = state.suspicion.after(advice.cures)
    compass = state.context.equipment.observer.compass or "unknown"
    mended = yield from ask(MendThese(advice.cures, belief.star_confused or state.misses[-1].star, compass, minutes))
    return Mended.by(mended, advice.cures)


def _another_star(state: AlignmentState) -> str | None:
    """Return the star to go to if the one at hand is left for it; None where enough were left for that already."""
    last = state.misses[-1]
    left = [miss for miss in state.misses[:-1] if miss.star in state.refused]
    return state.next_after(last.star, last.time) if len(left) < _MOST_LEFT else None


def _too_vague(belief: Belief, state: AlignmentState) -> bool:
    """Say whether another star is worth its minutes before anything is done."""
    return _advised(belief, state).probability < diagnosis.ANOTHER_STAR


def _advised(belief: Belief, state: AlignmentState) -> Advice:
    """Return what to do again after all that was answered and tried."""
    suspicion = state.suspicion
    return diagnosis.advised(belief, suspicion.answered, suspicion.before, again=bool(suspicion.mended))


def _how_sure(belief: Belief, advice: Advice, state: AlignmentState) -> Say:
    """Return what to say of how well the cause is known: at most three causes, and what is excluded where none is likely."""
    sure = advice.probability >= FAIRLY_SURE
    if set(advice.cures) <= diagnosis.found_wrong(state.suspicion.answered):
        return ThatIsIt(advice.cures, sure)
    causes = diagnosis.causes_mended(belief, advice)
    if causes and belief.causes[causes[0]] >= FAIRLY_SURE:
        return FairlySureOfTheCause(causes[0])
    if advice.probability < NOT_SURE:
        return StillUnsure(_found_right(state), causes[:_MOST_CAUSES])
    rivals = causes if sure else belief.causes
    others = (cause for cause in rivals if belief.causes[cause] >= _LIKELY and cause not in (causes[0], "none"))
    return OneOfTheseCauses((causes[0], *others)[:_MOST_CAUSES], sure)


def _found_right(state: AlignmentState) -> tuple[diagnosis.Cure, ...]:
    """Return what was found right, by what would mend it."""
    return tuple(sorted(diagnosis.found_right((*state.suspicion.before, *state.suspicion.answered))))


def _suspected(state: AlignmentState, message: Message, clue: diagnosis.Clue | None) -> Belief:
    """Return what explains the misses, all that was told besides, and what was tried in vain; less what can't be."""
    belief = _explained(as_request(state.context.site, state.started, state.misses, state.centred_at, message))
    for told in (clue, *_known_of_the_evening(state)):
        belief = belief if told is None else diagnosis.weigh_clue(belief, told)
    for question, answer in (*state.suspicion.before, *state.suspicion.answered):
        belief = diagnosis.settle(belief, question, answer)
    belief = diagnosis.after_mending(belief, state.suspicion.mended)
    if not state.centred and all(miss.is_unseen for miss in state.misses):
        # Nothing was centred yet, so no wrong star can have been.
        belief = belief.without("wrong_star")
    last = state.misses[-1]
    is_down = sky.sight(sky.find(last.star), state.context.moment(last.time)).altitude_deg < 0
    in_vain = bool(state.suspicion.mended) and last.is_large
    if is_down or in_vain or not all(map(_is_near, state.misses)):
        # No mount that is told right offers a star below the horizon, or stops so far from one, nor so again after a start with care.
        belief = belief.without("none")
    return belief


@lru_cache(maxsize=8)
def _explained(request: diagnosis.DiagnoseRequest) -> Belief:
    """Return what the geometry makes of it. Kept, since to go back is to replay the stage."""
    return Belief.of(diagnosis.diagnose(request))


def _known_of_the_evening(state: AlignmentState) -> tuple[diagnosis.Clue, ...]:
    """Return what makes some causes likelier before any miss: after a kick the alignment begins elsewhere than in the start position."""
    return () if state.from_pose else ("kicked",)


def _next_question(belief: Belief, state: AlignmentState) -> Question | None:
    """Return what to ask next; after a kick nobody is asked whether there was one, but about the base whatever the stars say."""
    suspicion = state.suspicion
    known = () if state.from_pose else ((diagnosis.KNOCKED, "yes"),)
    return diagnosis.next_question(belief, suspicion.answered, (*suspicion.before, *known), again=bool(suspicion.mended))


def _put(question: Question, state: AlignmentState) -> Steps[tuple[Answer, int | None]]:
    """Ask a question; return the answer, and by how many minutes the mount's clock is ahead where it was read out."""
    star = question.star or state.misses[-1].star
    match question.about:
        case "facing":
            return _FACED[(yield from ask(WhichWayDidItFace())).command], None
        case "soft_ground":
            return _YES_OR_NO[(yield from ask(IsTheGroundSoft())).command.value], None
        case "knocked":
            return _YES_OR_NO[(yield from ask(WasItKnocked())).command.value], None
        case "time":
            told = yield from ask(IsItsTimeRight())
            if isinstance(told.command, CheckAnswer):
                return _YES_OR_NO[told.command.value], None
            off = minutes_off(state.context, Reply(told.command, told.time, told.slots))
            if off is None:
                return "cant_tell", None
            return ("no" if abs(off) >= _CLOCK_IS_WRONG_MINUTES else "yes"), off
        case about:
            compass = state.context.equipment.observer.compass or "unknown"
            return _YES_OR_NO[(yield from ask(CheckThis(about, star, question.instead, compass))).command.value], None


_YES_OR_NO: Mapping[str, Answer] = {"yes": "yes", "no": "no", "cant-tell": "cant_tell", "skip": "cant_tell"}
_FACED: Mapping[FacingAnswer, Answer] = {
    FacingAnswer.NORTH: "north",
    FacingAnswer.EAST: "east",
    FacingAnswer.SOUTH: "south",
    FacingAnswer.WEST: "west",
    FacingAnswer.CANT_TELL: "cant_tell",
    FacingAnswer.SKIP: "cant_tell",
}


def _our_clock_is_wrong(belief: Belief, advice: Advice, state: AlignmentState) -> Steps[bool]:
    """Where settings that were found right are likelier at fault than all else, compare our own clock; return whether it was wrong."""
    unmended = diagnosis.share_mended_by(belief, diagnosis.SETTINGS.intersection(_found_right(state)))
    if state.suspicion.our_clock_compared or unmended <= advice.probability:
        return False
    state.suspicion = replace(state.suspicion, our_clock_compared=True)
    yield PerhapsOurOwnClock()
    return (yield from agree_on_the_clock(state.context))


def _only_needs_steering(cause: diagnosis.Cause, state: AlignmentState) -> bool:
    """Say whether a first star missed sideways, and not far, tells no more than that north was found by compass."""
    first = not (state.centred or state.suspicion.mended)
    return first and cause in ("start_azimuth", "magnetic_declination") and all(map(_is_near, state.misses))


def _is_near(miss: MissTold) -> bool:
    """Say whether a star lay no farther off than it may with nothing wrong."""
    right_deg, up_deg = miss.right_deg, miss.up_deg
    return right_deg is not None and up_deg is not None and abs(right_deg) <= _STEERABLE_DEG and abs(up_deg) <= _ORDINARY_UP_DEG
