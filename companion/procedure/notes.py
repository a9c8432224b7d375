"""What a script notes without saying anything: decisions, and what the observer tells of our clock, our place and their equipment."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, TypeVar

from companion import places
from companion.diagnosis import About, Cause
from companion.documents.equipment_tables import with_learned
from companion.equipment import Equipment
from companion.observing.observation import Observation
from companion.procedure.script import Question
from companion.sky import Moment, Site
from companion.talk.saying import Note, Wanted

T = TypeVar("T")


@dataclass(frozen=True)
class OurClock(Note):
    """From now on our clock is to be read so many seconds later (negative: earlier) than until now."""

    add_seconds: float


@dataclass(frozen=True)
class OurPlace(Note):
    """We are elsewhere; zone and all else follow from there."""

    latitude_deg: float
    longitude_deg: float
    name: str | None = None


@dataclass(frozen=True)
class Learned(Note):
    """These keys of a profile's tables are now known."""

    tables: Mapping[str, Any]

    @classmethod
    def one(cls, table: str, key: str, value: Any) -> Learned:
        """Return the note that one key is now known."""
        return cls({table: {key: value}})


@dataclass(frozen=True)
class Keep(Note):
    """The observer wants place and equipment kept for the next evening."""


@dataclass(frozen=True)
class Observed(Note):
    """Something was seen, and is to be written down."""

    observation: Observation


@dataclass(frozen=True)
class ReferenceStar(Note):
    """The mount goes to this star."""

    star: str


@dataclass(frozen=True)
class Proof(Note):
    """The alignment is proven on this star."""

    star: str


@dataclass(frozen=True)
class MissTold(Note):
    """Where a star lay when the mount stopped."""

    star: str
    time: datetime
    right_deg: float | None
    """None where it was not told so: the star could not be seen, or lay a turn of the body away."""
    up_deg: float | None
    synced: bool
    """Whether the mount had taken in a star before."""
    turn_deg: float | None = None
    """By how much the observer had to turn to face it, to the right; then nothing was said of ``right_deg``."""
    turn_sigma_deg: float = 0.0
    sigma_deg: float | None = None
    """How exact it is, where it was measured; None where it was told by eye."""

    @property
    def is_unseen(self) -> bool:
        """Whether the star could not be seen at all."""
        return self.right_deg is None and self.turn_deg is None

    @property
    def is_large(self) -> bool:
        """Whether it is more than a sloppy start explains: beyond half a fist."""
        return self.right_deg is None or self.up_deg is None or max(abs(self.right_deg), abs(self.up_deg)) > 5.0


@dataclass(frozen=True)
class StarRead(Note):
    """What the mount read when a star was centred, before it was told so; what earlier syncs shifted is undone."""

    star: str
    time: datetime
    azimuth_deg: float
    altitude_deg: float


@dataclass(frozen=True)
class WrongReading(Note):
    """The hand control shows something else than it should."""

    reading: About


@dataclass(frozen=True)
class LikelyCause(Note):
    """What explains the misses best, and how likely what is to be done about it mends it."""

    cause: Cause
    probability: float


@dataclass(frozen=True)
class ItsClockIsWrong(Note):
    """The hand control's clock is so many minutes ahead of ours."""

    minutes: int


def corrected(moment: Moment, decisions: Iterable[Wanted]) -> Moment:
    """Return the moment as it is after all such notes among the decisions, in order."""
    site, time = moment.site, moment.time
    for decision in decisions:
        if isinstance(decision, OurClock):
            time += timedelta(seconds=decision.add_seconds)
        elif isinstance(decision, OurPlace):
            zone = places.zone_at(decision.latitude_deg, decision.longitude_deg)
            site = Site(decision.latitude_deg, decision.longitude_deg, site.elevation_m, zone, decision.name)
    return Moment(site, time)


def learned(equipment: Equipment, decisions: Iterable[Wanted]) -> Equipment:
    """Return the equipment with all that was learned in such notes among the decisions, the last word of each counting."""
    for decision in decisions:
        if isinstance(decision, Learned):
            equipment = with_learned(equipment, decision.tables)
    return equipment


def learned_by(question: Question[T], table: str, key: str) -> Question[T]:
    """Return what is answered, noted under that key of a profile; None, and nothing noted, where the question is skipped."""
    told = yield from question
    if told is not None:
        yield Learned.one(table, key, told)
    return told
