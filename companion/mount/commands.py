"""What a mount may be told, each command an effect with an id of its own: it is written down before it is sent, and sent once.

Pure: the values, their plain form for a journal, and the rule that decides whether an effect is still to be sent.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields
from datetime import datetime
from typing import Any, Literal, TypeAlias

from companion.errors import BadRequest
from companion.mount.values import Capability, Direction, Equatorial, Horizontal, Identity

LONGEST_NUDGE_S = 3.0
"""A nudge is over by then even where nobody says stop. Judgement."""


@dataclass(frozen=True)
class SetTime:
    """Give it the time."""

    time: datetime
    """Aware."""


@dataclass(frozen=True)
class SetPlace:
    """Give it the place."""

    latitude_deg: float
    longitude_deg: float
    """East positive, -180..180."""
    elevation_m: float = 0.0


@dataclass(frozen=True)
class Sync:
    """Tell it where it really points. It forgets by that how far off it was: read before."""

    direction: Direction


@dataclass(frozen=True)
class Slew:
    """Send it somewhere."""

    direction: Direction


@dataclass(frozen=True)
class Nudge:
    """Turn one axis for a moment.

    Which way a positive rate turns is for the mount to say: ASCOM leaves it undefined on purpose
    (https://ascom-standards.org/newdocs/moveaxis-faq.html). Read before and after.
    """

    axis: Literal["primary", "secondary"]
    """``primary`` is azimuth or right ascension, ``secondary`` altitude or declination."""
    rate_deg_s: float
    """Degrees a second, signed; the mount's nearest rate is taken."""
    seconds: float
    """0 to ``LONGEST_NUDGE_S``."""


@dataclass(frozen=True)
class Track:
    """Let it follow the sky, or not."""

    on: bool


@dataclass(frozen=True)
class Park:
    """Park it, or let it go."""

    parked: bool


Command: TypeAlias = SetTime | SetPlace | Sync | Slew | Nudge | Track | Park
_KINDS: Mapping[Capability, type[Command]] = {
    "set_time": SetTime,
    "set_place": SetPlace,
    "sync": Sync,
    "slew": Slew,
    "nudge": Nudge,
    "track": Track,
    "park": Park,
}
_NAMES = {kind: name for name, kind in _KINDS.items()}


@dataclass(frozen=True)
class Effect:
    """A command with an id: the same command said twice is two effects, one effect read twice is one."""

    id: str
    command: Command


@dataclass(frozen=True)
class EffectLog:
    """Which effects have been written down, so that replay, repetition, going back or a resume never sends one again."""

    ids: frozenset[str] = field(default_factory=frozenset)

    def is_new(self, effect: Effect) -> bool:
        """Say whether the effect is still to be written down and sent."""
        return effect.id not in self.ids

    def with_effect(self, effect: Effect) -> EffectLog:
        """Return the log with the effect in it.

        It is written down first and sent after: one that a crash kept from being sent stays unsent. The other order could move the
        mount twice.
        """
        return EffectLog(self.ids | {effect.id})


def moves(command: Command) -> bool:
    """Say whether a command may turn the tube. Letting it go from park does not; switching the tracking does, slowly."""
    return isinstance(command, Slew | Nudge | Track) or (isinstance(command, Park) and command.parked)


def needed(command: Command) -> Capability:
    """Return what a mount must be able to do for a command."""
    if isinstance(command, Slew) and isinstance(command.direction, Horizontal):
        return "slew_altaz"
    return _NAMES[type(command)]


def objection(command: Command, identity: Identity) -> str | None:
    """Return why a command makes no sense for this mount, None where it does: checked before anything is sent."""
    if needed(command) not in identity.can:
        return f"the mount can't {needed(command)}"
    if isinstance(command, Sync | Slew):
        return _direction_objection(command, identity)
    if isinstance(command, SetTime) and command.time.utcoffset() is None:
        return "the time has no offset"
    if isinstance(command, SetPlace) and not (abs(command.latitude_deg) <= 90 and abs(command.longitude_deg) <= 180):
        return "that is no place on the Earth"
    if isinstance(command, Nudge) and not (0 < command.seconds <= LONGEST_NUDGE_S and 0 < abs(command.rate_deg_s) < math.inf):
        return f"a nudge takes more than 0 and at most {LONGEST_NUDGE_S:g} seconds, at a rate that isn't 0"
    return None


def _direction_objection(command: Sync | Slew, identity: Identity) -> str | None:
    direction = command.direction
    kind: Literal["equatorial", "horizontal"] = "equatorial" if isinstance(direction, Equatorial) else "horizontal"
    if isinstance(command, Sync) and kind not in identity.syncs_on:
        return f"the mount takes no {kind} sync"
    if isinstance(direction, Equatorial):
        if direction.epoch != identity.epoch:
            return f"the mount's right ascension is {identity.epoch or 'of an epoch it does not tell'}, not {direction.epoch}"
        possible = 0 <= direction.ra_deg < 360 and abs(direction.dec_deg) <= 90
    else:
        possible = abs(direction.altitude_deg) <= 90 and 0 <= direction.azimuth_deg < 360
    return None if possible else "that is no direction"


def effect_document(effect: Effect) -> dict[str, Any]:
    """Return an effect as the plain values of a journal; ``effect_from`` reads them back."""
    values = {name: value.isoformat() if isinstance(value, datetime) else value for name, value in asdict(effect.command).items()}
    return {"id": effect.id, "command": _NAMES[type(effect.command)], **values}


def effect_from(document: Mapping[str, Any]) -> Effect:
    """Return the effect a journal holds. BadRequest where it means nothing."""
    try:
        kind = _KINDS[document["command"]]
        values = {name: document[name] for name in (known.name for known in fields(kind))}
        if "time" in values:
            values["time"] = datetime.fromisoformat(values["time"])
        if "direction" in values:
            direction = values["direction"]
            values["direction"] = Equatorial(**direction) if "ra_deg" in direction else Horizontal(**direction)
        return Effect(str(document["id"]), kind(**values))
    except (KeyError, TypeError, ValueError) as error:
        raise BadRequest(f"a mount command in the journal means nothing ({error}); begin a new evening") from error
