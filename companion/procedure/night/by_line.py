"""With a mount on the line a target is offered with a turn there, if the mount can be turned now."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

from companion.procedure.night.state import Night
from companion.procedure.nudging import EYEPIECE_STEP_DEG, nudged
from companion.procedure.script import Context, Steps, ask
from companion.procedure.turning import ALIGNED_WITHIN_DEG, ANYWHERE_DEG, turn_now, why_not_now
from companion.talk.answers import NudgeAnswer, TurnAnswer, TurnReadilyAnswer
from companion.talk.night_answers import TargetAnswer
from companion.talk.night_phrases import FindTarget, IntroduceTarget, Told
from companion.talk.saying import Ask, Reply
from companion.talk.turning_phrases import IsItInView, ItPointsThere, ShallITurnThere, ShallITurnThereToo

GOOD_TURNS = 2
"""After so many turns that went well a yes is enough."""
Asked: TypeAlias = tuple[Night, Ask[Told], Reply[Told]]
"""The night as it is then, the question that was answered in the end, and its answer."""


def ask_or_turn(night: Night, question: Ask[Told]) -> Steps[Asked]:
    """Ask; where a target is introduced and the mount can be turned, offer that with it, and ask when it stands there.

    What introduces it is said once, whatever becomes of the turn.
    """
    if not isinstance(question, IntroduceTarget) or not night.by_line or (yield from why_not_now()) is not None:
        return night, question, (yield from ask(question))
    by_hand, again = FindTarget(question.target, question.kind), False
    while True:
        offer = ShallITurnThereToo if night.good_turns >= GOOD_TURNS else ShallITurnThere
        told = yield from ask(offer(question.target, question.kind, question.eyepiece_mm, question.change, again))
        match told.command:
            case TurnAnswer.TURN_THERE | TurnReadilyAnswer.TURN_THERE:
                how, _ = yield from turn_now(question.target, told.time)
                if how == "arrived":
                    there = ItPointsThere(question.target, question.kind)
                    return replace(night, good_turns=night.good_turns + 1), there, (yield from ask(there))
                if how != "stopped" or (yield from why_not_now()) is not None:
                    return night, by_hand, (yield from ask(by_hand))
                again = True
            case TurnAnswer.BY_HAND | TurnReadilyAnswer.BY_HAND:
                return night, by_hand, (yield from ask(by_hand))
            case TurnAnswer.SKIP | TurnReadilyAnswer.SKIP:
                return night, question, Reply(TargetAnswer.SKIP, told.time)
            case said:
                return night, question, Reply(said, told.time, told.slots)


def step_by_line(context: Context, night: Night, told: Reply[NudgeAnswer]) -> Steps[tuple[Night, Ask[Told]]]:
    """Move the tube by a small step at a target, and ask for the next."""
    within_deg = ALIGNED_WITHIN_DEG if night.by_line else ANYWHERE_DEG
    steering = yield from nudged(told, night.steering, linked=context.linked, first_deg=EYEPIECE_STEP_DEG, uncertainty_deg=within_deg)
    return replace(night, steering=steering), IsItInView()
