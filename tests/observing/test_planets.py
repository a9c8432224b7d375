"""Phases, rings and Jupiter's moons: against printed examples and an independent program's figures, and as they must behave."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.observing import from_east_to_west, jupiter_moons, planet_view, saturn_rings
from companion.sky import PLANETS, Moment, Site, find

SITE = Site(48.2082, 16.3738, 200.0)
TD_MINUS_UTC_1992 = timedelta(seconds=59)  # Meeus gives dynamical time; delta T of 1992, as everywhere printed
MOMENTS = st.datetimes(datetime(2000, 1, 1), datetime(2050, 1, 1)).map(lambda time: Moment(SITE, time.replace(tzinfo=UTC)))


def at(*time: int) -> Moment:
    """Return the moment of a time in UTC; the site plays no part."""
    return Moment(SITE, datetime(*time, tzinfo=UTC))  # type: ignore[arg-type, misc]


def dynamical_1992(month: int, day: int) -> Moment:
    """Return the moment of 0h dynamical time of a day of 1992."""
    return Moment(SITE, datetime(1992, month, day, tzinfo=UTC) - TD_MINUS_UTC_1992)


def test_the_phase_of_venus() -> None:
    """1992 December 20.0 TD: 0.647 lit, at a phase angle of 72.96 degrees. Meeus 1998, example 41.a (by soniakeys/meeus's tests, MIT)."""
    view = planet_view(find("Venus"), dynamical_1992(12, 20))
    assert view.illuminated_fraction == pytest.approx(0.647, abs=0.0006)
    assert view.phase_angle_deg == pytest.approx(72.96, abs=0.02)
    assert view.diameter_arcsec == pytest.approx(2.0 * 8.34 / 0.910947, abs=0.1)  # 8.34" of radius at 1 au; that distance is the example's


def test_the_rings_of_saturn() -> None:
    """1992 December 16.0 TD: B = 16.442 and B' = 14.679 degrees. Meeus 1998, example 45.a (by the same tests); his pole is another's."""
    rings = saturn_rings(dynamical_1992(12, 16))
    assert rings.tilt_deg == pytest.approx(16.442, abs=0.01)
    assert rings.sun_tilt_deg == pytest.approx(14.679, abs=0.01)


def test_the_rings_edgewise() -> None:
    """The Earth went through the plane on 2025-03-23, as was announced everywhere (value from memory): tilt 0 within a day's change."""
    assert abs(saturn_rings(at(2025, 3, 23, 16)).tilt_deg) < 0.15
    assert saturn_rings(at(2024, 12, 23)).tilt_deg > 2.0  # the northern face until then
    assert saturn_rings(at(2026, 11, 1)).tilt_deg < 0.0


def test_jupiters_moons_as_printed() -> None:
    """1992 December 16, 0h UT: X and Y as Meeus 1998 prints them for his low accuracy, example 44.a (by the same tests)."""
    printed = {"Io": (-3.44, 0.21), "Europa": (7.44, 0.25), "Ganymede": (1.24, 0.65), "Callisto": (7.08, 1.10)}
    for moon in jupiter_moons(at(1992, 12, 16)):
        assert (moon.west_radii, moon.north_radii) == pytest.approx(printed[moon.name], abs=0.006)


def test_conjunctions_as_printed() -> None:
    """1988 November 23: Ganymede passes at 7h28m UT, 0.84 to the south, Callisto at 5h15m, 1.48 to the north: the exercise there."""
    ganymede = jupiter_moons(at(1988, 11, 23, 7, 28))[2]
    callisto = jupiter_moons(at(1988, 11, 23, 5, 15))[3]
    assert (ganymede.west_radii, ganymede.north_radii) == pytest.approx((0.0, -0.84), abs=0.01)
    assert (callisto.west_radii, callisto.north_radii) == pytest.approx((0.06, 1.48), abs=0.01)


# Worked out once with PyPI's astronomy-engine 2.1.19 (MIT), which has the moons by the theory L1.2: west and north, Io to Callisto.
@pytest.mark.parametrize(
    ("moment", "west_and_north"),
    [
        (at(2024, 12, 7, 21), ((5.92, -0.01), (1.11, 0.46), (-12.40, -0.43), (25.62, -0.25))),
        (at(2025, 3, 1, 20), ((-5.70, 0.07), (6.83, -0.23), (-8.10, 0.61), (26.12, 0.06))),
        (at(2026, 1, 10, 23), ((-5.83, 0.02), (-9.43, -0.06), (-2.97, 0.39), (5.79, -0.54))),
        (at(2026, 11, 25, 5), ((-0.61, -0.03), (9.26, -0.04), (-7.91, 0.04), (0.63, 0.18))),
        (at(2027, 2, 14, 22), ((-5.76, -0.01), (8.81, -0.06), (12.27, -0.03), (-13.64, 0.26))),
        (at(2030, 7, 1, 0), ((-3.25, 0.27), (0.90, 0.45), (13.72, -0.33), (0.00, -1.33))),
    ],
)
def test_against_another_theory(moment: Moment, west_and_north: tuple[tuple[float, float], ...]) -> None:
    """At six moments the places agree with a modern theory's to 0.15 of Jupiter's radius."""
    for moon, other in zip(jupiter_moons(moment), west_and_north, strict=True):
        assert (moon.west_radii, moon.north_radii) == pytest.approx(other, abs=0.15)


def test_a_moon_before_and_one_behind() -> None:
    """2026 November 25, 5h: Io behind the disc and Callisto in front of it (the same program's geometry), the others one on either side."""
    moons = jupiter_moons(at(2026, 11, 25, 5))
    assert [moon.whereabouts for moon in moons] == ["behind", "beside", "beside", "in front"]
    east, west = from_east_to_west(moons)
    assert [moon.name for moon in east] == ["Ganymede"]
    assert [moon.name for moon in west] == ["Europa"]


def test_a_moon_in_shadow() -> None:
    """2026 November 8, 3h, before the opposition: Europa, west of the disc, is eclipsed (the same program's geometry) and not seen."""
    moons = jupiter_moons(at(2026, 11, 8, 3))
    assert moons[1].whereabouts == "in shadow"
    assert moons[1].west_radii == pytest.approx(1.70, abs=0.1)
    assert all(moon.name != "Europa" for side in from_east_to_west(moons) for moon in side)


@settings(max_examples=60, deadline=None)
@given(MOMENTS)
def test_what_always_holds_of_the_moons(moment: Moment) -> None:
    """No moon farther out than its orbit; those beside are on one side each, in order; in shadow only away from the disc."""
    moons = jupiter_moons(moment)
    for moon, orbit in zip(moons, (6.0, 9.6, 15.1, 26.7), strict=True):
        assert abs(moon.west_radii) < orbit
        assert abs(moon.north_radii) < 0.07 * orbit
        on_disc = moon.west_radii**2 + (1.071 * moon.north_radii) ** 2 < 1.0
        assert on_disc == (moon.whereabouts in ("in front", "behind"))
    east, west = from_east_to_west(moons)
    assert {moon.name for moon in (*east, *west)} == {moon.name for moon in moons if moon.whereabouts == "beside"}
    assert [moon.west_radii for moon in (*east, *west)] == sorted(moon.west_radii for moon in (*east, *west))


@settings(max_examples=40, deadline=None)
@given(MOMENTS)
def test_what_always_holds_of_the_discs(moment: Moment) -> None:
    """Phases and diameters stay within what each planet can show (common practice); the rings' tilt within 27 degrees."""
    # The widest and the narrowest disc, and the least that can be lit.
    bounds = {
        "Mercury": (4.4, 13.1, 0.0), "Venus": (9.5, 66.5, 0.0), "Mars": (3.4, 25.4, 0.83), "Jupiter": (30.0, 50.5, 0.98),
        "Saturn": (14.5, 21.0, 0.996), "Uranus": (3.2, 4.2, 0.999), "Neptune": (2.1, 2.5, 0.999),
    }  # fmt: skip
    for planet in PLANETS:
        view = planet_view(planet, moment)
        narrowest, widest, least = bounds[planet.name]
        assert narrowest < view.diameter_arcsec < widest
        assert least <= view.illuminated_fraction <= 1.0
    assert abs(saturn_rings(moment).tilt_deg) < 27.5
    assert abs(saturn_rings(moment).sun_tilt_deg) < 27.0
