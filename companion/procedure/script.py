"""What every stage script is made of: its context, its type and its place in the evening."""

from __future__ import annotations

from collections.abc import Callable, Generator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, TypeAlias

from companion.equipment import NOTHING_KNOWN, Equipment
from companion.messages import Answer, Ask, Note, Say
from companion.sky import Moment, Sight, Site

Result: TypeAlias = Mapping[str, Any]
"""What a stage found out, as plain values that a journal can hold."""

Script: TypeAlias = Generator[Say | Ask | Note, Answer, Result]

Steps: TypeAlias = Generator[Say | Ask | Note, Answer, Answer]
"""A piece of a script that ends with the answer it could not deal with itself."""

SKIPPED: Result = {"skipped": True}
"""The result of a stage that was left out."""


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
    something_learned: bool = False
    """Whether place or equipment became known this evening that no profile had."""

    def hides(self, sight: Sight) -> bool:
        """Say whether trees, roofs or hills hide a sight."""
        return self.equipment.hides(sight.azimuth_deg, sight.altitude_deg)

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
    mount_may_move: bool = False
    """Whether the mount may be turning by itself, so that a shout to halt is meant for it."""
