"""What is worth looking at now, in order: what it gives, how well it shows, and whether it waits."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Sequence, Set
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cached_property

import numpy as np

from companion.equipment import Eyepiece, Instrument, Limit
from companion.observing.candidates import candidates
from companion.observing.outfit import USUAL_SKY_MAG_ARCSEC2, Outfit, outfit_of
from companion.observing.showing import BRIGHT_MAG_ARCSEC2, DARK_MAG_ARCSEC2, Shower
from companion.observing.showpieces import Showpiece
from companion.observing.sky_brightness import SiteSky, lamps, sky_brightness
from companion.observing.surface_brightness import Floats
from companion.observing.target_reasons import LOWEST_DEG, TargetReason, reasons
from companion.observing.target_times import best_time, sets_at
from companion.sky.catalogue import SUN
from companion.sky.positions import separation_deg, sight, sights
from companion.sky.types import Body, Kind, Moment, Sight
from companion.sky.visibility import SUN_BERTH_DEG, SUN_UNSAFE_ABOVE_DEG, nothing_hidden

# Judgement, all of them, tuned on the evenings of tests/observing/must_sees.py. What a rating is worth:
_RATING_WORTH = {3: 0.75, 2: 0.47, 1: 0.27}
_FAME = 1.33  # times as much gives what is famous
# What stars give beside the glows of a dark sky, and what they give in a bright one; by its brightness overhead.
_STAR_WORTH: dict[Kind, float] = {"double star": 0.7, "carbon star": 0.55, "variable star": 0.4, "star cloud": 0.7}
_STAR_WORTH_BRIGHT: dict[Kind, float] = {"double star": 1.0, "carbon star": 0.75, "variable star": 0.5}
_HEIGHT_DEG, _HEIGHT_WORTH = (10.0, 20.0, 30.0, 45.0, 78.0, 84.0, 90.0), (0.3, 0.65, 0.9, 1.0, 1.0, 0.6, 0.3)
_SUFFERS: dict[Kind, float] = {"moon": 0.4, "planet": 0.7}  # as a power of that
_STAY_H = (0.5, 1.0, 2.0, 3.0)  # the hours ahead in which a thing may be better; nobody stays for ever
_SOON = 1  # which of them is soon
_PATIENCE = 0.6  # how strongly what is better later waits, as a power of its worth now over then
_URGENCY = 0.4  # how much what is soon gone gains
_VARIETY = 0.85  # each of a family takes this from those that come after it
_SAME_VIEW_DEG = 0.7
_FAMILIES: dict[Kind, str] = {"star cloud": "open cluster", "planetary nebula": "nebula", "variable star": "carbon star"}
_TOO_HIGH_DEG, _TOO_LOW_DEG = 50.0, 20.0  # for who can't get at the eyepiece
_EASY_MAG = 1.5  # the margin that faint stars' haters want


@dataclass(frozen=True)
class RankedTarget:
    """Something worth looking at now, and why."""

    sight: Sight
    showpiece: Showpiece
    score: float
    """0..1, falling along the list."""
    margin_mag: float | None
    """By how many magnitudes it is above the eye's limit with the eyepiece named, of a pair the fainter star; None where its brightness
    isn't known."""
    eyepiece: Eyepiece
    """The one of the outfit's that shows it best."""
    moment: Moment
    """When and where it was ranked."""
    sky: SiteSky
    """How dark it is there."""

    # Each searches through hours of the sky, and a night asks only what comes next: so they wait until they are asked for.

    @cached_property
    def best_time(self) -> datetime:
        """When it stands highest in what is left of this night's dark hours, UTC; now where there is no darkness left."""
        return best_time(self.sight.body, self.moment)

    @cached_property
    def sets_at(self) -> datetime | None:
        """When it next sets, UTC; None when not within 24 hours."""
        return sets_at(self.sight.body, self.moment)

    @cached_property
    def reasons(self) -> tuple[TargetReason, ...]:
        """What speaks for and against it."""
        margin_mag = math.nan if self.margin_mag is None else self.margin_mag
        return reasons(self.sight, margin_mag, self.moment, self.sky, best=self.best_time, setting=self.sets_at)

    @property
    def rating(self) -> int:
        """What it gives where it shows well, 1..3."""
        return self.showpiece.rating

    @property
    def catalogue(self) -> str | None:
        """Its catalogue number such as ``M 42``; None for stars, the Sun's family and the observer's own."""
        return catalogue_number(self.showpiece.body)


def catalogue_number(body: Body) -> str | None:
    """Return a deep-sky object's number such as ``NGC 5139``; None for stars, the Sun's family and the observer's own."""
    return body.designation if body.kind not in _STARS else None


_STARS = ("star", "double star", "carbon star", "variable star")


def targets(
    moment: Moment,
    count: int = 10,
    hidden: Callable[[Sight], bool] = nothing_hidden,
    *,
    outfit: Outfit | None = None,
    sky: SiteSky | None = None,
    hard: Set[Limit] = frozenset(),
    unless: Collection[str] = (),
    kinds: Collection[Kind] | None = None,
    own: Sequence[Body] = (),
) -> list[RankedTarget]:
    """Return what to look at now, best first: above 10 degrees, clear of the Sun, to be seen with this outfit under this sky.

    ``hidden`` says whether trees and roofs hide a sight. ``outfit``: telescope, eyepieces and eye (``outfit_of`` makes it of a profile's
    instrument); None for the usual guess. ``sky``: the site's darkness (``site_sky_of``). ``hard``: what the observer can't do.
    ``unless``: names, as in ``sight.body.name``, that are not wanted: seen or refused. ``kinds``: only these. ``own``: the observer's own
    objects (``own_objects``). The same question has the same answer; it takes a few tenths of a second.

        targets(moment, 1, context.hides, outfit=outfit_of(equipment.instrument), sky=site_sky_of(equipment.observer),
                hard=equipment.observer.hard, unless=seen, kinds=("planet", "moon"))
    """
    outfit = outfit or outfit_of(Instrument())
    sky = sky or SiteSky(USUAL_SKY_MAG_ARCSEC2)
    unwanted = frozenset(name.casefold() for name in unless)
    offered = [
        candidate
        for candidate in candidates(moment, own)
        if candidate.body.name.casefold() not in unwanted and (kinds is None or candidate.body.kind in kinds)
    ]
    offered = [candidate for candidate, seen in zip(offered, _stand(offered, moment), strict=True) if seen.altitude_deg >= LOWEST_DEG]
    if not offered:
        return []
    ahead = [Moment(moment.site, moment.time + timedelta(hours=hours)) for hours in (0.0, *_STAY_H)]
    standing = [_stand(offered, then) for then in ahead]
    shower = Shower(offered, outfit, moment)
    showings = [shower.showing(seen, lamps(then), sky) for seen, then in zip(standing, ahead, strict=True)]
    usable = np.array([_usable(seen, then, hidden, outfit, hard) for seen, then in zip(standing, ahead, strict=True)])
    worth = np.array([showing.worth for showing in showings]) * usable * _heights(standing)
    if "faint-stars" in hard:
        worth[:, showings[0].margin_mag < _EASY_MAG] = 0.0
    overhead = float(sky_brightness(sky, lamps(moment), 90.0, 0.0))
    given = np.array([_given(candidate, overhead) for candidate in offered])
    scores = given * _timely(worth)
    return [
        RankedTarget(
            sight=seen,
            showpiece=offered[index],
            score=score,
            margin_mag=None if math.isnan(margin) else round(margin, 2),
            eyepiece=outfit.eyepieces[int(showings[0].eyepiece[index])],
            moment=moment,
            sky=sky,
        )
        for index, score in _in_order(scores, given, offered, standing[0], count)
        for seen, margin in [(standing[0][index], float(showings[0].margin_mag[index]))]
    ]


def _given(candidate: Showpiece, overhead_mag_arcsec2: float) -> float:
    """Return what a candidate gives where it shows well, 0..1, under a sky so bright overhead."""
    kind = candidate.body.kind
    bounds = (BRIGHT_MAG_ARCSEC2, DARK_MAG_ARCSEC2)
    among = np.interp(overhead_mag_arcsec2, bounds, (_STAR_WORTH_BRIGHT.get(kind, 1.0), _STAR_WORTH.get(kind, 1.0)))
    return _RATING_WORTH[candidate.rating] * (_FAME if candidate.famous else 1.0) * float(among)


def _stand(offered: Sequence[Showpiece], moment: Moment) -> list[Sight]:
    """Return where the candidates stand at a moment."""
    return sights([candidate.body for candidate in offered], moment)


def _heights(standing: Sequence[Sequence[Sight]]) -> Floats:
    """Return what the heights are worth, shape (T, N); the Moon and the planets suffer less from being low."""
    altitudes = np.array([[seen.altitude_deg for seen in then] for then in standing])
    suffers = np.array([_SUFFERS.get(seen.body.kind, 1.0) for seen in standing[0]])
    return np.where(altitudes < LOWEST_DEG, 0.0, np.interp(altitudes, _HEIGHT_DEG, _HEIGHT_WORTH) ** suffers)


def _usable(standing: Sequence[Sight], moment: Moment, hidden: Callable[[Sight], bool], outfit: Outfit, hard: Set[Limit]) -> list[bool]:
    """Return which sights are clear of the Sun, of trees, and within this observer's reach."""
    sun = sight(SUN, moment, refraction=False)
    unsafe = sun.altitude_deg > SUN_UNSAFE_ABOVE_DEG
    lowest_deg, highest_deg = _reach_deg(outfit, hard)
    return [
        lowest_deg <= seen.altitude_deg <= highest_deg and not (unsafe and separation_deg(seen, sun) < SUN_BERTH_DEG) and not hidden(seen)
        for seen in standing
    ]


def _reach_deg(outfit: Outfit, hard: Set[Limit]) -> tuple[float, float]:
    """Return between which altitudes this observer gets at the eyepiece.

    With a diagonal one kneels to look high up; without one reaches up for what is high, and bends for what is low.
    """
    high = ("kneeling" in hard and outfit.has_diagonal is not False) or ("reaching" in hard and outfit.has_diagonal is not True)
    low = "kneeling" in hard and outfit.has_diagonal is False
    return _TOO_LOW_DEG if low else LOWEST_DEG, _TOO_HIGH_DEG if high else 90.0


def _timely(worth: Floats) -> Floats:
    """Return the worth now, shape (N,), of those at each time, shape (T, N): more for what is soon gone, less for what is better later."""
    now, later = worth[0], worth[1:]
    some = np.maximum(now, 1e-9)
    patience = np.minimum(1.0, some / np.maximum(some, later.max(axis=0))) ** _PATIENCE
    lost = 1.0 - np.minimum(1.0, later[_SOON] / some)
    return np.asarray(now * patience * (1.0 + _URGENCY * lost) / (1.0 + _URGENCY))


def _in_order(
    scores: Floats, given: Floats, offered: Sequence[Showpiece], standing: Sequence[Sight], count: int
) -> list[tuple[int, float]]:
    """Return which candidates are offered, with their scores: the best first, not all of one kind, and of one view what gives most."""
    left = np.round(scores, 4)
    chosen: list[tuple[int, float]] = []
    families = np.array([_FAMILIES.get(candidate.body.kind, candidate.body.kind) for candidate in offered])
    while len(chosen) < count and left.max() > 0.0:
        best = int(np.argmax(left))
        in_view = [
            index for index in range(len(left)) if left[index] > 0.0 and separation_deg(standing[index], standing[best]) <= _SAME_VIEW_DEG
        ]
        named = max(in_view, key=lambda index: (given[index], left[index]))
        chosen.append((named, round(float(left[best]), 4)))
        left[families == families[named]] *= _VARIETY
        left[in_view] = 0.0
    return chosen
