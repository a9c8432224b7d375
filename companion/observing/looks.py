"""Into which band falls what an eyepiece shows: the bands that any language has words for. And when a thing stands best."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from datetime import datetime, timedelta

from companion.observing.moon_features import at_the_terminator
from companion.observing.planets import planet_view, saturn_rings
from companion.observing.target_times import best_time, sets_at
from companion.sky import MOON, Body, Moment, sight

_FULL = 0.97
_EDGE_ON_DEG, _WIDE_OPEN_DEG = 3.0, 15.0
_CRESCENT, _HALF, _GIBBOUS = 0.4, 0.6, 0.9
_SETS_SOON, _LOW_DEG = timedelta(hours=1), 25.0
"""Near setting, and where the air takes much of the light: judgement."""
_SINKING_DEG = 2.0
"""Less than that isn't worth waiting for: judgement."""
_SIZES_ARCMIN = (1.0, 3.0, 6.0, 11.0, 22.0, 46.0)


class Rings(enum.Enum):
    """How Saturn's rings lie."""

    EDGE_ON = enum.auto()
    NARROW = enum.auto()
    WIDE_OPEN = enum.auto()


class Phase(enum.Enum):
    """What shape an inner planet shows."""

    CRESCENT = enum.auto()
    HALF = enum.auto()
    GIBBOUS = enum.auto()
    NEARLY_FULL = enum.auto()


class Shadowless(enum.Enum):
    """A Moon at whose edge of shadow nothing stands."""

    FULL = enum.auto()
    THIN = enum.auto()


class Size(enum.Enum):
    """How wide a thing is beside the Moon."""

    NEARLY_A_STAR = enum.auto()
    A_TWENTIETH = enum.auto()
    AN_EIGHTH = enum.auto()
    A_QUARTER = enum.auto()
    A_HALF = enum.auto()
    THE_MOON = enum.auto()
    LARGER = enum.auto()


class Chance(enum.Enum):
    """How long a thing can still be seen."""

    SETS_SOON = enum.auto()
    SINKS = enum.auto()
    BEST_NOW = enum.auto()
    BEST_LATER = enum.auto()


@dataclass(frozen=True)
class BestTime:
    """When a thing stands best in what is left of the night."""

    chance: Chance
    at: datetime
    """When it sets, stands best, or, in the two other cases, now."""


def rings(moment: Moment) -> Rings:
    """Return how Saturn's rings lie."""
    tilt_deg = abs(saturn_rings(moment).tilt_deg)
    return Rings.EDGE_ON if tilt_deg < _EDGE_ON_DEG else Rings.NARROW if tilt_deg < _WIDE_OPEN_DEG else Rings.WIDE_OPEN


def phase(planet: Body, moment: Moment) -> Phase:
    """Return the shape of an inner planet's lit part."""
    lit = planet_view(planet, moment).illuminated_fraction
    return Phase.CRESCENT if lit < _CRESCENT else Phase.HALF if lit < _HALF else Phase.GIBBOUS if lit < _GIBBOUS else Phase.NEARLY_FULL


def on_the_moon(moment: Moment) -> str | Shadowless:
    """Return the IAU name of what lies best at the edge of shadow, else what Moon it is where nothing does."""
    features = at_the_terminator(moment)
    if features:
        return features[0].feature.name
    return Shadowless.FULL if planet_view(MOON, moment).illuminated_fraction > _FULL else Shadowless.THIN


def size(size_arcmin: float) -> Size:
    """Return how wide something of that size looks beside the Moon."""
    return list(Size)[sum(size_arcmin > up_to for up_to in _SIZES_ARCMIN)]


def when_best(body: Body, moment: Moment) -> BestTime:
    """Return when a thing stands best in what is left of the night."""
    best = best_time(body, moment)
    then, now = (sight(body, at).altitude_deg for at in (Moment(moment.site, best), moment))
    if then >= now + _SINKING_DEG:
        return BestTime(Chance.BEST_LATER, best)
    setting = sets_at(body, moment)
    if setting is not None and setting - moment.time <= _SETS_SOON:
        return BestTime(Chance.SETS_SOON, setting)
    later = sight(body, Moment(moment.site, moment.time + _SETS_SOON)).altitude_deg
    sinks = now < _LOW_DEG and later < now - _SINKING_DEG
    return BestTime(Chance.SINKS if sinks else Chance.BEST_NOW, moment.time)
