"""What is said of a star the mount names, of bright things without names, of the pair chosen, and of a fist."""

from __future__ import annotations

import math
from datetime import UTC, datetime, timedelta
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.alignment import alignment_bodies, bright_things, expected_error_deg, fist_from, fist_pair, judge_star, reference_stars
from companion.alignment.star_verdict import CLOSE_DEG
from companion.errors import BadRequest
from companion.sky import MOON, SUN, Body, Moment, Sight, Site, find, named_stars, separation_deg, sight, sights, visible_now
from companion.sky.attitude import direction, rotation_between
from companion.sky.attitude import separation_deg as apart_deg
from tests.mount.altaz_mount import leaning

VIENNA = Site(48.2082, 16.3738, 200.0)
SYDNEY = Site(-33.8688, 151.2093, 58.0)
EVENING = Moment(VIENNA, datetime(2026, 11, 5, 18, 10, tzinfo=UTC))
NIGHTS = [
    Moment(site, datetime(2026, month, 15, hour, tzinfo=UTC))
    for site, hour in ((VIENNA, 21), (SYDNEY, 12), (Site(64.1, -21.9), 0), (Site(-0.2, -78.5), 4), (Site(25.0, 55.0), 18))
    for month in (1, 2, 3, 4, 9, 10, 11, 12)
]
ANYWHERE = st.builds(
    Moment,
    st.builds(Site, st.floats(-90.0, 90.0), st.floats(-180.0, 180.0)),
    st.datetimes(datetime(2024, 1, 1), datetime(2032, 1, 1)).map(lambda time: time.replace(tzinfo=UTC)),
)


def standing(azimuth_deg: float, altitude_deg: float) -> Sight:
    """Return something that stands there."""
    return Sight(Body("X", "star"), EVENING.time, altitude_deg, azimuth_deg, 1.0, "Ori")


# --- the pair chosen -------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("moment", NIGHTS)
def test_heights_out_of_reach_only_at_need(moment: Moment) -> None:
    """The first two stand 20-70 degrees high wherever the sky has a visible bright pair there 60-120 degrees apart (common practice)."""
    easy = [s for s in sights(named_stars(2.2), moment) if 20.0 <= s.altitude_deg <= 70.0 and visible_now(s, moment)]
    assert any(60.0 <= separation_deg(*pair) <= 120.0 for pair in combinations(easy, 2))
    assert all(20.0 <= star.sight.altitude_deg <= 70.0 for star in reference_stars(moment, count=2))


@pytest.mark.parametrize("moment", NIGHTS[::3])
def test_pair_points_nearly_as_well_as_any(moment: Moment) -> None:
    """By geometry alone no pair of the stars in reach would point better by more than a fifth than the pair chosen."""
    chosen = [star.sight for star in reference_stars(moment, count=2)]
    reach = [s for s in sights(named_stars(2.2), moment) if 20.0 <= s.altitude_deg <= 70.0]
    best = min(expected_error_deg(pair, 0.2) for pair in combinations(reach, 2))
    assert expected_error_deg(chosen, 0.2) <= best * 1.2


@pytest.mark.parametrize("moment", NIGHTS[::4])
def test_third_star_helps(moment: Moment) -> None:
    """A third star makes the pointing better than the first two do."""
    stars = [star.sight for star in reference_stars(moment, count=3)]
    assert expected_error_deg(stars, 0.2) < expected_error_deg(stars[:2], 0.2)


def test_sets_soon_by_sinking_and_by_hiding() -> None:
    """A star is called setting when half an hour later it stands below 15 degrees or behind something, and otherwise not."""
    for moment in NIGHTS[::4]:
        later = Moment(moment.site, moment.time + timedelta(minutes=30))
        for star in reference_stars(moment, count=30):
            assert ("sets-soon" in star.reasons) == (sight(star.sight.body, later).altitude_deg < 15.0)
    vega = sight(find("Vega"), EVENING)
    assert 250.0 < vega.azimuth_deg < 300.0

    def just_right_of_it(seen: Sight) -> bool:
        return vega.azimuth_deg + 2.0 < seen.azimuth_deg < 340.0

    ranked = {star.sight.body.name: star.reasons for star in reference_stars(EVENING, count=30, hidden=just_right_of_it)}
    assert "sets-soon" in ranked["Vega"]
    assert "sets-soon" not in {star.sight.body.name: star.reasons for star in reference_stars(EVENING, count=30)}["Vega"]


# --- expected error --------------------------------------------------------------------------------------------------------------------


def random_pairs(count: int) -> list[list[Sight]]:
    """Return pairs of stars spread evenly over the sky from 15 to 80 degrees high."""
    rng = np.random.default_rng(6)
    low, high = np.sin(np.radians([15.0, 80.0]))

    def anywhere() -> Sight:
        return standing(float(rng.uniform(0.0, 360.0)), math.degrees(math.asin(rng.uniform(low, high))))

    return [[anywhere(), anywhere()] for _ in range(count)]


@pytest.mark.parametrize(
    ("apart", "simulated_deg"), [((15, 30), 0.36), ((30, 60), 0.26), ((60, 90), 0.22), ((90, 120), 0.21), ((120, 180), 0.23)]
)
def test_expected_error_as_simulated(apart: tuple[int, int], simulated_deg: float) -> None:
    """The medians over pairs are those of an earlier simulation of the plain rotation at 0.2 degrees, by separation, to 10 per cent.

    That simulation had its own code and the real stars' places; its figures have two decimals.
    """
    errors = [expected_error_deg(pair, 0.2) for pair in random_pairs(1500) if apart[0] <= separation_deg(*pair) < apart[1]]
    assert len(errors) > 40
    assert float(np.median(errors)) == pytest.approx(simulated_deg, rel=0.1)


@pytest.mark.parametrize("stars", [[(10.0, 30.0), (100.0, 50.0)], [(0.0, 20.0), (25.0, 30.0)], [(0.0, 30.0), (120.0, 40.0), (240.0, 60.0)]])
def test_expected_error_by_trial(stars: list[tuple[float, float]]) -> None:
    """Rotations solved from stars centred with random errors miss random targets by that median, to 5 per cent."""
    rng = np.random.default_rng(7)
    sky = direction(*np.array(stars).T)
    trials, sigma_deg = 4000, 0.2
    errors = np.radians(rng.normal(0.0, sigma_deg, (trials, len(stars), 3)))
    mount = sky + errors - np.sum(errors * sky, axis=-1, keepdims=True) * sky
    rotations = rotation_between(np.broadcast_to(sky, mount.shape), mount / np.linalg.norm(mount, axis=-1, keepdims=True))
    altitudes = np.degrees(np.arcsin(rng.uniform(np.sin(np.radians(18.0)), np.sin(np.radians(78.0)), trials)))
    targets = direction(rng.uniform(0.0, 360.0, trials), altitudes)
    missed = apart_deg(np.einsum("nij,nj->ni", rotations, targets), targets)
    assert expected_error_deg([standing(*star) for star in stars], sigma_deg) == pytest.approx(float(np.median(missed)), rel=0.05)


@pytest.mark.parametrize("lean_deg", [0.5, 1.0, 3.0])
def test_expected_error_on_a_leaning_base(lean_deg: float) -> None:
    """A mount of the tests' own whose circles are shifted at the last star misses random targets by that median, to 10 per cent.

    The mount keeps its own sums (``tests.mount.altaz_mount.leaning``); errors of centring are small beside the lean here.
    """
    rng, misses = np.random.default_rng(8), []
    stars = [(10.0, 30.0), (100.0, 50.0)]
    for _ in range(4000):
        towards = float(rng.uniform(0.0, 360.0))
        azimuth, altitude = float(rng.uniform(0.0, 360.0)), math.degrees(math.asin(rng.uniform(*np.sin(np.radians([18.0, 78.0])))))
        read = leaning(*stars[-1], lean_deg, towards)
        to = azimuth + read[0] - stars[-1][0], altitude + read[1] - stars[-1][1]
        stops = leaning(*to, -lean_deg, towards)
        misses.append(float(apart_deg(direction(*stops), direction(azimuth, altitude))))
    assert expected_error_deg([standing(*star) for star in stars], 0.01, lean_deg) == pytest.approx(float(np.median(misses)), rel=0.1)


def test_expected_error_without_end() -> None:
    """One star, or two at one place, say nothing about the turn around them; an impossible error is refused."""
    assert expected_error_deg([standing(10.0, 30.0)], 0.2) == math.inf
    assert expected_error_deg([], 0.2) == math.inf
    assert expected_error_deg([standing(10.0, 30.0)] * 2, 0.2) == math.inf
    with pytest.raises(BadRequest, match="not possible"):
        expected_error_deg([standing(10.0, 30.0), standing(90.0, 30.0)], 0.0)


# --- a star that the mount names -------------------------------------------------------------------------------------------------------


def test_a_good_star() -> None:
    """Vega on an autumn evening is up, clear and to be used."""
    assert judge_star(find("Vega"), EVENING).usable


@pytest.mark.parametrize(
    ("name", "moment", "field"),
    [
        ("Acrux", EVENING, "too_low"),
        ("Arcturus", EVENING, "too_low"),
        ("Capella", Moment(VIENNA, datetime(2027, 1, 10, 21, tzinfo=UTC)), "too_high"),
        ("Altair", Moment(VIENNA, datetime(2026, 11, 5, 20, 35, tzinfo=UTC)), "sets_soon"),
        ("Regulus", Moment(VIENNA, datetime(2026, 8, 22, 10, tzinfo=UTC)), "near_sun"),
    ],
)
def test_what_speaks_against_a_star(name: str, moment: Moment, field: str) -> None:
    """What is down, low, overhead, setting or beside the Sun is said to be so and not to be used (places by our own sky)."""
    verdict = judge_star(find(name), moment)
    assert getattr(verdict, field)
    assert not verdict.usable


def test_a_star_that_is_down() -> None:
    """Acrux never rises over Vienna: not up, not visible, and not called hidden by the trees that stand in front of the Earth."""
    verdict = judge_star(find("Acrux"), EVENING, hidden=lambda _: True)
    assert not verdict.is_up
    assert not verdict.visible
    assert not verdict.is_hidden


def test_partners_and_trees() -> None:
    """Castor beside Pollux, centred already, is too close; behind a tree it is no use."""
    spring = Moment(VIENNA, datetime(2027, 3, 25, 19, tzinfo=UTC))
    beside = judge_star(find("Castor"), spring, partners=[find("Regulus"), find("Pollux")])
    assert beside.close_to_partner is not None
    assert beside.close_to_partner.body.name == "Pollux"
    assert not beside.usable
    behind = judge_star(find("Castor"), spring, hidden=lambda seen: seen.azimuth_deg < 360.0)
    assert behind.is_hidden
    assert not behind.usable


def test_not_yet_visible() -> None:
    """By day a star is not visible, so not to be used, though it is up."""
    verdict = judge_star(find("Vega"), Moment(VIENNA, datetime(2026, 11, 5, 13, tzinfo=UTC)))
    assert verdict.is_up
    assert not verdict.visible
    assert not verdict.usable


def test_what_we_choose_we_would_not_refuse() -> None:
    """The two stars offered first at night pass the judgement made of stars that the mount names."""
    for moment in NIGHTS[::2]:
        first, second = (star.sight.body for star in reference_stars(moment, count=2))
        assert judge_star(first, moment).usable
        assert judge_star(second, moment, partners=[first]).usable


# --- bright things without names -------------------------------------------------------------------------------------------------------


def test_planets_are_bright_things() -> None:
    """Jupiter, high in the sky near its opposition (2026-01-10, by almanacs), is among the bright things; the Moon only if asked."""
    january = Moment(VIENNA, datetime(2026, 1, 28, 20, tzinfo=UTC))
    names = [thing.sight.body.name for thing in bright_things(january, count=12)]
    assert "Jupiter" in names
    assert "Moon" not in names
    assert sight(MOON, january).altitude_deg > 40.0
    assert "Moon" in [thing.sight.body.name for thing in bright_things(january, count=12, with_moon=True)]
    assert "Jupiter" not in [thing.sight.body.name for thing in bright_things(january, count=12, avoiding=["Jupiter"])]


@pytest.mark.parametrize("moment", NIGHTS)
def test_three_bright_things(moment: Moment) -> None:
    """Three come, bright, visible, and none close enough to another to be refused as too close."""
    things = [thing.sight for thing in bright_things(moment)]
    assert len(things) == 3
    assert all(visible_now(thing, moment) and (thing.magnitude or 0.0) <= 2.2 for thing in things)
    assert all(separation_deg(*pair) >= CLOSE_DEG for pair in combinations(things, 2))


@settings(max_examples=25, deadline=None)
@given(ANYWHERE)
def test_bodies_to_align_on(moment: Moment) -> None:
    """Whatever is offered is the Moon or a planet, up, visible and clear of a risen Sun; those at an easy height first."""
    bodies = alignment_bodies(moment)
    sun = sight(SUN, moment)
    for seen in bodies:
        assert seen.body.kind in ("moon", "planet")
        assert 15.0 <= seen.altitude_deg <= 75.0
        assert visible_now(seen, moment)
        if sun.altitude_deg > -0.8333:
            assert separation_deg(seen, sun) >= 20.0
    easy = [20.0 <= seen.altitude_deg <= 70.0 for seen in bodies]
    assert easy == sorted(easy, reverse=True)
    assert alignment_bodies(moment, hidden=lambda _: True) == []


def test_the_moon_by_day() -> None:
    """The Moon, up in the afternoon nine days old, can be aligned on by day; planets can't."""
    afternoon = Moment(VIENNA, datetime(2026, 11, 18, 14, tzinfo=UTC))
    assert [seen.body.name for seen in alignment_bodies(afternoon)] == ["Moon"]


# --- the fist --------------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("moment", NIGHTS)
def test_a_pair_for_the_fist(moment: Moment) -> None:
    """At night there is a pair 15-35 degrees apart, both bright, named and visible, the brighter first."""
    pair = fist_pair(moment)
    assert pair is not None
    one, other, apart = pair
    assert 15.0 <= apart <= 35.0
    assert apart == separation_deg(one, other)
    assert (one.magnitude or 0.0) <= (other.magnitude or 0.0) <= 2.2
    assert all(visible_now(seen, moment) and not seen.body.name.startswith("HIP") for seen in (one, other))


def test_no_pair() -> None:
    """By day, or with everything hidden, there is none."""
    assert fist_pair(Moment(VIENNA, datetime(2026, 6, 21, 11, tzinfo=UTC))) is None
    assert fist_pair(EVENING, hidden=lambda _: True) is None


@pytest.mark.parametrize(
    ("apart_deg", "fists", "fist_deg"),
    [
        (25.7, 2.5, 10.28),
        (18.6, 3.0, 6.2),
        (26.0, 2.0, 13.0),
        (18.6, 3.5, None),
        (30.0, 2.0, None),
        (20.0, 0.0, None),
        (20.0, math.nan, None),
    ],
)
def test_a_fist(apart_deg: float, fists: float, fist_deg: float | None) -> None:
    """A fist covers the distance over the count, where that is 6 to 13 degrees (division by hand)."""
    assert fist_from(apart_deg, fists) == (None if fist_deg is None else pytest.approx(fist_deg))
