"""Visit three of tonight's targets; whatever knocks the mount out of its knowledge meanwhile is mended here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import assert_never

from companion import observing, sky
from companion.procedure.align_mount import Aligned
from companion.procedure.ask_equipment import measure_fist
from companion.procedure.recover import Mishap, bring_it_back
from companion.procedure.script import Context, Result, Steps, ask
from companion.procedure.verify import prove
from companion.talk.answers import TargetAnswer
from companion.talk.centring_phrases import WhileItSlews
from companion.talk.saying import Ask
from companion.talk.stars_phrases import HowHigh
from companion.talk.targets_phrases import (
    FindTarget,
    IntroduceTarget,
    NextTarget,
    NoTargets,
    SayNextTarget,
    SteerByHand,
    SunStillUp,
    WarmClothes,
)

TARGET_COUNT = 3
_KNOWS_THE_SKY = ("success", "skip")


@dataclass(frozen=True)
class Visited(Result):
    """The targets that were seen, by name."""

    visited: tuple[str, ...] = ()


def visit_targets(context: Context) -> Steps[Visited]:
    """Introduce the best targets that are up, one after another; none while the Sun is up."""
    moment = context.moment(context.started)
    if sky.sun_state(moment).is_up:
        yield SunStillUp()
        return Visited()
    chosen = observing.targets(moment, count=TARGET_COUNT, hidden=context.hides)
    if not chosen:
        yield NoTargets()
        return Visited()
    aligned = context.found(Aligned)
    if aligned is not None and aligned.outcome not in _KNOWS_THE_SKY:
        yield SteerByHand()
    yield WarmClothes()
    visited = []
    for number, ranked in enumerate(chosen):
        if number:
            yield NextTarget()
        if (yield from _visit(context, ranked.sight.body)):
            visited.append(ranked.sight.body.name)
    return Visited(tuple(visited))


def _visit(context: Context, body: sky.Body) -> Steps[bool]:
    """Introduce a target and help with it; return whether it was seen, not skipped."""
    question: Ask[TargetAnswer] = IntroduceTarget(body.name, body.kind)
    while True:
        told = yield from ask(question)
        match told.command:
            case TargetAnswer.NEXT:
                return True
            case TargetAnswer.SKIP:
                return False
            case TargetAnswer.HOW_HIGH:
                yield HowHigh(body.name)
                question = SayNextTarget()
            case TargetAnswer.SLEWING:
                yield from ask(WhileItSlews())
                question = SayNextTarget()
            case TargetAnswer.MEASURE_FIST:
                yield from measure_fist(context, told.time)
                question = IntroduceTarget(body.name, body.kind)
            case TargetAnswer.WAS_FINE | TargetAnswer.KICKED | TargetAnswer.RESTARTED:
                recovered = yield from bring_it_back(context, _mishap(told.command), told.time)
                if recovered.aligned is not None and recovered.aligned.outcome == "success":
                    yield from prove(context, recovered.time, recovered.aligned)
                question = IntroduceTarget(body.name, body.kind)
            case TargetAnswer.CANNOT_SEE | TargetAnswer.WHICH_ONE:
                question = FindTarget(body.name, body.kind)
            case _:
                assert_never(told.command)


def _mishap(told: TargetAnswer) -> Mishap:
    if told is TargetAnswer.RESTARTED:
        return "restarted"
    return "kicked" if told is TargetAnswer.KICKED else "was-fine"
