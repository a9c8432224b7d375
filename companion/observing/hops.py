"""The way to a target by hand: from a bright star by the eye in fists and fingers, then by finder fields from star to star.

Every star on the way is the brightest wherever the finder may show it, so that it needs no name. Directions are those of the moment:
up, down, left and right as one faces the sky. An alt-azimuth mount moves so, whichever way its finder turns the view.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from companion.equipment import Instrument
from companion.observing.hop_measures import Direction, by_both_readings_deg, tangent_offset
from companion.observing.surface_brightness import Floats
from companion.sky import Body, Moment, Place, Sight, bright_stars, ephemeris, finder_stars, sight, sights, sun_state
from companion.sky.positions import star
from companion.sky.visibility import nothing_hidden, shows

FAINTEST_START_MAG = 3.0
"""A star to start from is seen by the eye under a suburban sky; brighter ones are preferred. Judgement."""
SWEEP_FIELDS = 0.75
"""How far around the place a step by eye leads to the star is looked for: the finder's own half field, and a quarter swept. Judgement."""

_LOWEST_DEG, _HIGHEST_DEG = 8.0, 80.0  # lower one sees no stars, higher left and right say nothing
_SAME_DEG = 0.2  # what is no farther from a bright star is found with it
_REACH_DEG = 40.0  # how far from the target anything on the way may be
_BY_EYE_DEG = (4.0, 12.0)  # a step by eye: a hand's width at least, and what the arm still measures
_BY_EYE_FIELDS = 2.4  # and no longer than that its error, a tenth or so either way, stays within what is swept. Judgement.
_HOP_FIELDS, _LAST_HOP_FIELDS = 1.5, 1.8
_BRIGHTER_MAG = 0.3  # by so much a star is the brightest
_ALONE_FIELDS, _ALONE_BY_EYE_FIELDS = 0.8, 1.15  # and that as far around: what is looked at, and what one may be off
_TOWARDS_OFF = 0.06  # a star in the direction is named when no farther off the line than this share of the way
_TOWARDS_MAG = 2.2
_READINGS_DEG = 0.5  # by how much the two ways to take "up, then left" may differ
_LONGEST = 4  # hops from star to star


@dataclass(frozen=True)
class Finder:
    """What a finder shows. Five degrees, where nobody has told, as the smaller ones have: common practice, no published source."""

    field_deg: float = 5.0
    faintest_mag: float = 6.0


DOT = Finder(faintest_mag=4.5)
"""A lit mark magnifies nothing: what the eye sees around it. Judgement."""


def finder_of(instrument: Instrument) -> Finder:
    """Return what the finder of a profile shows."""
    finder = DOT if instrument.finder == "dot" else Finder()
    return finder if instrument.finder_field_deg is None else replace(finder, field_deg=instrument.finder_field_deg)


@dataclass(frozen=True)
class Step:
    """One step on the way, from what is centred to what is to be."""

    by: Literal["eye", "finder"]
    start: Place
    end: Place
    """A star the finder shows, of the last step the target."""
    towards: str | None = None
    """A bright star that shows the direction of a step by eye; None where it is told in up and down, left and right."""


@dataclass(frozen=True)
class Way:
    """The way to a target."""

    start: Body
    """A bright star, found by eye and centred in the finder."""
    steps: tuple[Step, ...]
    """None where the target is that star, or right beside it."""


@dataclass(frozen=True)
class _Chart:
    """What can be on the way: the stars that are the brightest in the finder, and the target."""

    altitude: Floats
    azimuth: Floats
    places: list[Place]
    ahead: Floats
    """Cost from each to the target, infinite where there is no way."""
    following: list[int]
    """Which comes next, -1 for the target."""
    by_eye: NDArray[np.bool_]
    """Which are the brightest so far around that a step by eye may lead there."""

    def direction(self, index: int) -> Direction:
        """Return where one stands."""
        return Direction(float(self.altitude[index]), float(self.azimuth[index]))


def way_to(target: Body, moment: Moment, finder: Finder | None = None, hidden: Callable[[Sight], bool] = nothing_hidden) -> Way | None:
    """Return the shortest way to a target; None where there is none, the target is low, or the sky still too light for stars.

    ``target`` has a place among the stars; the Moon and the planets are found by eye. ``hidden``: trees and roofs.
    """
    finder = finder or Finder()
    field_deg = finder.field_deg
    seen = sight(target, moment, refraction=False)
    if target.place is None or seen.altitude_deg < _LOWEST_DEG:
        return None
    there = Direction(seen.altitude_deg, seen.azimuth_deg)
    sun_deg = sun_state(moment).altitude_deg
    starts = [
        one
        for one in sights(bright_stars(FAINTEST_START_MAG), moment, refraction=False)
        if _LOWEST_DEG < one.altitude_deg < _HIGHEST_DEG
        and shows(one.magnitude, one.altitude_deg, sun_deg)
        and not one.body.name.startswith("HIP ")
        and not hidden(one)
    ]
    here = [one.body for one in starts if there.apart_deg(Direction(one.altitude_deg, one.azimuth_deg)) < _SAME_DEG]
    if here:
        return Way(here[0], ())
    chart = _chart(target.place, there, moment, finder)
    ways = [way for one in starts for way in _ways_from(one, starts, chart, (target.place, there), field_deg)]
    if not ways:
        return None
    _, start, first, index = min(ways, key=lambda way: (way[0], way[1].name))
    return Way(start, tuple(_steps(start, first, index, chart, target.place)))


def _chart(target: Place, there: Direction, moment: Moment, finder: Finder) -> _Chart:
    """Return the stars that may be on the way, with the shortest way on from each."""
    ra_deg, dec_deg, vmag = finder_stars()
    field_deg = finder.field_deg
    near = np.flatnonzero((_apart_deg(dec_deg, ra_deg, target.dec_deg, target.ra_deg) < _REACH_DEG) & (vmag <= finder.faintest_mag))
    ra_deg, dec_deg, vmag = ra_deg[near], dec_deg[near], vmag[near]
    between = _apart_deg(dec_deg[:, np.newaxis], ra_deg[:, np.newaxis], dec_deg, ra_deg)
    np.fill_diagonal(between, np.inf)
    alone, by_eye = (
        vmag <= np.where(between < fields * field_deg, vmag, np.inf).min(axis=1) - _BRIGHTER_MAG
        for fields in (_ALONE_FIELDS, _ALONE_BY_EYE_FIELDS)
    )
    kept = np.flatnonzero(alone)
    places = [Place(float(ra_deg[index]), float(dec_deg[index])) for index in kept]
    if not places:
        return _Chart(np.array([]), np.array([]), [], np.array([]), [], by_eye[kept])
    stands, turned, _ = ephemeris.apparent(moment.site, star([*places, places[0]]), ephemeris.instant(moment.time)).altaz()
    altitude, azimuth = stands.degrees[:-1], turned.degrees[:-1]
    up = altitude > _LOWEST_DEG
    last = _apart_deg(altitude, azimuth, there.altitude_deg, there.azimuth_deg) / field_deg
    ahead = np.where(up & (last <= _LAST_HOP_FIELDS), 1.0 + last, np.inf)
    following = np.full(len(places), -1)
    apart = _apart_deg(altitude[:, np.newaxis], azimuth[:, np.newaxis], altitude, azimuth) / field_deg
    hop = np.where((apart > 0.0) & (apart <= _HOP_FIELDS) & up[:, np.newaxis], 1.0 + 0.3 * apart, np.inf)
    for _ in range(_LONGEST - 1):
        through = hop + ahead
        best = np.argmin(through, axis=1)
        shorter = through[np.arange(len(places)), best] < ahead
        following = np.where(shorter, best, following)
        ahead = np.where(shorter, through[np.arange(len(places)), best], ahead)
    return _Chart(altitude, azimuth, places, ahead, following.tolist(), by_eye[kept])


def _ways_from(
    start: Sight, starts: list[Sight], chart: _Chart, target: tuple[Place, Direction], field_deg: float
) -> list[tuple[float, Body, Step, int]]:
    """Return ways from a bright star: their cost, the star, the first step, and the star of the chart it leads to, -1 for the target."""
    here = Direction(start.altitude_deg, start.azimuth_deg)
    first_cost = 0.25 * max(0.0, start.magnitude or 0.0)
    place = start.body.place
    if place is None:
        return []
    ways = []
    to_target = here.apart_deg(target[1]) / field_deg
    if to_target <= _LAST_HOP_FIELDS:
        ways.append((first_cost + 1.0 + to_target, start.body, Step("finder", place, target[0]), -1))
    apart_deg = _apart_deg(chart.altitude, chart.azimuth, here.altitude_deg, here.azimuth_deg)
    by_eye_deg = min(_BY_EYE_DEG[1], _BY_EYE_FIELDS * field_deg)
    for index in np.flatnonzero(np.isfinite(chart.ahead) & (apart_deg <= by_eye_deg) & (apart_deg > 0.1)).tolist():
        goal, length_deg = chart.direction(index), float(apart_deg[index])
        if length_deg <= _HOP_FIELDS * field_deg:
            cost = 1.0 + 0.3 * length_deg / field_deg + float(chart.ahead[index])
            ways.append((first_cost + cost, start.body, Step("finder", place, chart.places[index]), index))
        if length_deg >= _BY_EYE_DEG[0] and chart.by_eye[index]:
            towards = _towards(here, goal, length_deg, start, starts)
            if towards is None and by_both_readings_deg(here, goal) > _READINGS_DEG:
                continue
            cost = 1.2 + length_deg / 20.0 + float(chart.ahead[index])
            ways.append((first_cost + cost, start.body, Step("eye", place, chart.places[index], towards), index))
    return ways


def _towards(here: Direction, goal: Direction, length_deg: float, start: Sight, starts: list[Sight]) -> str | None:
    """Return the bright star in whose direction a goal lies, nearest to the line; None where there is none."""
    right, up = tangent_offset(here, goal)
    found = []
    for mark in starts:
        at = Direction(mark.altitude_deg, mark.azimuth_deg)
        mark_deg = here.apart_deg(at)
        if mark.body == start.body or (mark.magnitude or 0.0) > _TOWARDS_MAG or not length_deg * 1.2 < mark_deg < 60.0:
            continue
        mark_right, mark_up = tangent_offset(here, at)
        off = abs(right * mark_up - up * mark_right) / (mark_deg * length_deg)
        if off <= _TOWARDS_OFF and right * mark_right + up * mark_up > 0.0:
            found.append((off, mark.body.name))
    return min(found)[1] if found else None


def _steps(start: Body, first: Step, index: int, chart: _Chart, target: Place) -> list[Step]:
    """Return the steps of a way that begins with one and leads through a star of the chart."""
    if index < 0:
        return [first]
    steps, at = [first], index
    while chart.following[at] >= 0:
        steps.append(Step("finder", chart.places[at], chart.places[chart.following[at]]))
        at = chart.following[at]
    return [*steps, Step("finder", chart.places[at], target)]


def _apart_deg(one_up_deg: Floats, one_round_deg: Floats, up_deg: Floats | float, round_deg: Floats | float) -> Floats:
    """Return the angles between directions given by height and azimuth, or by declination and right ascension."""
    one, other = np.radians(one_up_deg), np.radians(up_deg)
    turn = np.radians(np.asarray(one_round_deg) - round_deg)
    half = np.sin((one - other) / 2.0) ** 2 + np.cos(one) * np.cos(other) * np.sin(turn / 2.0) ** 2
    return np.asarray(np.degrees(2.0 * np.arcsin(np.sqrt(np.minimum(1.0, half)))))
