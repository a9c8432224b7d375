"""Going to a part of the evening by its name: which stage that is, and what is said, or asked, before we go."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from companion import sky
from companion.dialogue.progress import Progress, undone_by
from companion.equipment import Equipment
from companion.messages import Heard, NotNow
from companion.procedure.align_mount import Aligned
from companion.sky import Moment
from companion.talk.answers import YesNoAnswer
from companion.talk.jump_phrases import (
    AlignAnew,
    GoingThere,
    LeavesUndone,
    MustBeDoneAgain,
    NothingToProve,
    OnlyByHand,
    PackUpNow,
    Part,
    WeAreThere,
)
from companion.talk.question_answers import JumpAnswer
from companion.talk.saying import Ask, Say
from companion.talk.targets_phrases import SunStillUp

_STAGES: Mapping[Part, tuple[str, ...]] = {
    Part.TRIPOD: ("ground",),
    Part.FINDER: ("finder", "late-finder"),
    Part.POSE: ("starting-pose", "late-pose"),
    Part.POWER: ("power",),
    Part.SETTINGS: ("settings",),
    Part.STARS: ("reference-stars",),
    Part.PROOF: ("proof",),
    Part.TARGETS: ("targets",),
    Part.PACKING: ("good-night",),
}
_PART_OF = {stage: part for part, stages in _STAGES.items() for stage in stages}
_STARS_ARE_FOUND_BY = ("starting-pose", "settings", "late-pose")


@dataclass(frozen=True)
class Jump:
    """What is done about a wish to go elsewhere."""

    stage: str | None
    """Where to; None where we stay."""
    said: tuple[Say, ...] = ()
    asked: Ask[YesNoAnswer] | PackUpNow | None = None
    """What must be agreed to before we go."""


def is_jump(heard: Heard | NotNow) -> bool:
    """Say whether something that is no answer now is a wish to go to another part."""
    return heard.command in set(JumpAnswer)


def is_gone_through(stage: str, equipment: Equipment) -> bool:
    """Say whether a stage has anything to ask with this mount, so far as that is known: finder and pose have two places."""
    mount = equipment.mount
    match stage:
        case "tonight":
            # Only by day, which nobody waits for.
            return False
        case "finder":
            return mount.turns_by_hand is not False
        case "late-finder":
            return mount.turns_by_hand is False
        case "starting-pose":
            return mount.pose_time in (None, "before-power")
        case "late-pose":
            return mount.pose_time in ("after-settings", "by-itself")
    return True


def wanted(heard: NotNow, progress: Progress, equipment: Equipment, moment: Moment) -> Jump | None:
    """Return what is done about a wish to go elsewhere; None where this evening has no such part."""
    part = Part.PACKING if heard.command == JumpAnswer.PACK_UP else Part(heard.slots["part"])
    stage = next((name for name in _STAGES[part] if progress.has(name) and is_gone_through(name, equipment)), None)
    if stage is None:
        return None
    if stage == progress.current.name:
        return Jump(stage) if heard.command == JumpAnswer.START_FROM else Jump(None, (WeAreThere(),))
    if part is Part.PACKING:
        return Jump(stage, asked=PackUpNow())
    if part is Part.TARGETS and sky.sun_state(moment).is_up:
        return Jump(None, (SunStillUp(),))
    return _back(part, stage, progress) if progress.is_before(stage) else _onwards(part, stage, progress, equipment)


def _back(part: Part, stage: str, progress: Progress) -> Jump:
    """Go to an earlier part: ask where others would be lost."""
    lost = _parts(name for name in progress.lost_by(stage) if name != "proof")
    if lost:
        return Jump(stage, asked=MustBeDoneAgain(part, lost))
    if part is Part.STARS and progress.is_done(stage):
        return Jump(stage, asked=AlignAnew())
    waits = progress.current.name not in undone_by(stage)
    return Jump(stage, (GoingThere(part, _PART_OF.get(progress.current.name) if waits else None),))


def _onwards(part: Part, stage: str, progress: Progress, equipment: Equipment) -> Jump:
    """Go to a later part: ask where something would be missed that it rests on."""
    left_out = [name for name in progress.passed_over_to(stage) if is_gone_through(name, equipment)]
    if part is Part.PROOF and not _is_aligned(left_out, progress):
        return Jump(None, (NothingToProve(),))
    if part is Part.TARGETS and "reference-stars" in left_out:
        return Jump(stage, asked=OnlyByHand())
    if part is Part.STARS and (missed := _parts(name for name in left_out if name in _STARS_ARE_FOUND_BY)):
        return Jump(stage, asked=LeavesUndone(part, missed))
    return Jump(stage, (GoingThere(part, None),))


def _is_aligned(left_out: list[str], progress: Progress) -> bool:
    aligned = [result for result in progress.results if isinstance(result, Aligned)]
    return "reference-stars" not in left_out and bool(aligned) and aligned[-1].outcome == "success"


def _parts(stages: Iterable[str]) -> tuple[Part, ...]:
    return tuple(dict.fromkeys(_PART_OF[name] for name in stages))
