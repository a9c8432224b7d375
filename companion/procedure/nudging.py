"""Moving a mount on the line by small steps: "a bit left", "more", "too far"; half as far at each turn back, and learnt which way."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import cast

from companion.procedure.mount_calls import Axis, MountTold, NudgeBy, came_to_nothing, read_mount
from companion.procedure.script import Steps, told_by
from companion.talk.answers import NudgeAnswer
from companion.talk.mount_phrases import NotTurned, NotTurning
from companion.talk.saying import Reply
from companion.talk.turning_phrases import SayWhichWay, UseTheArrows

FINDER_STEP_DEG, EYEPIECE_STEP_DEG = 1.0, 0.25
"""The first step: a fifth of a finder's field, a quarter of a low-power eyepiece's. Judgement."""
SMALLEST_STEP_DEG = 1.0 / 60.0
_CLEARLY = 0.2
"""Of what was wanted: less isn't told from the sky's own turning. Judgement."""
_WAYS: dict[str, tuple[Axis, int]] = {"left": ("azimuth", -1), "right": ("azimuth", 1), "up": ("altitude", 1), "down": ("altitude", -1)}


@dataclass(frozen=True)
class AxisSteps:
    """What is known of one axis."""

    sign: int = 1
    """Which way it is told to turn for right or up: standards leave that to the mount."""
    sense: int = 1
    """-1 where the observer's right or up is the other way round, as in a mirrored view."""
    last_deg: float = 0.0
    """The last step on the sky, to the right or up; nought before the first."""


@dataclass(frozen=True)
class Steering:
    """What the steps so far have taught."""

    azimuth: AxisSteps = AxisSteps()
    altitude: AxisSteps = AxisSteps()
    last: Axis | None = None
    """The axis that was moved last at this star."""
    began: MountTold | None = None
    """What was read before the first step at this star."""

    def at_another(self) -> Steering:
        """Return what is kept for another star: how the axes turn."""
        return Steering(replace(self.azimuth, last_deg=0.0), replace(self.altitude, last_deg=0.0))

    def axis(self, name: Axis) -> AxisSteps:
        """Return what is known of an axis."""
        return self.azimuth if name == "azimuth" else self.altitude

    def wanted(self, told: Reply[NudgeAnswer], first_deg: float) -> tuple[Axis, float, AxisSteps] | None:
        """Return which axis is to move by how many degrees on the sky, and what is known of it then; None where no way was said yet."""
        if told.command is NudgeAnswer.NUDGE:
            name, side = _WAYS[told.slots["way"]]
            axis = self.axis(name)
            towards = side * axis.sense
            back = axis.last_deg * towards < 0
            step_deg = towards * (max(abs(axis.last_deg) / (2 if back else 1), SMALLEST_STEP_DEG) if axis.last_deg else first_deg)
            return name, step_deg, replace(axis, last_deg=step_deg)
        if self.last is None:
            return None
        axis = self.axis(self.last)
        match told.command:
            case NudgeAnswer.MORE:
                return self.last, axis.last_deg, axis
            case NudgeAnswer.TOO_FAR:
                back_deg = -axis.last_deg / 2
                step_deg = back_deg if abs(back_deg) > SMALLEST_STEP_DEG else SMALLEST_STEP_DEG * (1 if back_deg > 0 else -1)
                return self.last, step_deg, replace(axis, last_deg=step_deg)
            case _:
                # Back to where it began, and as far again.
                return self.last, -2 * axis.last_deg, replace(axis, sense=-axis.sense, last_deg=-axis.last_deg)


def can_step(*, linked: bool) -> Steps[bool]:
    """Say whether the mount may be moved by small steps over the line."""
    return _steps((yield from read_mount()) if linked else None)


def _steps(read: MountTold | None) -> bool:
    """Say whether a mount takes a step: by its axes, over the ground, or among the stars, which it must follow for that."""
    return read is not None and (bool({"nudge", "slew_altaz"} & read.can) or ("slew" in read.can and read.tracking is True))


def nudged(told: Reply[NudgeAnswer], steering: Steering, *, linked: bool, first_deg: float, uncertainty_deg: float) -> Steps[Steering]:
    """Move it as was said, where it can be, and return what is known then; else say what to do instead."""
    read = (yield from read_mount()) if linked else None
    if not _steps(read) or read is None:
        yield UseTheArrows()
        return steering
    wanted = steering.wanted(told, first_deg)
    if wanted is None:
        yield SayWhichWay()
        return steering
    name, step_deg, axis = wanted
    for _ in range(2):
        answer = yield from told_by(NudgeBy(name, step_deg, axis.sign, uncertainty_deg))
        if (why := came_to_nothing(answer)) is not None:
            yield NotTurning(cast(NotTurned, why))
            return steering
        moved_deg = float(answer.slots["moved_deg"])
        if moved_deg * step_deg >= 0 or abs(moved_deg) < _CLEARLY * abs(step_deg):
            break
        # It turned the other way: that is learnt, and made good.
        axis, step_deg = replace(axis, sign=-axis.sign), step_deg - moved_deg
    begun = replace(steering, last=name, began=steering.began or read)
    return replace(begun, azimuth=axis) if name == "azimuth" else replace(begun, altitude=axis)
