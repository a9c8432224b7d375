"""The double, carbon and variable stars: that each is where its name says, and that the figures make sense."""

from __future__ import annotations

import math
from importlib.resources import files

import astropy.units as u
import pytest
from astropy.coordinates import SkyCoord

from companion.sky import Body, DoubleStar, VariableStar, angle_deg, double_stars, find, fine_doubles, fine_variables, star_clouds
from companion.sky.designations import GENITIVES

FINE = (*fine_doubles(), *fine_variables())
YEARS_TO_J2000 = 8.75 / 3.6e6


def at_j2000(body: Body) -> tuple[float, float]:
    """Return right ascension and declination at J2000, degrees."""
    place = body.place
    assert place is not None
    dec_deg = place.dec_deg + place.pm_dec_mas * YEARS_TO_J2000
    return place.ra_deg + place.pm_ra_mas * YEARS_TO_J2000 / math.cos(math.radians(dec_deg)), dec_deg


def test_enough_of_them() -> None:
    """There are at least 60 doubles and two dozen carbon and variable stars, as the plan asks, no name and no place twice."""
    assert len(fine_doubles()) >= 60
    assert {kind: sum(fine.body.kind == kind for fine in fine_variables()) for kind in ("carbon star", "variable star")} == {
        "carbon star": 14,
        "variable star": 12,
    }
    names = [name for fine in FINE for name in fine.names]
    assert len(set(names)) == len(names)
    assert len({fine.body.place for fine in FINE}) == len(FINE)


@pytest.mark.parametrize("fine", FINE, ids=lambda fine: str(fine.body.name))
def test_each_lies_in_the_constellation_of_its_name(fine: DoubleStar | VariableStar) -> None:
    """A star called after a constellation lies in it, by the IAU's boundaries as astropy has them."""
    body, names = fine.body, fine.names
    genitives = {genitive: short for short, genitive in GENITIVES.items()}
    said = {genitives[name.partition(" ")[2]] for name in names if name.partition(" ")[2] in genitives}
    ra_deg, dec_deg = at_j2000(body)
    lies_in = str(SkyCoord(ra_deg * u.deg, dec_deg * u.deg).get_constellation(short_name=True))
    assert said <= {lies_in}
    assert said or body.name == "La Superba"


def test_places_agree_with_the_iau_list() -> None:
    """At J2000 every one of them that the IAU's list names stands within 1" of where it says, but for that list's one blemish, Guniibuu."""
    listed = {}
    for line in (files("companion.sky.data") / "iau-csn-2022-04-04.txt").read_text(encoding="utf-8").splitlines():
        if not line.startswith("#"):
            fields = line.rstrip(" *").split()
            listed[line[:18].strip()] = (float(fields[-3]), float(fields[-2]))
    apart = {}
    for fine in FINE:
        if fine.body.name in listed:
            ra_deg, dec_deg = at_j2000(fine.body)
            list_ra_deg, list_dec_deg = listed[fine.body.name]
            apart[fine.body.name] = 3600.0 * angle_deg(dec_deg, ra_deg, list_dec_deg, list_ra_deg)
    assert len(apart) > 40
    assert {name for name, arcsec in apart.items() if arcsec > 1.0} == {"Guniibuu"}


def test_found_by_every_name() -> None:
    """Each is found by all its names, where it is; a star the alignment knows stays that star."""
    for fine in FINE:
        for name in fine.names:
            assert find(name).place == fine.body.place


def test_double_stars_make_sense() -> None:
    """The brighter comes first, both together are brighter than either, angles are angles, and Rigil Kentaurus is a bright pair."""
    for double in fine_doubles():
        assert double.primary_vmag <= double.companion_vmag < 10.0
        assert double.primary_vmag - 0.81 <= (double.body.magnitude or 0.0) <= double.primary_vmag
        assert 0.0 <= double.position_angle_deg < 360.0
        assert 2000 <= double.year <= 2030
    # Two stars of magnitude 0.0 and 1.3 together: -2.5 log10(1 + 10^(-0.52)) = -0.29.
    assert next(double.magnitude for double in double_stars() if double.name == "Rigil Kentaurus") == pytest.approx(-0.3, abs=0.01)


# Separation and magnitudes as everyone quotes them; values from memory, common practice.
@pytest.mark.parametrize(
    ("name", "separation_arcsec", "magnitudes"),
    [("Albireo", 34.0, (3.1, 5.1)), ("Mizar", 14.0, (2.3, 4.0)), ("Almach", 10.0, (2.3, 5.5)), ("Cor Caroli", 19.0, (2.9, 5.6))],
)
def test_doubles_everyone_knows(name: str, separation_arcsec: float, magnitudes: tuple[float, float]) -> None:
    """Four famous pairs are as handbooks have them, within an arcsecond and half a magnitude."""
    double = next(double for double in fine_doubles() if double.body.name == name)
    assert double.separation_arcsec == pytest.approx(separation_arcsec, abs=1.0)
    assert (double.primary_vmag, double.companion_vmag) == pytest.approx(magnitudes, abs=0.5)


def test_variable_stars_make_sense() -> None:
    """Each is brighter at its brightest, shows to the eye or in a small telescope then, and takes 2 days to 3 years where it keeps time."""
    for variable in fine_variables():
        assert variable.brightest_vmag < variable.faintest_vmag
        assert variable.brightest_vmag < 8.0
        assert variable.period_days is None or 2.0 < variable.period_days < 1000.0
        assert variable.body.magnitude == pytest.approx((variable.brightest_vmag + variable.faintest_vmag) / 2.0, abs=0.06)


def test_carbon_stars_are_red() -> None:
    """By their measured B-V all carbon stars are redder than any K giant, 1.6."""
    for variable in fine_variables():
        if variable.body.kind == "carbon star":
            assert (variable.body.color_index or 0.0) > 1.6


def test_star_clouds_lie_on_the_milky_way() -> None:
    """Each lies within 6 degrees of the galactic equator (astropy) and is bright and wide."""
    for cloud in star_clouds():
        assert cloud.place is not None
        assert abs(SkyCoord(cloud.place.ra_deg * u.deg, cloud.place.dec_deg * u.deg).galactic.b.deg) < 6.0
        assert (cloud.magnitude or 9.0) < 2.0
        assert (cloud.size_arcmin or 0.0) >= (cloud.width_arcmin or 0.0) > 60.0


# The fainter stars of wide pairs with a Hipparcos number of their own: ICRS at J1991.25, read from hip2.dat (CDS I/311).
SECOND_STARS = {
    "Albireo": (292.689153, 27.965279),  # HIP 95951
    "Iota Cancri": (131.666651, 28.765166),  # HIP 43100
    "24 Comae Berenices": (188.776445, 18.377042),  # HIP 61415
    "Beta Tucanae": (7.888983, -62.965450),  # HIP 2487
    "Psi Piscium": (16.423658, 21.465473),  # HIP 5132
    "Nu Draconis": (263.043408, 55.184111),  # HIP 85819
    "Kappa Lupi": (227.990678, -48.743579),  # HIP 74380
    "Gamma Volantis": (107.176417, -70.497346),  # HIP 34473
    "Zeta Lyrae": (281.200791, 37.594565),  # HIP 91973
    "Alya": (284.060884, 4.202060),  # HIP 92951
}


@pytest.mark.parametrize("name", SECOND_STARS)
def test_where_the_fainter_star_stands(name: str) -> None:
    """Separation and angle, most of them Gaia's of 2016, are those of two places a quarter of a century earlier: 0.3" and 2 degrees."""
    ra_deg, dec_deg = SECOND_STARS[name]
    double = next(double for double in fine_doubles() if double.body.name == name)
    place = double.body.place
    assert place is not None
    east = (ra_deg - place.ra_deg) * math.cos(math.radians(dec_deg)) * 3600.0
    north = (dec_deg - place.dec_deg) * 3600.0
    assert math.hypot(east, north) == pytest.approx(double.separation_arcsec, abs=0.3)
    assert abs((math.degrees(math.atan2(east, north)) - double.position_angle_deg + 180.0) % 360.0 - 180.0) < 2.0
