"""Towns by name: where they are, and what happens to names nobody has."""

from __future__ import annotations

import astropy.units as u
import numpy as np
import pytest
from astropy.coordinates import SkyCoord
from hypothesis import given
from hypothesis import strategies as st

from companion.errors import BadRequest
from companion.places import find_town, nearest_town, towns, towns_named
from companion.places.towns import EARTH_RADIUS_KM


@pytest.mark.parametrize(
    ("name", "country", "latitude_deg", "longitude_deg", "zone"),
    [
        ("Vienna", "AT", 48.2, 16.4, "Europe/Vienna"),
        ("london", "GB", 51.5, -0.1, "Europe/London"),
        ("New York", "US", 40.7, -74.0, "America/New_York"),
        ("Sydney", "AU", -33.9, 151.2, "Australia/Sydney"),
        ("Cologne", "DE", 50.9, 7.0, "Europe/Berlin"),
        ("koln", "DE", 50.9, 7.0, "Europe/Berlin"),
        ("Sao Paulo", "BR", -23.5, -46.6, "America/Sao_Paulo"),
        ("Cape Town", "ZA", -33.9, 18.4, "Africa/Johannesburg"),
        ("Tromsø", "NO", 69.65, 18.96, "Europe/Oslo"),
        ("tromso", "NO", 69.65, 18.96, "Europe/Oslo"),
        ("Kathmandu", "NP", 27.7, 85.3, "Asia/Kathmandu"),
        ("Reykjavik", "IS", 64.1, -21.9, "Atlantic/Reykjavik"),
        ("Quito", "EC", -0.2, -78.5, "America/Guayaquil"),
        ("Memphis", "US", 35.1, -90.0, "America/Chicago"),
        ("Washington", "US", 38.9, -77.0, "America/New_York"),
        ("Ushuaia", "AR", -54.8, -68.3, "America/Argentina/Ushuaia"),
    ],
)
def test_where_towns_are(name: str, country: str, latitude_deg: float, longitude_deg: float, zone: str) -> None:
    """Well-known towns lie where they do, to 0.15 degrees, in their zone (values from memory)."""
    town = find_town(name)
    assert town.country == country
    assert town.latitude_deg == pytest.approx(latitude_deg, abs=0.15)
    assert town.longitude_deg == pytest.approx(longitude_deg, abs=0.15)
    site = town.site
    assert (site.zone, site.name, site.latitude_deg) == (zone, town.name, town.latitude_deg)


def test_towns_of_one_name() -> None:
    """Several of one name come largest first: Birmingham in England before the one in Alabama."""
    assert [town.country for town in towns_named("birmingham")] == ["GB", "US"]
    assert towns_named("Nowhere at all") == ()


def test_distance_between_towns() -> None:
    """From London to Paris it is as far as astropy's angle says, some 340 km (value from memory)."""
    london, paris = find_town("London"), find_town("Paris")
    angle = SkyCoord(london.longitude_deg * u.deg, london.latitude_deg * u.deg).separation(
        SkyCoord(paris.longitude_deg * u.deg, paris.latitude_deg * u.deg)
    )
    away_km = london.distance_km(paris.latitude_deg, paris.longitude_deg)
    assert away_km == pytest.approx(float(angle.rad) * EARTH_RADIUS_KM, rel=1e-6)
    assert away_km == pytest.approx(340.0, abs=10.0)


@pytest.mark.parametrize("bearing_deg", [0.0, 45.0, 135.0, 180.0, 270.0, 315.0])
@pytest.mark.parametrize("name", ["Lagos", "Reykjavík", "Suva"])
def test_beside_a_town(name: str, bearing_deg: float) -> None:
    """A site 40 km from a town lies where astropy's ``directional_offset_by`` puts it."""
    town = find_town(name)
    there = SkyCoord(town.longitude_deg * u.deg, town.latitude_deg * u.deg).directional_offset_by(
        bearing_deg * u.deg, (40.0 / EARTH_RADIUS_KM) * u.rad
    )
    site = town.beside(40.0, bearing_deg)
    assert site.latitude_deg == pytest.approx(there.dec.deg, abs=1e-9)
    assert site.longitude_deg == pytest.approx(there.ra.wrap_at(180 * u.deg).deg, abs=1e-9)


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "name"),
    [(48.25, 16.3, "Vienna"), (51.4, 0.0, "London"), (-33.8, 151.0, "Sydney"), (-16.4, -179.9, "Labasa")],
)
def test_nearest(latitude_deg: float, longitude_deg: float, name: str) -> None:
    """In and about a town that town is the nearest, and across the date line too."""
    assert nearest_town(latitude_deg, longitude_deg).name == name


@given(st.floats(-90.0, 90.0), st.floats(-180.0, 180.0))
def test_none_is_nearer(latitude_deg: float, longitude_deg: float) -> None:
    """No other town is nearer than the nearest."""
    best_km = nearest_town(latitude_deg, longitude_deg).distance_km(latitude_deg, longitude_deg)
    assert all(best_km <= town.distance_km(latitude_deg, longitude_deg) + 1e-3 for town in towns()[::40])


@pytest.mark.parametrize(("wrong", "meant"), [("Edinburg", "Edinburgh"), ("Viena", "Vienna"), ("Melborne", "Melbourne")])
def test_near_misses_are_suggested(wrong: str, meant: str) -> None:
    """A slip of the fingers is answered with the town that was meant."""
    with pytest.raises(BadRequest, match=f"did you mean .*{meant}"):
        find_town(wrong)


@pytest.mark.parametrize("name", ["xyzzyx", "", "   ", "☄", "Vienna\nBerlin", "a" * 5000])
def test_unknown_towns_get_one_line(name: str) -> None:
    """A town nobody knows is answered with one line of readable length."""
    with pytest.raises(BadRequest, match="I don't know a town called") as told:
        find_town(name)
    assert "\n" not in str(told.value)
    assert len(str(told.value)) < 200


def test_table_is_well_formed() -> None:
    """Every town has a place on Earth and a name of plain letters when compared; each is found by its own name; largest first."""
    everything = towns()
    assert len(everything) > 3000
    assert [town.population for town in everything] == sorted((town.population for town in everything), reverse=True)
    for town in everything:
        assert -60.0 < town.latitude_deg < 80.0
        assert -180.0 <= town.longitude_deg <= 180.0
        assert len(town.country) == 2
        assert town in towns_named(town.name)


def test_a_town_is_never_far_where_people_live() -> None:
    """From each of some places in the country a town of the table lies within 120 km (places from memory)."""
    for latitude_deg, longitude_deg in ((47.0, 14.5), (54.5, -3.1), (44.5, 4.5), (51.3, 12.0), (40.2, -3.5), (35.6, 138.3), (41.0, -76.5)):
        assert nearest_town(latitude_deg, longitude_deg).distance_km(latitude_deg, longitude_deg) < 120.0
    assert np.isfinite(nearest_town(0.0, -140.0).distance_km(0.0, -140.0))
