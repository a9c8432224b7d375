"""What mends a mistake: the least that must be done again, and which of it to advise."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, get_args

from companion.diagnosis.belief import Belief, Suspect
from companion.diagnosis.causes import Cause

Cure = Literal[
    "bubble",
    "north",
    "tube_level",
    "time",
    "daylight_saving",
    "time_zone",
    "date",
    "latitude",
    "longitude",
    "star",
    "clamps",
    "none",
]
"""The least that can be done. What is at fault with another place altogether is its latitude and longitude."""
_ORDER: tuple[Cure, ...] = get_args(Cure)

START_ANEW: tuple[Cure, ...] = ("bubble", "north", "tube_level")
"""The start position."""
SETTINGS: frozenset[Cure] = frozenset({"time", "daylight_saving", "time_zone", "date", "latitude", "longitude"})
"""Of the hand control: our own wrong clock or place would make them look wrong, though it shows all that it should."""
_ONE_GO: tuple[tuple[Cure, ...], ...] = (
    START_ANEW,
    ("time", "daylight_saving", "time_zone", "date"),
    ("latitude", "longitude"),
)
"""Cures that are done in one go, the second for a minute more. The base is levelled before the tube is set, since that moves it."""
_ONE_GO_AGAIN: tuple[tuple[Cure, ...], ...] = (START_ANEW, (*_ONE_GO[1], *_ONE_GO[2]), ("star", "clamps"))
"""Where a cure was in vain: going through all of the hand control takes some minutes, a third start half an hour."""
_ONE_SCREEN: tuple[tuple[Cure, ...], ...] = (_ONE_GO[2],)
"""What is keyed in together: where one is found wrong the other is keyed, too, unless it was found right."""
_ALL_BUT = 0.05
"""What share of a go may be left out of the advice."""
_FOUND = 0.6
"""Where something of a go was found wrong, no more of it is advised if that has this share."""
ANOTHER_STAR = 0.75
"""Below this no cure is advised yet where one more star may tell: a wrong one costs more than going to a star."""

_CURES: Mapping[tuple[Cause, str], tuple[Cure, ...]] = MappingProxyType(
    {
        ("start_azimuth", ""): ("north",),
        ("magnetic_declination", ""): ("north",),
        ("reversed", ""): ("north",),
        ("start_altitude", ""): ("tube_level",),
        ("base_tilt", ""): ("bubble",),
        ("hour", "daylight_saving"): ("daylight_saving",),
        ("hour", "time_zone"): ("time_zone",),
        ("hour", ""): ("time",),
        ("date_day", ""): ("date",),
        ("date_month", ""): ("date",),
        ("latitude", ""): ("latitude",),
        ("longitude", ""): ("longitude",),
        ("site", ""): ("latitude", "longitude"),
        ("wrong_star", ""): ("star",),
        ("slipped", ""): ("clamps",),
        ("none", ""): ("none",),
    }
)


@dataclass(frozen=True)
class Advice:
    """What to do again."""

    cures: tuple[Cure, ...]
    """In the order they are done in."""
    probability: float
    """How likely that mends it."""
    against_an_answer: bool = False
    """Whether it is what somebody found right, for nothing else fits."""


def cures_of(suspect: Suspect) -> tuple[Cure, ...]:
    """Return the least that mends it."""
    return _CURES.get((suspect.cause, suspect.member)) or _CURES[suspect.cause, ""]


def one_go(cure: Cure, *, again: bool = False) -> tuple[Cure, ...]:
    """Return what is done in one go with a cure, itself included; ``again``: where another was in vain."""
    return next((go for go in (_ONE_GO_AGAIN if again else _ONE_GO) if cure in go), (cure,))


def advice(
    belief: Belief,
    *,
    excluded: Callable[[Suspect], bool],
    found_wrong: Collection[Cure] = (),
    found_right: Collection[Cure] = (),
    again: bool = False,
) -> Advice:
    """Return the go that most likely mends it, less what of it is hardly needed; what was found wrong is mended whatever else fits.

    ``again``: another was in vain, so no answer that found something wrong makes the rest of its go superfluous.
    """
    goes: dict[tuple[Cure, ...], dict[tuple[Cure, ...], float]] = {}
    for suspect, p in zip(belief.suspects, belief.probabilities, strict=True):
        cures = cures_of(suspect)
        if not excluded(suspect):
            inside = goes.setdefault(one_go(cures[0], again=again), {})
            inside[cures] = inside.get(cures, 0.0) + p
    best = max(goes.values(), key=lambda inside: sum(inside.values()), default={})
    likeliest = sorted(best, key=lambda cures: -best[cures])
    done = set(found_wrong) if best or found_wrong else set(START_ANEW)
    for screen in _ONE_SCREEN:
        if done.intersection(screen):
            done.update(cure for cure in screen if cure not in found_right)
    enough = _FOUND if not again and any(done.issuperset(cures) for cures in best) else 1.0 - _ALL_BUT
    while sum(p for cures, p in best.items() if done.issuperset(cures)) < enough * sum(best.values()):
        done.update(likeliest.pop(0))
    if len(done) > 1:
        done.discard("none")
    return Advice(tuple(sorted(done, key=_ORDER.index)), share_mended_by(belief, done))


def share_mended_by(belief: Belief, done: Collection[Cure]) -> float:
    """Return how likely doing all that mends it."""
    return sum(p for suspect, p in zip(belief.suspects, belief.probabilities, strict=True) if set(done).issuperset(cures_of(suspect)))


def causes_mended(belief: Belief, advised: Advice) -> tuple[Cause, ...]:
    """Return the causes that an advice mends, likeliest first."""
    shares: dict[Cause, float] = {}
    for suspect, p in zip(belief.suspects, belief.probabilities, strict=True):
        if set(advised.cures).issuperset(cures_of(suspect)):
            shares[suspect.cause] = shares.get(suspect.cause, 0.0) + p
    return tuple(sorted(shares, key=lambda cause: -shares[cause]))
