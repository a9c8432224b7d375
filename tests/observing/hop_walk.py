"""Follows the way to a target as a person would: with an error of ten per cent in each step, and an eye that takes the brightest star.

``python -m tests.observing.hop_walk [WAYS [SEED]]`` prints how many of many walks end with the target in the finder.
"""

from __future__ import annotations

import math
import random
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

import numpy as np

from companion.observing import (
    DOT,
    SWEEP_FIELDS,
    Direction,
    Finder,
    Step,
    Way,
    in_field_parts,
    in_fingers,
    length_in_fingers,
    rated_showpieces,
    way_to,
)
from companion.observing.hop_measures import FINGERS_A_FIST, PARTS_A_FIELD, tangent_offset
from companion.sky import Body, Moment, Place, Site, ephemeris, find, finder_stars, sight, sun_state
from companion.sky.ephemeris import Floats
from companion.sky.positions import star

ERROR = 0.1
"""Of each part of each step, as the spread of a normal distribution."""
FIST_DEG = 10.0
LATITUDES_DEG = (64.0, 52.0, 40.0, 20.0, 0.0, -20.0, -35.0, -45.0)
LOWEST_DEG, DARK_DEG = 15.0, -12.0


@dataclass(frozen=True)
class Sky:
    """Where all stars of the finder stand at a moment."""

    altitude_deg: Floats
    azimuth_deg: Floats

    @classmethod
    def at(cls, moment: Moment, finder: Finder) -> Sky:
        """Return the sky of a moment, as far as the finder shows it."""
        ra_deg, dec_deg, vmag = finder_stars()
        shown = vmag <= finder.faintest_mag
        ra_deg, dec_deg = ra_deg[shown], dec_deg[shown]
        places = [Place(float(ra), float(dec)) for ra, dec in zip(ra_deg, dec_deg, strict=True)]
        altitude, azimuth, _ = ephemeris.apparent(moment.site, star(places), ephemeris.instant(moment.time)).altaz()
        return cls(altitude.degrees, azimuth.degrees)

    def brightest_near(self, at: Direction, radius_deg: float) -> Direction | None:
        """Return the brightest star the finder shows, None where it shows none; the catalogue is sorted by brightness."""
        one, other = np.radians(self.altitude_deg), math.radians(at.altitude_deg)
        turn = np.radians(self.azimuth_deg - at.azimuth_deg)
        cosine = np.sin(one) * math.sin(other) + np.cos(one) * math.cos(other) * np.cos(turn)
        shown = np.flatnonzero(cosine >= math.cos(math.radians(radius_deg)))
        return Direction(float(self.altitude_deg[shown[0]]), float(self.azimuth_deg[shown[0]])) if shown.size else None


def tasks(count: int, seed: int) -> Iterator[tuple[Body, Moment]]:
    """Yield showpieces that are up somewhere at some time; planets and the Moon need no way."""
    chance = random.Random(seed)
    showpieces = rated_showpieces()
    while count:
        site = Site(chance.choice(LATITUDES_DEG), chance.uniform(-180.0, 180.0))
        moment = Moment(site, datetime(2027, 1, 1, tzinfo=UTC) + timedelta(hours=chance.uniform(0.0, 8766.0)))
        body = chance.choice(showpieces).body
        if LOWEST_DEG < sight(body, moment).altitude_deg < 85.0 and sun_state(moment).altitude_deg < DARK_DEG:
            count -= 1
            yield body, moment


def direction_of(place: Place, moment: Moment) -> Direction:
    """Return where a place among the stars stands."""
    seen = sight(Body("there", "star", place=place), moment, refraction=False)
    return Direction(seen.altitude_deg, seen.azimuth_deg)


def walk(way: Way, moment: Moment, sky: Sky, field_deg: float, chance: random.Random) -> bool:
    """Follow a way; return whether the target ends up in the finder."""
    if not way.steps:
        return True  # the target is the star to begin at
    at = direction_of(way.steps[0].start, moment)
    for number, step in enumerate(way.steps):
        goal = direction_of(step.end, moment)
        at = _moved(step, moment, at, field_deg, chance)
        if number == len(way.steps) - 1:
            return at.apart_deg(goal) <= field_deg / 2.0
        brightest = sky.brightest_near(at, field_deg * (SWEEP_FIELDS if step.by == "eye" else 0.5))
        if brightest is None:
            return False
        at = brightest
    return False


def _moved(step: Step, moment: Moment, at: Direction, field_deg: float, chance: random.Random) -> Direction:
    """Return where one ends from where one is, told the step as the sentence tells it."""
    told_from, told_to = direction_of(step.start, moment), direction_of(step.end, moment)
    wrong = [1.0 + chance.gauss(0.0, ERROR) for _ in range(2)]
    if step.by == "finder":
        told, unit_deg = in_field_parts(told_from, told_to, field_deg), field_deg / PARTS_A_FIELD
        return _by_mount(at, told.right * unit_deg * wrong[0], told.up * unit_deg * wrong[1])
    unit_deg = FIST_DEG / FINGERS_A_FIST
    if step.towards is not None:
        mark = find(step.towards).place
        assert mark is not None
        right, up = tangent_offset(at, direction_of(mark, moment))
        bearing = math.atan2(right, up) + chance.gauss(0.0, ERROR)
        length_deg = length_in_fingers(told_from, told_to, FIST_DEG) * unit_deg * wrong[0]
        return _straight(at, length_deg * math.sin(bearing), length_deg * math.cos(bearing))
    told = in_fingers(told_from, told_to, FIST_DEG)
    right_deg, up_deg = told.right * unit_deg * wrong[0], told.up * unit_deg * wrong[1]
    # People take "up, then to the left" either way.
    return _straight(at, right_deg, up_deg) if chance.random() < 0.5 else _by_mount(at, right_deg, up_deg)


def _by_mount(at: Direction, right_deg: float, up_deg: float) -> Direction:
    """Return where one ends who goes up, then level to the side."""
    altitude_deg = at.altitude_deg + up_deg
    return Direction(altitude_deg, at.azimuth_deg + right_deg / max(0.02, math.cos(math.radians(altitude_deg))))


def _straight(at: Direction, right_deg: float, up_deg: float) -> Direction:
    """Return where one ends who goes along a great circle."""
    length, bearing = math.radians(math.hypot(right_deg, up_deg)), math.atan2(right_deg, up_deg)
    height = math.radians(at.altitude_deg)
    end = math.asin(math.sin(height) * math.cos(length) + math.cos(height) * math.sin(length) * math.cos(bearing))
    turn = math.atan2(math.sin(bearing) * math.sin(length) * math.cos(height), math.cos(length) - math.sin(height) * math.sin(end))
    return Direction(math.degrees(end), at.azimuth_deg + math.degrees(turn))


@dataclass(frozen=True)
class Walked:
    """How many walks went how."""

    tasks: int
    """Targets asked for."""
    ways: int
    """To how many there was a way."""
    walks: int
    arrived: int
    """With the target in the finder."""
    steps: int
    """Of all ways together."""


def walked(count: int, seed: int, walks_each: int = 20, finder: Finder | None = None) -> Walked:
    """Walk to many targets many times."""
    finder = finder or Finder()
    ways = walks = arrived = steps = 0
    for number, (body, moment) in enumerate(tasks(count, seed)):
        way = way_to(body, moment, finder)
        if way is None:
            continue
        ways, steps = ways + 1, steps + len(way.steps)
        sky, chance = Sky.at(moment, finder), random.Random(f"{seed} {number}")
        for _ in range(walks_each):
            walks += 1
            arrived += walk(way, moment, sky, finder.field_deg, chance)
    return Walked(count, ways, walks, arrived, steps)


if __name__ == "__main__":
    count, seed = (int(text) for text in (*sys.argv[1:], *("200", "1")[len(sys.argv) - 1 :]))
    for finder in (Finder(), DOT, Finder(field_deg=3.0), Finder(field_deg=8.0)):
        found = walked(count, seed, finder=finder)
        print(f"{finder}, {found}: {found.arrived / found.walks:.4f} arrive; {found.steps / found.ways:.2f} steps a way")
