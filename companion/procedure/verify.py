"""Prove the alignment on a third object before anything faint is looked for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import assert_never

from companion.procedure.agreement import points_at
from companion.procedure.align_mount import Aligned, after_a_bad_verdict, align
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.centring import ask_miss
from companion.procedure.notes import Proof
from companion.procedure.nudging import EYEPIECE_STEP_DEG, Steering, nudged
from companion.procedure.recover import Mishap, bring_it_back
from companion.procedure.reference_stars import USUAL_CHOICE
from companion.procedure.script import Context, Result, Steps, ask
from companion.procedure.starting_pose import take_pose_again
from companion.procedure.turning import ALIGNED_WITHIN_DEG, turn_to, why_not_now
from companion.talk.answers import NudgeAnswer, OutcomeAnswer, ProofAnswer, TurnAnswer
from companion.talk.centring_phrases import WhileItSlews
from companion.talk.mistakes_phrases import WhichWayAndHowFar
from companion.talk.mount_phrases import NotTurning
from companion.talk.saying import Reply
from companion.talk.stars_phrases import HowHigh
from companion.talk.targets_phrases import (
    IsTheProofInView,
    LookLowerPower,
    NearlyProven,
    NothingToProveItOn,
    ProofLeft,
    ProofStar,
    SweepRound,
    TheAlignmentHolds,
    WhereTheProofIs,
)

_UNSEEN = (LookLowerPower(), SweepRound())
"""What is tried when it can't be seen, before another star is taken."""


@dataclass(frozen=True)
class Proven(Result):
    """Whether the alignment held."""

    proven: bool
    good_turns: int = 0
    """How many turns over the line went well."""


def prove_it(context: Context) -> Steps[Proven]:
    """Let the mount go to a star it has not seen yet; a miss there leads to the mistake and a new alignment."""
    aligned = context.found(Aligned)
    if aligned is None or aligned.outcome != "success":
        return Proven(False)
    return (yield from prove(context, context.started, aligned))


def prove(context: Context, time: datetime, aligned: Aligned) -> Steps[Proven]:
    """Prove an alignment by a further star, none of those it left; return whether it held in the end."""
    good_turns = 0
    choice = context.equipment.mount.star_choice or USUAL_CHOICE
    state = _after(context, time, aligned)
    while True:
        star = state.nearest_star(time) if len(state.centred) == 1 else state.next_star(time)
        if star is None:
            yield NothingToProveItOn()
            return Proven(False, good_turns)
        yield Proof(star)
        if not context.linked or (yield from why_not_now()) is not None:
            yield ProofStar(star)
        else:
            good_turns += yield from _turned(star, time)
        told = yield from _look(star, context)
        while told.command is TurnAnswer.TURN_THERE:
            good_turns += yield from _turned(star, told.time)
            told = yield from _look(star, context)
        time = told.time
        match told.command:
            case ProofAnswer.IN_EYEPIECE:
                yield TheAlignmentHolds(near=state.centred[0] if len(state.centred) == 1 else None)
                return Proven(True, good_turns)
            case ProofAnswer.IN_FINDER:
                yield from ask(NearlyProven(star))
                return Proven(True, good_turns)
            case ProofAnswer.SKIP:
                return Proven(False, good_turns)
            case ProofAnswer.WAS_FINE | ProofAnswer.KICKED:
                mishap: Mishap = "kicked" if told.command is ProofAnswer.KICKED else "was-fine"
                recovered = yield from bring_it_back(context, mishap, time)
                time, again = recovered.time, recovered.aligned
            case ProofAnswer.OVERCAST:
                yield ProofLeft()
                return Proven(False, good_turns)
            case ProofAnswer.ANOTHER:
                state.refused.append(star)
                continue
            case ProofAnswer.WAY_OFF:
                state.refused.append(star)
                yield from ask_miss(star, state, WhichWayAndHowFar(star))
                mended = yield from after_a_bad_verdict(state, OutcomeAnswer.SUCCESS_BUT_OFF)
                time = (yield from take_pose_again(context, mended.time)) if mended.done else mended.time
                again = yield from align(context, time, choice)
            case ProofAnswer.HOW_HIGH | ProofAnswer.WHICH_ONE | ProofAnswer.CANNOT_SEE | ProofAnswer.SLEWING | TurnAnswer():
                continue  # answered in _look already
            case _:
                assert_never(told.command)
        if again is not None:
            if again.outcome != "success":
                return Proven(False, good_turns)
            state = _after(context, time, again)


def _after(context: Context, time: datetime, aligned: Aligned) -> AlignmentState:
    """Return what chooses a further star from the list: none of those centred, none of those left."""
    fist_deg = context.equipment.observer.fist_deg
    return AlignmentState(context, time, "list", 1, centred=list(aligned.stars), refused=list(aligned.left), fist_deg=fist_deg)


def _turned(star: str, time: datetime) -> Steps[bool]:
    """Offer a turn to the star until it has arrived, or is to be sent by hand; return whether it arrived."""
    how, time = yield from turn_to(star, time)
    while how == "stopped" and (yield from why_not_now()) is None:
        how, time = yield from turn_to(star, time)
    if how != "arrived":
        yield ProofStar(star)
    return how == "arrived"


def _look(star: str, context: Context) -> Steps[Reply[ProofAnswer | TurnAnswer]]:
    """Hear where the star lies now that the mount was sent there; what is asked on the way is answered in a sentence."""
    times, steering = 0, Steering()
    while True:
        told = yield from ask(IsTheProofInView())
        match told.command:
            case ProofAnswer.IN_EYEPIECE if (agreed := (yield from points_at(star, context))) in ("turning", "elsewhere"):
                if agreed == "elsewhere":
                    yield WhereTheProofIs(star)
            case NudgeAnswer() as way:
                steering = yield from nudged(
                    Reply(way, told.time, told.slots),
                    steering,
                    linked=context.linked,
                    first_deg=EYEPIECE_STEP_DEG,
                    uncertainty_deg=ALIGNED_WITHIN_DEG,
                )
            case TurnAnswer.TURN_THERE:
                why = (yield from why_not_now()) if context.linked else "cannot"
                if why is None:
                    return Reply(TurnAnswer.TURN_THERE, told.time)
                yield NotTurning(why)
            case TurnAnswer():
                yield ProofStar(star)
            case ProofAnswer.HOW_HIGH:
                yield HowHigh(star)
            case ProofAnswer.WHICH_ONE:
                yield WhereTheProofIs(star)
            case ProofAnswer.CANNOT_SEE:
                times += 1
                if times > len(_UNSEEN):
                    return Reply(ProofAnswer.ANOTHER, told.time)
                yield _UNSEEN[times - 1]
            case ProofAnswer.SLEWING:
                yield from ask(WhileItSlews())
            case answer:
                return Reply(answer, told.time, told.slots)
