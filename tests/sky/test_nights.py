"""The night: against an independent search by astropy, at the edges of the polar day and night, and the Moon."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import astropy.units as u
import numpy as np
import pytest
from astropy.coordinates import AltAz, get_body, solar_system_ephemeris

from companion.sky import MOON, SUN, Moment, Night, Site, find, moon_state, night_around, sight, sun_state
from tests.sky import astropy_reference as reference

PROMISED_S = 2.0
LEVELS_DEG = {"sun": -0.8333, "civil": -6.0, "nautical": -12.0, "astronomical": -18.0}
DUSKS = ("sunset", "civil_dusk", "nautical_dusk", "astronomical_dusk")
DAWNS = ("sunrise", "civil_dawn", "nautical_dawn", "astronomical_dawn")

VIENNA = Site(48.2082, 16.3738, 200.0)
TROMSO = Site(69.65, 18.96, 10.0)
SYDNEY = Site(-33.8688, 151.2093, 58.0)
USHUAIA = Site(-54.8, -68.3, 20.0)
QUITO = Site(-0.18, -78.47, 2850.0)


def astropy_night(moment: Moment) -> dict[str, datetime | None]:
    """Find the same night by astropy alone: the culmination by hour angle, the crossings by sampling and linear interpolation."""

    def hour_angle(seconds: float) -> float:
        return float(reference.sun_hour_angle_deg(moment.site, reference.times(moment.time, seconds)))

    def culmination(guess_s: float) -> float:
        for _ in range(3):
            guess_s -= (hour_angle(guess_s) % 360.0 - 180.0) * 240.0
        return guess_s

    following = culmination((180.0 - hour_angle(0.0)) % 360.0 * 240.0)
    up = float(reference.altaz(SUN, moment.site, reference.times(moment.time, 0.0))[0]) > LEVELS_DEG["sun"]
    previous = culmination(following - 86_400.0)
    middle = previous if not up and -previous < following else following

    def crossing(level: float, seconds: np.ndarray, rising: bool) -> float | None:
        above = reference.altaz(SUN, moment.site, reference.times(moment.time, seconds))[0] - level
        hits = np.flatnonzero((above[:-1] <= 0) & (above[1:] > 0) if rising else (above[:-1] > 0) & (above[1:] <= 0))
        if not hits.size:
            return None
        i = hits[0] if rising else hits[-1]
        return float(seconds[i] - above[i] * (seconds[i + 1] - seconds[i]) / (above[i + 1] - above[i]))

    def event(level: float, rising: bool) -> datetime | None:
        coarse = middle + np.linspace(0.0, 43_200.0, 145) - (0.0 if rising else 43_200.0)
        near = crossing(level, coarse, rising)
        if near is None:
            return None
        fine = crossing(level, near + np.linspace(-150.0, 150.0, 61), rising)
        return None if fine is None else moment.time + timedelta(seconds=fine)

    found: dict[str, datetime | None] = {"culmination": moment.time + timedelta(seconds=middle)}
    for dusk, dawn, level in zip(DUSKS, DAWNS, LEVELS_DEG.values(), strict=True):
        found[dusk], found[dawn] = event(level, rising=False), event(level, rising=True)
    return found


@pytest.mark.parametrize(
    ("site", "time"),
    [
        (VIENNA, datetime(2025, 11, 5, 18, 10, tzinfo=UTC)),
        (VIENNA, datetime(2025, 6, 21, 12, 0, tzinfo=UTC)),
        (VIENNA, datetime(2026, 3, 1, 3, 30, tzinfo=UTC)),
        (SYDNEY, datetime(2026, 12, 22, 11, 0, tzinfo=UTC)),
        (USHUAIA, datetime(2025, 6, 21, 15, 0, tzinfo=UTC)),
        (QUITO, datetime(2026, 9, 23, 5, 30, tzinfo=UTC)),
        (TROMSO, datetime(2025, 12, 21, 11, 0, tzinfo=UTC)),
        (TROMSO, datetime(2026, 2, 1, 20, 0, tzinfo=UTC)),
        (Site(59.9, 10.75), datetime(2025, 6, 21, 20, 0, tzinfo=UTC)),
    ],
)
def test_agrees_with_astropy(site: Site, time: datetime) -> None:
    """Sunset, twilights, dawn and the culmination agree to 2 seconds with an independent search by astropy (kernel shared)."""
    ours = night_around(Moment(site, time))
    for event, expected in astropy_night(Moment(site, time)).items():
        found = getattr(ours, event)
        if expected is None:
            assert found is None, event
        else:
            assert found is not None, event
            assert abs((found - expected).total_seconds()) < PROMISED_S, event


def events(night: Night) -> list[datetime]:
    """Return the night's events in the order of the evening and the morning."""
    order = [*DUSKS, "culmination", *reversed(DAWNS)]
    return [time for time in (getattr(night, name) for name in order) if time is not None]


@pytest.mark.parametrize("hour", range(0, 24, 3))
def test_the_night_is_the_one_that_comes_or_is(hour: int) -> None:
    """By day the coming night, after sunset this one until the Sun is up again; its events in order, and the culmination in the middle."""
    moment = Moment(VIENNA, datetime(2026, 10, 10, hour, tzinfo=UTC))
    night = night_around(moment)
    assert events(night) == sorted(events(night))
    assert night.sunset is not None
    assert night.sunrise is not None
    if sun_state(moment).is_up:
        assert moment.time < night.sunset
    else:
        assert night.sunset <= moment.time <= night.sunrise


def test_evening_without_darkness_takes_the_nearest_culmination() -> None:
    """In the polar night's noon twilight the nearest lower culmination counts: before the Sun's highest the last one, after it the next."""
    highest = night_around(Moment(TROMSO, datetime(2025, 12, 21, 12, tzinfo=UTC))).culmination - timedelta(hours=12)
    before = night_around(Moment(TROMSO, highest - timedelta(minutes=20))).culmination
    after = night_around(Moment(TROMSO, highest + timedelta(minutes=20))).culmination
    assert before < highest < after
    assert (after - before) == pytest.approx(timedelta(days=1), abs=timedelta(minutes=1))


def test_midnight_sun_has_no_events() -> None:
    """At 69.65 N at midsummer nothing of the night happens."""
    night = night_around(Moment(TROMSO, datetime(2026, 6, 21, 12, tzinfo=UTC)))
    assert events(night) == [night.culmination]
    assert night.lowest_sun_deg > -0.8333


def test_polar_night_has_twilight_but_no_sunset() -> None:
    """At 69.65 N at midwinter there is civil twilight at noon, so a dusk and a dawn, but neither sunset nor sunrise."""
    night = night_around(Moment(TROMSO, datetime(2025, 12, 21, 18, tzinfo=UTC)))
    assert night.sunset is None
    assert night.sunrise is None
    assert night.civil_dusk is not None
    assert night.civil_dawn is not None


@pytest.mark.parametrize(("dusk", "dawn", "level"), list(zip(DUSKS, DAWNS, LEVELS_DEG.values(), strict=True)))
def test_a_dip_of_minutes_is_not_missed(dusk: str, dawn: str, level: float) -> None:
    """Where the Sun dips below a level for a few minutes only, both crossings are found, one on each side of the lowest point.

    The latitude is sought so that the dip is shallow: its depth is 0.0005 degrees, its length follows from the curve's bend. A
    dip that ends 0.0005 degrees above the level has neither.
    """
    time = datetime(2026, 6, 21, 12, tzinfo=UTC)

    def grazing(depth_deg: float) -> Moment:
        """Return midsummer where the Sun's lowest point is that far below the level; a degree to the north it is a degree higher."""
        latitude_deg = 60.0
        for _ in range(3):
            latitude_deg -= night_around(Moment(Site(latitude_deg, 25.0), time)).lowest_sun_deg - (level - depth_deg)
        return Moment(Site(latitude_deg, 25.0), time)

    moment = grazing(0.0005)
    night = night_around(moment)
    falls, rises = getattr(night, dusk), getattr(night, dawn)
    assert night.lowest_sun_deg == pytest.approx(level - 0.0005, abs=2e-5)
    assert falls < night.culmination < rises
    assert timedelta(minutes=2) < rises - falls < timedelta(minutes=20)
    for crossing in (falls, rises):
        assert sight(SUN, Moment(moment.site, crossing), refraction=False).altitude_deg == pytest.approx(level, abs=1e-5)
    above = night_around(grazing(-0.0005))
    assert (getattr(above, dusk), getattr(above, dawn)) == (None, None)


@pytest.mark.parametrize("latitude_deg", [90.0, 89.9, -89.9, -90.0])
@pytest.mark.parametrize("month", [3, 6, 9, 12])
def test_poles(latitude_deg: float, month: int) -> None:
    """At and by the poles every season gives a night; each event found has its Sun at its height."""
    site = Site(latitude_deg, 0.0)
    night = night_around(Moment(site, datetime(2026, month, 20, 6, tzinfo=UTC)))
    for name, level in zip(DUSKS + DAWNS, [*LEVELS_DEG.values()] * 2, strict=True):
        time = getattr(night, name)
        if time is not None:
            assert sight(SUN, Moment(site, time), refraction=False).altitude_deg == pytest.approx(level, abs=1e-5)


def test_a_dusk_at_the_pole_and_a_moonset_near_it() -> None:
    """Where the sky turns level, what crosses does so by its own motion, on no side and at any hour: still found, at its height.

    skyfield's own search (``almanac.find_settings``, 1.55) looks for one crossing a turn of the sky and lacks both.
    """
    pole = Site(90.0, 0.0)
    dusk = night_around(Moment(pole, datetime(2026, 10, 8, 20, tzinfo=UTC))).civil_dusk
    assert dusk is not None
    assert sight(SUN, Moment(pole, dusk), refraction=False).altitude_deg == pytest.approx(-6.0, abs=1e-5)
    north = Site(87.4125, 0.0)
    moonset = moon_state(Moment(north, datetime(2004, 2, 28, 4, tzinfo=UTC))).set
    assert moonset is not None
    an_hour = timedelta(hours=1)
    before, at, after = (
        float(reference.altaz(MOON, north, reference.times(moonset + step, 0.0))[0]) for step in (-an_hour, 0 * an_hour, an_hour)
    )
    # the upper limb on the horizon: 34 minutes of refraction and a radius of 15 to 17
    assert at == pytest.approx(-34.0 / 60.0 - 16.0 / 60.0, abs=1.2 / 60.0)
    assert before > at > after


def test_the_one_sunrise_of_the_north_pole() -> None:
    """At the North Pole the Sun rises once, about 18 March by its upper limb with refraction, and no sunset goes before."""
    nights = [night_around(Moment(Site(90.0, 0.0), datetime(2026, 3, day, 3, tzinfo=UTC))) for day in range(15, 22)]
    assert all(night.sunset is None for night in nights)
    rises = {night.sunrise.date() for night in nights if night.sunrise}
    assert rises <= {datetime(2026, 3, 18, tzinfo=UTC).date(), datetime(2026, 3, 19, tzinfo=UTC).date()}


@pytest.mark.parametrize(
    ("hour", "darkness"),
    [(11, "day"), (15.7, "civil twilight"), (16.4, "nautical twilight"), (17, "astronomical twilight"), (20, "dark")],
)
def test_darkness(hour: float, darkness: str) -> None:
    """In Vienna on 5 November 2026 the Sun sets at 15:29:42 UT and the twilights end at 16:03, 16:40 and 17:16 (tested above)."""
    state = sun_state(Moment(VIENNA, datetime(2026, 11, 5, tzinfo=UTC) + timedelta(hours=hour)))
    assert state.darkness == darkness
    assert state.is_up == (darkness == "day")


PHASES = [
    # US Naval Observatory, Phases of the Moon 2025 (values from memory): to the minute.
    (datetime(2025, 3, 14, 6, 55, tzinfo=UTC), 180.0),
    (datetime(2025, 3, 29, 10, 58, tzinfo=UTC), 0.0),
    (datetime(2025, 9, 7, 18, 9, tzinfo=UTC), 180.0),
    (datetime(2025, 9, 21, 19, 54, tzinfo=UTC), 0.0),
]


@pytest.mark.parametrize(("time", "phase_deg"), PHASES)
def test_phases_of_the_moon(time: datetime, phase_deg: float) -> None:
    """At the published minute of new and full Moon the phase is 0 and 180 degrees, to half a minute's motion."""
    state = moon_state(Moment(VIENNA, time))
    assert (state.phase_deg - phase_deg + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=0.01)
    assert state.illuminated_fraction == pytest.approx(1.0 if phase_deg else 0.0, abs=0.005)


def test_illuminated_fraction_follows_the_phase() -> None:
    """The lit part is (1 - cos elongation)/2 to within a percent, growing while the phase is under 180 degrees."""
    for day in range(1, 29):
        state = moon_state(Moment(VIENNA, datetime(2026, 2, day, tzinfo=UTC)))
        assert state.illuminated_fraction == pytest.approx((1.0 - np.cos(np.radians(state.phase_deg))) / 2.0, abs=0.01)


@pytest.mark.parametrize("site", [VIENNA, SYDNEY, QUITO])
def test_moonrise_and_moonset_agree_with_astropy(site: Site) -> None:
    """At the next moonrise and moonset astropy has the Moon's upper limb 34' below the airless horizon, within 3 seconds' motion."""
    moment = Moment(site, datetime(2025, 11, 5, 18, 10, tzinfo=UTC))
    state = moon_state(moment)
    place = reference.location(site)
    for time in (state.rise, state.set):
        assert time is not None
        assert moment.time < time < moment.time + timedelta(hours=25)
        when = reference.times(time, 0.0)
        with solar_system_ephemeris.set(reference.KERNEL):
            moon = get_body("moon", when, place)
        seen = moon.transform_to(AltAz(obstime=when, location=place, pressure=0 * u.hPa))
        radius_deg = np.degrees(np.arcsin(1737.4 / seen.distance.to_value(u.km)))
        assert float(seen.alt.deg) == pytest.approx(-34.0 / 60.0 - radius_deg, abs=3 * 15.0 / 3600.0)


def test_moon_that_stays_up_or_down_rises_and_sets_in_the_same_month() -> None:
    """At the North Pole the Moon is up for about two weeks on end, yet its next rising and setting are found."""
    moment = Moment(Site(90.0, 0.0), datetime(2026, 6, 1, tzinfo=UTC))
    state = moon_state(moment)
    assert state.rise is not None
    assert state.set is not None
    apart = abs(state.rise - state.set)
    assert timedelta(days=11) < apart < timedelta(days=17)
    assert find("moon") is MOON
