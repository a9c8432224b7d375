"""Ways to true north, the finder and the first star: shadow, pole, distance for the finder, turn, colour."""

from __future__ import annotations

import math
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.alignment import MIDDLE_OF_THE_W, NORTHERN, far_enough_m, north_mark, pole_way, shadow_direction, sunset_direction, tube_turn
from companion.alignment.pole import CROSS_LENGTHS
from companion.errors import BadRequest
from companion.sky import MOON, SUN, Body, Moment, Sight, Site, bright_stars, colour, find
from companion.sky.attitude import direction, rotation_vector
from companion.sky.attitude import separation_deg as apart_deg
from tests.sky import astropy_reference as reference

VIENNA = Site(48.2082, 16.3738, 200.0)
SYDNEY = Site(-33.8688, 151.2093, 58.0)
NORTH_CAPE = Site(71.1, 25.8, 100.0)
CRETE = Site(35.3, 25.1, 100.0)
QUITO = Site(-0.18, -78.47, 2850.0)
PROMISED_DEG = 0.01


def at(site: Site, year: int, month: int, day: int, hour: float) -> Moment:
    """Return a site at an hour UTC."""
    return Moment(site, datetime(year, month, day, tzinfo=UTC) + timedelta(hours=hour))


@pytest.mark.parametrize(
    "moment",
    [
        at(VIENNA, 2026, 6, 21, 7),
        at(VIENNA, 2026, 11, 5, 11),
        at(SYDNEY, 2027, 1, 3, 6.5),
        at(QUITO, 2026, 3, 1, 21),
        at(NORTH_CAPE, 2026, 6, 21, 22.4),
    ],
)
def test_shadow_points_away_from_the_sun(moment: Moment) -> None:
    """The shadow's direction is astropy's azimuth of the Sun and half a turn (kernel shared, reduction independent)."""
    altitude, azimuth = reference.altaz(SUN, moment.site, reference.times(moment.time, 0.0))
    assert 1.0 < altitude < 75.0
    shadow = shadow_direction(moment)
    assert shadow is not None
    assert 0.0 <= shadow < 360.0
    assert math.remainder(shadow - azimuth - 180.0, 360.0) == pytest.approx(0.0, abs=PROMISED_DEG)


def test_noon_shadow_points_to_the_pole() -> None:
    """At true noon the shadow points north in Vienna and south in Ushuaia; noon is astropy's: hour angle zero."""
    for site, towards_deg in ((VIENNA, 0.0), (Site(-54.8, -68.3, 20.0), 180.0)):
        near = at(site, 2026, 10, 10, 12.0 - site.longitude_deg / 15.0)
        hour_angle = math.remainder(float(reference.sun_hour_angle_deg(site, reference.times(near.time, 0.0))), 360.0)
        shadow = shadow_direction(Moment(site, near.time - timedelta(seconds=hour_angle * 240.0)))
        assert shadow is not None
        assert math.remainder(shadow - towards_deg, 360.0) == pytest.approx(0.0, abs=0.02)


@pytest.mark.parametrize("moment", [at(VIENNA, 2026, 11, 5, 18), at(VIENNA, 2026, 11, 5, 15.3), at(QUITO, 2026, 3, 20, 17.25)])
def test_no_shadow_to_trust(moment: Moment) -> None:
    """There is none at night, with the Sun just above the horizon, or with it near the zenith."""
    altitude, _ = reference.altaz(SUN, moment.site, reference.times(moment.time, 0.0))
    assert not 1.0 <= altitude <= 75.0
    assert shadow_direction(moment) is None


@pytest.mark.parametrize("hour", [18.0, 21.0, 24.0, 27.0])
def test_polaris_beside_north(hour: float) -> None:
    """Polaris is the way on a clear night, and stands within a degree of due north and of the latitude's height, by astropy."""
    moment = at(VIENNA, 2026, 11, 5, hour)
    assert pole_way(moment) in NORTHERN
    altitude, azimuth = reference.altaz(find("Polaris"), VIENNA, reference.times(moment.time, 0.0))
    # 0.62 degrees from the pole in 2026 (value from memory), along the horizon 0.62 / cos 48.
    assert abs(math.remainder(azimuth, 360.0)) < 0.62 / math.cos(math.radians(48.2)) + 0.02
    assert altitude == pytest.approx(VIENNA.latitude_deg, abs=0.64)


@pytest.mark.parametrize(
    ("moment", "why"), [(at(VIENNA, 2026, 11, 5, 12), "by day"), (at(Site(10.0, 16.0), 2026, 11, 5, 20), "ten degrees up only")]
)
def test_polaris_out_of_use(moment: Moment, why: str) -> None:
    """By day and too low Polaris is no way to north."""
    assert pole_way(moment) is None, why


def test_polaris_behind_a_tree() -> None:
    """What is hidden is no way."""
    assert pole_way(at(VIENNA, 2026, 11, 5, 20), hidden=lambda seen: seen.azimuth_deg < 10.0 or seen.azimuth_deg > 350.0) is None


def test_the_south_has_the_cross() -> None:
    """On a July evening in Sydney the Cross shows the way to the pole."""
    assert pole_way(at(SYDNEY, 2026, 7, 10, 9)) == "cross"


def test_the_south_without_the_cross() -> None:
    """At Hobart in November the Cross grazes the horizon but Hadar too: no way; hidden Gacrux in autumn leaves Hadar and Achernar."""
    hobart = Site(-42.88, 147.33)
    assert pole_way(at(hobart, 2026, 11, 15, 12)) is None
    assert pole_way(at(hobart, 2026, 8, 20, 12), hidden=lambda seen: seen.body.name == "Gacrux") == "between"


@pytest.mark.parametrize(("moment", "way"), [(at(CRETE, 2026, 4, 15, 20), "plough"), (at(CRETE, 2026, 11, 5, 18), "cassiopeia")])
def test_which_figure_leads_to_the_pole_star(moment: Moment, way: str) -> None:
    """From Crete the Plough in spring; when its bowl is too low, on autumn evenings, Cassiopeia: each by astropy's heights."""
    assert pole_way(moment) == way
    merak, middle = (reference.altaz(find(name), CRETE, reference.times(moment.time, 0.0))[0] for name in ("Merak", MIDDLE_OF_THE_W))
    assert (merak > 15.0, middle > 15.0) == ((True, False) if way == "plough" else (False, True))


def test_the_pointers_lead_to_the_pole_star() -> None:
    """Merak through Dubhe, carried on by the 29 degrees said, ends within 4 degrees of Polaris; the way the W opens, within a fist.

    Places by astropy, geometry here. Polaris is the brightest star within 12 degrees of itself ("alone"; the catalogue is ours).
    """
    merak, dubhe, polaris = of_date("Merak"), of_date("Dubhe"), of_date("Polaris")
    axis = np.cross(merak, dubhe) / np.linalg.norm(np.cross(merak, dubhe))
    ends = rotation_vector(axis * math.radians(float(apart_deg(dubhe, polaris)))) @ dubhe
    assert apart_deg(ends, polaris) < 4.0
    middle = of_date(MIDDLE_OF_THE_W)
    bottom = of_date("Schedar") + of_date("Ruchbah")
    axis = np.cross(bottom, middle) / np.linalg.norm(np.cross(bottom, middle))
    ends = rotation_vector(axis * math.radians(float(apart_deg(middle, polaris)))) @ middle
    assert apart_deg(ends, polaris) < 10.0
    northern = (star for star in bright_stars(3.0) if star.place is not None and star.place.dec_deg > 70.0)
    near = [star for star in northern if 0.1 < apart_deg(of_date(star.name), polaris) < 12.0]
    assert near == []


@pytest.mark.parametrize(
    "moment", [at(VIENNA, 2026, 6, 21, 19.5), at(VIENNA, 2026, 12, 21, 15.6), at(SYDNEY, 2026, 9, 22, 8.2), at(QUITO, 2026, 3, 1, 23.9)]
)
def test_the_sun_went_down_there(moment: Moment) -> None:
    """The setting point is where astropy's Sun crosses -0.8333 degrees: sampled every 4 s, where the azimuth moves by 0.02 degrees."""
    found = sunset_direction(moment)
    altitudes, azimuths = reference.altaz(SUN, moment.site, reference.times(moment.time, np.arange(-7200.0, 0.0, 4.0)))
    last = int(np.nonzero(altitudes > -0.8333)[0][-1])
    assert found == pytest.approx(float(azimuths[last]), abs=0.03)


def test_no_setting_point() -> None:
    """There is none by day, late at night, in the morning, and under the midnight Sun."""
    for moment in (at(VIENNA, 2026, 6, 21, 15), at(VIENNA, 2026, 11, 5, 20), at(VIENNA, 2026, 11, 5, 5), at(NORTH_CAPE, 2026, 6, 21, 22.4)):
        assert sunset_direction(moment) is None


@pytest.mark.parametrize(
    ("moment", "mark"),
    [
        (at(VIENNA, 2026, 10, 20, 17.5), "Moon"),
        (at(SYDNEY, 2026, 7, 10, 9), "Venus"),
        (at(VIENNA, 2027, 2, 22, 19), "Jupiter"),
        (at(VIENNA, 2026, 11, 5, 20), None),
        (at(VIENNA, 2026, 11, 5, 12), None),
    ],
)
def test_a_mark_nobody_can_mistake(moment: Moment, mark: str | None) -> None:
    """The Moon, or a planet that is the brightest point of light; its azimuth is astropy's."""
    found = north_mark(moment)
    assert (found.body.name if found else None) == mark
    if found is not None:
        _, azimuth = reference.altaz(found.body, moment.site, reference.times(moment.time, 0.0))
        assert math.remainder(found.azimuth_deg - float(azimuth), 360.0) == pytest.approx(0.0, abs=PROMISED_DEG)


def of_date(name: str) -> np.ndarray:
    """Return a star's unit vector on the equator of 2026 by astropy, so that the third axis is the Earth's."""
    from astropy.coordinates import TETE  # noqa: PLC0415

    when = reference.times(datetime(2026, 7, 1, tzinfo=UTC), 0.0)
    place = reference.catalogue_place(find(name)).apply_space_motion(new_obstime=when).transform_to(TETE(obstime=when))
    return direction(place.ra.deg, place.dec.deg)


def test_cross_extended_ends_at_the_pole() -> None:
    """The long axis of the Cross extended 4.5 times from Acrux ends within 3 degrees of the pole, nearer than by any other count of halves.

    Half way from Hadar to Achernar lies within 3 degrees too. Places by astropy, geometry here.
    """
    gacrux, acrux, pole = of_date("Gacrux"), of_date("Acrux"), np.array([0.0, 0.0, -1.0])
    length = float(apart_deg(gacrux, acrux))
    axis = np.cross(gacrux, acrux) / np.linalg.norm(np.cross(gacrux, acrux))
    misses = {
        times: float(apart_deg(rotation_vector(axis * math.radians(length * times)) @ acrux, pole)) for times in np.arange(2.0, 7.01, 0.5)
    }
    assert misses[CROSS_LENGTHS] < 3.0
    assert min(misses, key=lambda times: misses[times]) == CROSS_LENGTHS
    half_way = of_date("Hadar") + of_date("Achernar")
    assert apart_deg(half_way / np.linalg.norm(half_way), pole) < 3.0


@pytest.mark.parametrize(("offset_cm", "field_deg", "metres"), [(15.0, 1.0, 86.0), (15.0, 0.25, 344.0), (10.0, 2.0, 28.6)])
def test_how_far_is_far_enough(offset_cm: float, field_deg: float, metres: float) -> None:
    """By hand: a tenth of a degree is 1/573 of the distance, so 15 cm need 0.15 x 573 = 86 m; a quarter of the field, four times that."""
    assert far_enough_m(offset_cm, field_deg) == pytest.approx(metres, rel=0.005)


@pytest.mark.parametrize(
    ("offset_cm", "field_deg"), [(0.0, 1.0), (-1.0, 1.0), (15.0, 0.0), (math.nan, 1.0), (15.0, math.nan), (math.inf, 1.0)]
)
def test_no_finder_so_far(offset_cm: float, field_deg: float) -> None:
    """Figures that are nothing are refused."""
    with pytest.raises(BadRequest, match="above zero"):
        far_enough_m(offset_cm, field_deg)


def standing(azimuth_deg: float, altitude_deg: float) -> Sight:
    """Return something that stands there."""
    return Sight(Body("X", "star"), datetime(2026, 1, 1, tzinfo=UTC), altitude_deg, azimuth_deg, 1.0, "Ori")


@pytest.mark.parametrize(
    ("start", "end", "right_deg", "up_deg"),
    [((350.0, 0.0), (20.0, 40.0), 30.0, 40.0), ((20.0, 40.0), (350.0, 0.0), -30.0, -40.0), ((0.0, 0.0), (180.0, 5.0), 180.0, 5.0)],
)
def test_turn(start: tuple[float, float], end: tuple[float, float], right_deg: float, up_deg: float) -> None:
    """The shorter way round through north, both ways; exactly behind is to the right (worked by hand)."""
    found = tube_turn(*start, standing(*end))
    assert (found.right_deg, found.up_deg) == pytest.approx((right_deg, up_deg))


@given(st.floats(0.0, 360.0), st.floats(0.0, 359.9))
def test_turn_leads_there(start_deg: float, end_deg: float) -> None:
    """Turning by what is told ends at the azimuth wanted, and never takes more than half a turn."""
    right_deg = tube_turn(start_deg, 0.0, standing(end_deg, 0.0)).right_deg
    assert -180.0 < right_deg <= 180.0
    assert math.remainder(start_deg + right_deg - end_deg, 360.0) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("Betelgeuse", "orange-red"),
        ("Antares", "orange-red"),
        ("Aldebaran", "orange-red"),
        ("Arcturus", "orange"),
        ("Spica", "blue-white"),
        ("Achernar", "blue-white"),
        ("Vega", None),
        ("Rigel", None),
        ("Capella", None),
        ("Deneb", None),
        ("Mars", "orange-red"),
        ("Saturn", "yellow"),
        ("Jupiter", None),
    ],
)
def test_colours(name: str, expected: str | None) -> None:
    """The stars everyone calls reddish, orange or bluish are, and those that just look white are not named (common practice)."""
    assert colour(find(name)) == expected


def test_faint_and_unknown_have_no_colour() -> None:
    """Zaurak, a red giant of magnitude 3, is too faint to show its colour; the Moon has none to find it by."""
    zaurak = find("Zaurak")
    assert (zaurak.color_index or 0.0) > 1.5
    assert colour(zaurak) is None
    assert colour(MOON) is None
