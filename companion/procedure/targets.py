"""The night after the alignment: one target after another for as long as one stays, whatever is asked, told or knocked over meanwhile."""

from __future__ import annotations

from dataclasses import dataclass, replace

from companion import sky
from companion.procedure.align_mount import Aligned
from companion.procedure.night.answers import answered
from companion.procedure.night.by_line import ask_or_turn
from companion.procedure.night.darkness import ask_how_dark
from companion.procedure.night.leading import lead_on
from companion.procedure.night.state import Night
from companion.procedure.notes import Learned
from companion.procedure.script import Context, Result, Steps, ask
from companion.procedure.spoken_figures import figure_of
from companion.procedure.verify import Proven
from companion.talk.answers import FinderWidthAnswer, YesNoAnswer
from companion.talk.jump_phrases import PackUpNow
from companion.talk.night_answers import TargetAnswer
from companion.talk.night_phrases import HowWideForTheWay, SayNextTarget, SunIsUp, Told
from companion.talk.saying import Reply
from companion.talk.targets_phrases import SteerByHand, SunStillUp, WarmClothes

_KNOWS_THE_SKY = ("success", "skip")
_UNDER_POWER = (TargetAnswer.BATTERY, TargetAnswer.RESTARTED, TargetAnswer.SLEWING, TargetAnswer.WAS_FINE)
"""What is told of a mount that is on."""


@dataclass(frozen=True)
class Visited(Result):
    """The targets that were seen, by name."""

    visited: tuple[str, ...] = ()
    by_hand_alone: bool = False
    """Whether the mount knew nothing, and nothing told of it showed that it was on."""


def visit_targets(context: Context) -> Steps[Visited]:
    """Show one target after another until the observer has had enough, or the Sun is up."""
    if sky.sun_state(context.moment(context.started)).is_up:
        yield SunStillUp()
        return Visited()
    aligned = context.found(Aligned)
    wanted: Reply[Told] | None = None
    night = Night(by_hand=aligned is not None and aligned.outcome not in _KNOWS_THE_SKY, own=context.own)
    if night.by_hand:
        yield SteerByHand()
        night, wanted = yield from _ask_finder_field(context, night)
    else:
        yield WarmClothes()
    by_line = context.linked and aligned is not None and aligned.outcome == "success"
    proven = context.found(Proven)
    night = replace(night, by_line=by_line, good_turns=0 if proven is None else proven.good_turns)
    if wanted is None:
        night, question = yield from lead_on(context, night, context.started)
    else:
        night, question = yield from answered(context, night, SayNextTarget(), wanted)
    while True:
        night, question, told = yield from ask_or_turn(night, question)
        night, told = yield from ask_how_dark(context, night, told)
        if sky.sun_state(context.moment(told.time)).is_up:
            yield SunIsUp()
            return Visited(night.seen, night.by_hand_alone)
        if told.command in _UNDER_POWER:
            night = replace(night, mount_is_on=True)
        if told.command is TargetAnswer.GOOD_NIGHT:
            leaving = yield from ask(PackUpNow())
            match leaving.command:
                case YesNoAnswer.YES | TargetAnswer.GOOD_NIGHT:
                    return Visited(night.seen, night.by_hand_alone)
                case YesNoAnswer():
                    question = SayNextTarget()
                    continue
                case instead:
                    told = Reply(instead, leaving.time, leaving.slots)
        night, question = yield from answered(context, night, question, told)


def _ask_finder_field(context: Context, night: Night) -> Steps[tuple[Night, Reply[Told] | None]]:
    """Ask how wide a finder shows that magnifies, where nobody has told: the way by hand goes by its view.

    Return the night as it is then, and what is wanted instead of an answer.
    """
    instrument = context.equipment.instrument
    if instrument.finder != "optical" or instrument.finder_field_deg is not None:
        return night, None
    told = yield from ask(HowWideForTheWay())
    match told.command:
        case FinderWidthAnswer.SKIP:
            return night, None
        case FinderWidthAnswer.FINDER_WIDTH:
            field_deg = figure_of(told.slots)
            yield Learned.one("instrument", "finder_field_deg", field_deg)
            return replace(night, finder_field_deg=field_deg), None
        case wanted:
            return night, Reply(wanted, told.time, told.slots)
