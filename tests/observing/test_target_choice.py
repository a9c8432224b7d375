"""What is offered to look at, and when it is best and sets."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.observing import best_time, sets_at, targets
from companion.sky import MOON, SUN, Moment, Site, find, moon_state, night_around, separation_deg, sight
from companion.sky.visibility import air_mass, faintest_star_mag, moonlight_mag

VIENNA = Site(48.2082, 16.3738, 200.0)
EVENING = Moment(VIENNA, datetime(2026, 11, 5, 18, 10, tzinfo=UTC))
NOON = Moment(VIENNA, datetime(2026, 6, 21, 11, tzinfo=UTC))
ANYWHERE = st.builds(
    Moment,
    st.builds(Site, st.floats(-90.0, 90.0), st.floats(-180.0, 180.0)),
    st.datetimes(datetime(2024, 1, 1), datetime(2032, 1, 1)).map(lambda time: time.replace(tzinfo=UTC)),
)


@settings(max_examples=25, deadline=None)
@given(ANYWHERE)
def test_what_always_holds(moment: Moment) -> None:
    """Anywhere, any time: up by 10 degrees, clear of a risen Sun, scores 0..1 that never rise, best time not past, set within a day."""
    ranked = targets(moment, count=4)
    sun = sight(SUN, moment)
    scores = [target.score for target in ranked]
    assert scores == sorted(scores, reverse=True)
    for target in ranked:
        assert 0.0 < target.score <= 1.0
        assert target.sight.altitude_deg >= 10.0
        assert target.best_time >= moment.time
        assert target.sets_at is None or moment.time < target.sets_at <= moment.time + timedelta(days=1, seconds=1)
        assert target.sight.body.kind != "sun"
        if sun.altitude_deg > -0.8333:
            assert separation_deg(target.sight, sun) >= 20.0


def test_a_dark_evening_offers_the_sights_of_the_season() -> None:
    """On a moonless November evening Saturn and the Andromeda Galaxy are among the first eight (common practice, no published source)."""
    names = [target.sight.body.name for target in targets(EVENING, count=8)]
    assert "Saturn" in names
    assert "Andromeda Galaxy" in names
    assert len(set(names)) == len(names)


def test_daylight_offers_only_what_shows() -> None:
    """At noon nothing but the Moon and the brightest planets is offered, each with the reason that the sky is light."""
    for target in targets(NOON):
        assert target.sight.body.kind in ("moon", "planet")
        assert "twilight" in target.reasons


def test_moonlight_costs_faint_things_their_place() -> None:
    """Under a high Moon nearly full a galaxy scores lower than on the moonless night it is compared with, and says why."""
    dark = {target.sight.body.name: target for target in targets(EVENING, count=60)}
    bright = {target.sight.body.name: target for target in targets(Moment(VIENNA, datetime(2026, 11, 22, 20, tzinfo=UTC)), count=60)}
    assert sight(MOON, Moment(VIENNA, datetime(2026, 11, 22, 20, tzinfo=UTC))).altitude_deg > 30.0
    assert bright["Andromeda Galaxy"].score < dark["Andromeda Galaxy"].score
    assert "moonlight" in bright["Andromeda Galaxy"].reasons
    assert "moonlight" not in dark["Andromeda Galaxy"].reasons


def test_hidden_things_are_not_offered() -> None:
    """What trees hide is left out."""
    free = targets(EVENING, hidden=lambda seen: seen.azimuth_deg < 180.0)
    assert free
    assert all(target.sight.azimuth_deg >= 180.0 for target in free)


@pytest.mark.parametrize("name", ["Saturn", "M 31", "M 13", "Moon", "Uranus"])
def test_best_time_is_the_highest_of_the_dark_hours_left(name: str) -> None:
    """At no ten-minute step of the dark hours still to come does a body stand higher than at its best time."""
    body = find(name)
    best = best_time(body, EVENING)
    night = night_around(EVENING)
    assert night.civil_dawn is not None
    assert night.astronomical_dawn is not None
    end = night.civil_dawn if name in ("Saturn", "Moon", "Uranus") else night.astronomical_dawn
    assert EVENING.time <= best <= end + timedelta(seconds=1)
    highest = sight(body, Moment(VIENNA, best), refraction=False).altitude_deg
    time = EVENING.time
    while time < end:
        assert sight(body, Moment(VIENNA, time), refraction=False).altitude_deg <= highest + 1e-3
        time += timedelta(minutes=10)


def test_best_time_waits_for_darkness() -> None:
    """By day the best time lies in the coming night."""
    night = night_around(NOON)
    assert night.astronomical_dusk is not None
    assert night.astronomical_dawn is not None
    assert night.astronomical_dusk <= best_time(find("M 13"), NOON) <= night.astronomical_dawn


def test_best_time_without_night_is_now() -> None:
    """Under the midnight Sun there are no dark hours, so the best time is now."""
    moment = Moment(Site(69.65, 18.96), datetime(2026, 6, 21, 20, tzinfo=UTC))
    assert best_time(find("M 13"), moment) == moment.time


def test_setting() -> None:
    """When a star sets it stands 34' below the airless horizon; Polaris doesn't set here; the Moon's setting is the night's."""
    vega_sets = sets_at(find("Altair"), EVENING)
    assert vega_sets is not None
    assert sight(find("Altair"), Moment(VIENNA, vega_sets), refraction=False).altitude_deg == pytest.approx(-34.0 / 60.0, abs=1e-4)
    assert sets_at(find("Polaris"), EVENING) is None
    assert sets_at(MOON, EVENING) == moon_state(EVENING).set


def test_a_body_below_the_horizon_sets_after_it_has_risen() -> None:
    """Sirius, still down in the evening, sets after rising, within the day."""
    setting = sets_at(find("Sirius"), EVENING)
    assert setting is not None
    assert sight(find("Sirius"), Moment(VIENNA, setting - timedelta(hours=2))).altitude_deg > 5.0


@pytest.mark.parametrize(("altitude_deg", "published"), [(90.0, 1.0), (30.0, 1.995), (10.0, 5.60), (0.0, 38.75)])
def test_air_mass(altitude_deg: float, published: float) -> None:
    """The air mass is 1, 2, 5.6 and 38.75 at 90, 30, 10 and 0 degrees (Pickering 2002, his table; values from memory)."""
    assert air_mass(altitude_deg) == pytest.approx(published, rel=0.01)


@given(st.floats(-90.0, 90.0), st.floats(-90.0, 90.0))
def test_darker_with_the_sun_lower(one: float, other: float) -> None:
    """The lower the Sun, the fainter the stars that show."""
    low, high = sorted((one, other))
    assert faintest_star_mag(low) >= faintest_star_mag(high)


@given(st.floats(-90.0, 90.0), st.floats(0.0, 1.0), st.floats(0.0, 180.0))
def test_moonlight_is_no_light_when_the_moon_is_down(altitude_deg: float, fraction: float, apart_deg: float) -> None:
    """The Moon takes nothing when it is down or new, and never less nearer to it."""
    loss = moonlight_mag(altitude_deg, fraction, apart_deg)
    assert loss >= 0.0
    if altitude_deg <= 0.0 or fraction == 0.0:
        assert loss == 0.0
    assert moonlight_mag(altitude_deg, fraction, apart_deg / 2.0) >= loss
