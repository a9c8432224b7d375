"""What scripts ask of a mount on the line, and what it tells them: plain values, so that a journal can hold both."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, TypeAlias

from companion.messages import Answer
from companion.procedure.script import Steps, told_by
from companion.talk.saying import Call, Outcome

Axis: TypeAlias = Literal["azimuth", "altitude"]


@dataclass(frozen=True)
class ReadMount(Call):
    """Ask where it points, what it does, and what time and place it believes in."""

    acts = False


@dataclass(frozen=True)
class GiveTime(Call):
    """Give it our time."""


@dataclass(frozen=True)
class GivePlace(Call):
    """Give it our place."""

    latitude_deg: float
    longitude_deg: float
    elevation_m: float


@dataclass(frozen=True)
class SyncOn(Call):
    """Tell it that it points at this thing."""

    name: str


@dataclass(frozen=True)
class TurnTo(Call):
    """Send it to this thing, if its way there is clear."""

    name: str
    uncertainty_deg: float
    """How far it may be wrong about where it points."""


@dataclass(frozen=True)
class NudgeBy(Call):
    """Move one axis by a small step."""

    axis: Axis
    step_deg: float
    """On the sky, to the right or up."""
    sign: int
    """1 where a positive rate is taken to turn it right or up, -1 where the other way."""
    uncertainty_deg: float
    """How far it may be wrong about where it points."""


@dataclass(frozen=True)
class MountTold:
    """What the mount said of itself. None for what it doesn't tell."""

    time: datetime
    """When it was read."""
    can: frozenset[str] = frozenset()
    altitude_deg: float | None = None
    """Airless."""
    azimuth_deg: float | None = None
    slewing: bool | None = None
    tracking: bool | None = None
    time_error_s: float | None = None
    """Its clock minus ours."""
    latitude_deg: float | None = None
    longitude_deg: float | None = None
    left_alone: bool = False
    """Whether the observer wants it only read."""

    @classmethod
    def of(cls, answer: Answer) -> MountTold | None:
        """Return what a reading said; None where there was none."""
        if answer.command != Outcome.DONE:
            return None
        slots = answer.slots

        def number(name: str) -> float | None:
            return float(slots[name]) if name in slots else None

        return cls(
            answer.time,
            frozenset(slots.get("can", "").split()),
            number("altitude_deg"),
            number("azimuth_deg"),
            slots["slewing"] == "yes" if "slewing" in slots else None,
            slots["tracking"] == "yes" if "tracking" in slots else None,
            number("time_error_s"),
            number("latitude_deg"),
            number("longitude_deg"),
            "left_alone" in slots,
        )


def read_mount() -> Steps[MountTold | None]:
    """Read the mount; None where it doesn't answer."""
    return MountTold.of((yield from told_by(ReadMount())))


def came_to_nothing(answer: Answer) -> str | None:
    """Return why a call came to nothing, None where it was done."""
    return None if answer.command == Outcome.DONE else answer.slots.get("why", "line")
