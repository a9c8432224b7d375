"""What every stage script is made of: its context, its type and its place in the evening."""

from __future__ import annotations

from collections.abc import Callable, Generator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, TypeAlias

from companion.events import Answer, Ask, Note, Say
from companion.sky import Moment, Site

Result: TypeAlias = Mapping[str, Any]
"""What a stage found out, as plain values that a journal can hold."""

Script: TypeAlias = Generator[Say | Ask | Note, Answer, Result]


@dataclass(frozen=True)
class Context:
    """All that a script may know when it begins."""

    site: Site
    started: datetime
    """When the stage began; aware."""
    results: Mapping[str, Result]
    """What the finished stages found out, by stage name."""

    def moment(self, time: datetime) -> Moment:
        """Return the site at a time, for the sky's functions."""
        return Moment(self.site, time)


@dataclass(frozen=True)
class Stage:
    """A script with its name."""

    name: str
    script: Callable[[Context], Script]
