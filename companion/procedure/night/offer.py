"""What to show next, of all that stands well now and was not shown yet: the one place where the night asks for the ranking."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from companion import observing, sky
from companion.equipment import Equipment
from companion.observing import RankedTarget
from companion.procedure.night.state import Night
from companion.sky import Body, Kind, Moment, Sight
from companion.sky.bands import CompassPoint
from companion.talk.night_phrases import Wish

_CLUSTERS: tuple[Kind, ...] = ("open cluster", "globular cluster")
_KINDS: Mapping[Wish, tuple[Kind, ...]] = {
    "planets": ("planet",),
    "doubles": ("double star",),
    "clusters": _CLUSTERS,
    "globulars": ("globular cluster",),
    "open-clusters": ("open cluster",),
    "planetaries": ("planetary nebula",),
    "red-stars": ("carbon star", "variable star"),
    "own-list": ("user",),
    "galaxies": ("galaxy",),
    "nebulae": ("nebula", "planetary nebula"),
}
"""The kinds of thing that answer a wish."""
_CHILDREN_FIRST: tuple[tuple[Kind, ...], ...] = (("moon", "planet"), ("double star", "open cluster"), ("carbon star", "globular cluster"))
"""What children see at once, the surest first. Common practice, no published source."""
_CHILDRENS_RATING = 2
"""A dot is no planet to a child. Judgement."""
_CHILDRENS_MAG = 2.0
"""A smaller margin above what the eye can see shows only who has learned to look. Judgement."""
_CLEARLY_MAG = 0.5
"""So much brighter, easier or harder is noticed. Judgement."""
_NEAR_DEG = 20.0
"""Near here: two fists. Judgement."""
_COMPARED = 4
"""So many of the best are weighed against what was shown last."""
_SIFTED = 16
"""So many are sifted for easier and harder ones."""
_AS_BEFORE = 0.8
"""What each thing of the same kind among the last few takes from its score. Judgement."""


@dataclass(frozen=True)
class Offer:
    """Something to show."""

    body: Body
    eyepiece_mm: float | None = None
    """The eyepiece that shows it best, None where the eyepieces aren't known."""


@lru_cache(maxsize=1024)  # going back asks for everything of the night again
def offers(moment: Moment, equipment: Equipment, night: Night, wish: Wish, count: int = 1) -> tuple[Offer, ...]:
    """Return what answers a wish, best first: up, clear of horizon, trees, clouds and Sun, and not shown before unless it is due again."""
    if wish == "for-children":
        return _for_children(moment, equipment, night, count)
    ranked = _ranked(moment, equipment, night, max(count, _COMPARED), kinds=_KINDS.get(wish), fits=_fits(wish, night, moment))
    if wish in ("easier", "harder"):
        ranked = _as_easy_as(wish, _ranked(moment, equipment, night, _SIFTED, kinds=_KINDS.get(wish)), margin_mag(moment, equipment, night))
    lately = [body_of(name, night).kind for name in night.shown[-_COMPARED:]]
    ranked.sort(key=lambda one: -one.score * _AS_BEFORE ** lately.count(one.sight.body.kind))
    return tuple(_offer(one, equipment) for one in ranked[:count])


def _for_children(moment: Moment, equipment: Equipment, night: Night, count: int) -> tuple[Offer, ...]:
    """Return what shows easily, the Moon and the planets first, then bright stars, then balls of them."""
    easy = [
        one
        for kinds in _CHILDREN_FIRST
        for one in _ranked(moment, equipment, night, _COMPARED, kinds=kinds)
        if one.rating >= _CHILDRENS_RATING and one.margin_mag is not None and one.margin_mag >= _CHILDRENS_MAG
    ]
    return tuple(_offer(one, equipment) for one in easy[:count])


@lru_cache(maxsize=64)
def offers_in(constellation: str, moment: Moment, equipment: Equipment, night: Night) -> tuple[Offer, ...]:
    """Return the best of a constellation that was not shown before, or nothing."""
    ranked = _ranked(moment, equipment, night, 1, fits=lambda sight: sight.constellation == constellation)
    return tuple(_offer(one, equipment) for one in ranked)


@lru_cache(maxsize=64)
def offers_towards(point: CompassPoint, moment: Moment, equipment: Equipment, night: Night) -> tuple[Offer, ...]:
    """Return the best on one side of the sky that was not shown before, or nothing."""
    ranked = _ranked(moment, equipment, night, 1, fits=lambda sight: replace(Night(), clear_side=point).hides(sight) is False)
    return tuple(_offer(one, equipment) for one in ranked)


@lru_cache(maxsize=256)
def offer_of(name: str, moment: Moment, equipment: Equipment, night: Night) -> Offer:
    """Return something by its name as an offer, whether or not it is worth a look now."""
    ranked = _only(name, moment, equipment, night)
    return _offer(ranked, equipment) if ranked else Offer(body_of(name, night))


def body_of(name: str, night: Night) -> Body:
    """Return what a name stands for, as we show it: of a star that is a fine pair, the pair."""
    body = night.find(name)
    showpiece = None if body in night.own else observing.showpiece_of(body)
    return body if showpiece is None else showpiece.body


def _ranked(
    moment: Moment,
    equipment: Equipment,
    night: Night,
    count: int,
    *,
    kinds: tuple[Kind, ...] | None = None,
    fits: Callable[[Sight], bool] = lambda _: True,
) -> list[RankedTarget]:
    """Return the best of what was not shown yet."""

    def hidden(sight: Sight) -> bool:
        return equipment.hides(sight.azimuth_deg, sight.altitude_deg) or night.hides(sight) or not fits(sight)

    return observing.targets(
        moment,
        count,
        hidden,
        outfit=observing.outfit_of(equipment.instrument),
        sky=night.site_sky or observing.site_sky_of(equipment.observer),
        hard=equipment.observer.hard,
        unless=night.passed_over(moment.time),
        kinds=kinds,
        own=night.own,
    )


def _only(name: str, moment: Moment, equipment: Equipment, night: Night) -> RankedTarget | None:
    """Return how one thing shows now; None where it isn't worth a look."""
    nothing_passed = Night(site_sky=night.site_sky, own=night.own)
    found = _ranked(moment, equipment, nothing_passed, 1, fits=lambda sight: sight.body.name == name)
    return found[0] if found else None


def margin_mag(moment: Moment, equipment: Equipment, night: Night) -> float | None:
    """Return by how much the target we are at is above what can be seen, in magnitudes; None where that isn't known."""
    ranked = None if night.now is None else _only(night.now, moment, equipment, night)
    return None if ranked is None else ranked.margin_mag


def _offer(ranked: RankedTarget, equipment: Equipment) -> Offer:
    known = bool(equipment.instrument.eyepieces)
    return Offer(ranked.sight.body, ranked.eyepiece.focal_length_mm if known else None)


def _fits(wish: Wish, night: Night, moment: Moment) -> Callable[[Sight], bool]:
    """Return what tells whether a sight answers a wish, seen from the target we are at."""
    if night.now is None or wish not in ("brighter", "near-here"):
        return lambda _: True
    here = sky.sight(night.find(night.now), moment)
    if wish == "near-here":
        return lambda sight: sky.separation_deg(sight, sky.sight(here.body, Moment(moment.site, sight.time))) <= _NEAR_DEG
    brightest = (99.0 if here.magnitude is None else here.magnitude) - _CLEARLY_MAG
    return lambda sight: sight.magnitude is not None and sight.magnitude <= brightest


def _as_easy_as(wish: Wish, ranked: list[RankedTarget], here_mag: float | None) -> list[RankedTarget]:
    """Return those that show so much more or less easily than the target we are at."""
    showing = [(one, one.margin_mag) for one in ranked if one.margin_mag is not None]
    match wish:
        case "easier":
            return [one for one, margin in showing if here_mag is None or margin >= here_mag + _CLEARLY_MAG]
        case _:
            return [one for one, margin in showing if here_mag is None or margin <= here_mag - _CLEARLY_MAG]
