"""What every stage script is made of: its context, its type and its place in the evening."""

from __future__ import annotations

from collections.abc import Callable, Generator, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import TypeAlias, TypeVar

from companion.equipment import NOTHING_KNOWN, Equipment
from companion.messages import Answer
from companion.sky import Body, Moment, Sight, Site
from companion.talk.guidance_phrases import PartLeft
from companion.talk.saying import A, Ask, Call, Reply, Say, Wanted

TOO_FAINT_MAG = 1.5
"""For who can't see faint stars: the twenty or so brightest remain."""
T = TypeVar("T")
R = TypeVar("R", bound="Result")

Steps: TypeAlias = Generator[Wanted, Answer, T]
"""A piece of a script that ends with a value."""

Question: TypeAlias = Steps[T | None]
"""A piece of a script that ends with what was answered, None where the question was skipped."""


@dataclass(frozen=True)
class Result:
    """What a stage found out: each stage has a class of its own, of plain values that a journal can hold."""


Script: TypeAlias = Steps[Result]


def ask(question: Ask[A]) -> Steps[Reply[A]]:
    """Ask, and return the answer as one of those the question can have."""
    answer = yield question
    return question.reply(answer)


def told_by(call: Call) -> Steps[Answer]:
    """Ask a device, or tell it to do something; return its answer."""
    answer = yield call
    return answer


@dataclass(frozen=True)
class Done(Result):
    """The result of a stage that has nothing to hand on."""


@dataclass(frozen=True)
class Skipped(Result):
    """The result of a stage that was left out."""

    skipped: bool = True


@dataclass(frozen=True)
class Context:
    """All that a script may know when it begins."""

    site: Site
    started: datetime
    """When the stage began; aware."""
    results: Mapping[str, Result]
    """What the finished stages found out, by stage name."""
    equipment: Equipment = NOTHING_KNOWN
    """What the observer has, so far as it is known."""
    site_is_known: bool = True
    """Whether anybody has told where we are; else ``site`` is only a stand-in."""
    own: tuple[Body, ...] = ()
    """The observer's own objects: scripts read no files."""
    linked: bool = False
    """Whether there is a mount on the line that may be asked."""
    last_evening: datetime | None = None
    """When the evening before this one was; None where none is known."""
    something_learned: bool = False
    """Whether place or equipment became known this evening that no profile had."""

    def found(self, kind: type[R]) -> R | None:
        """Return what a finished stage found out, by its class; None where that stage was left out or is still to come."""
        return next((result for result in self.results.values() if isinstance(result, kind)), None)

    def hides(self, sight: Sight) -> bool:
        """Say whether trees, roofs or hills hide a sight."""
        return self.equipment.hides(sight.azimuth_deg, sight.altitude_deg)

    def conceals(self, sight: Sight) -> bool:
        """Say whether a sight is hidden, or too faint for this person's eyes."""
        limited = "faint-stars" in self.equipment.observer.hard
        return self.hides(sight) or (limited and (sight.magnitude or 0.0) > TOO_FAINT_MAG)

    def at(self, site: Site) -> Context:
        """Return the same at another site."""
        return replace(self, site=site)

    def moment(self, time: datetime) -> Moment:
        """Return the site at a time, for the sky's functions."""
        return Moment(self.site, time)


@dataclass(frozen=True)
class Stage:
    """A script with its name."""

    name: str
    script: Callable[[Context], Script]
    result: type[Result] = Done
    """What the script returns."""
    mount_may_move: bool = False
    """Whether the mount may be turning by itself, so that a shout to halt is meant for it."""
    when_left: Result = Skipped()
    """What stands for its result where the observer leaves it out: a part left out isn't done."""
    said_when_left: Say = field(default_factory=PartLeft)
    """What is said then."""
