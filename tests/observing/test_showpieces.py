"""The rated showpieces: that each is known, sane, and can be seen in the aperture it asks for."""

from __future__ import annotations

from collections import Counter

import astropy.units as u
import numpy as np
import pytest
from astropy.coordinates import SkyCoord

from companion.equipment import Eyepiece
from companion.observing import Eye, Glows, Showpiece, Telescope, margins_mag, rated_showpieces, showpiece_of
from companion.sky import DoubleStar, find

SHOWPIECES = rated_showpieces()
KINDS = {  # CONTRACT's list for `tonight`, without the Sun's family and the observer's own
    "double star", "carbon star", "variable star", "open cluster", "globular cluster", "galaxy", "nebula", "planetary nebula", "star cloud",
}  # fmt: skip


def test_enough_of_every_kind() -> None:
    """At least 200 rated objects, 60 of them doubles, a dozen carbon and variable stars, every kind there, no key and no place twice."""
    kinds = Counter(showpiece.body.kind for showpiece in SHOWPIECES)
    assert len(SHOWPIECES) >= 200
    assert set(kinds) == KINDS
    assert kinds["double star"] >= 60
    assert kinds["carbon star"] + kinds["variable star"] >= 12
    assert len({showpiece.key for showpiece in SHOWPIECES}) == len(SHOWPIECES)
    assert len({showpiece.body.place for showpiece in SHOWPIECES}) == len(SHOWPIECES)


def test_both_halves_of_the_sky() -> None:
    """At least a third lies in either hemisphere, a dozen south of 60 degrees, and the best are neither few nor most."""
    declinations = [showpiece.body.place.dec_deg for showpiece in SHOWPIECES if showpiece.body.place]
    assert min(sum(dec < 0.0 for dec in declinations), sum(dec > 0.0 for dec in declinations)) > len(SHOWPIECES) / 3
    assert sum(dec < -60.0 for dec in declinations) > 12
    assert 1 / 8 < sum(showpiece.rating == 3 for showpiece in SHOWPIECES) / len(SHOWPIECES) < 1 / 3


def test_no_showpiece_stands_far_from_the_season_of_another() -> None:
    """Every two hours of right ascension have at least a dozen, so that no night is without."""
    hours = Counter(int(showpiece.body.place.ra_deg // 30.0) for showpiece in SHOWPIECES if showpiece.body.place)
    assert len(hours) == 12
    assert min(hours.values()) >= 12


@pytest.mark.parametrize("showpiece", SHOWPIECES, ids=lambda showpiece: str(showpiece.key))
def test_each_is_known_and_sane(showpiece: Showpiece) -> None:
    """The catalogue finds each by its key, name and number, at its place; rating, aperture, field, magnitude and size are in bounds."""
    body = showpiece.body
    for name in {showpiece.key, body.name, body.designation or body.name}:
        assert find(name).place == body.place
    assert showpiece_of(find(showpiece.key)) is showpiece
    assert showpiece_of(body) is showpiece
    assert showpiece.rating in (1, 2, 3)
    assert showpiece.from_aperture_mm in (50, 60, 70, 80, 90, 100, 150, 200)
    assert 5.0 <= showpiece.field_arcmin <= 400.0
    assert 0.05 < showpiece.inner_share <= 0.707
    assert body.magnitude is not None
    assert -2.0 < body.magnitude < 12.0
    if showpiece.variable is None:
        assert body.size_arcmin is not None
        assert 0.02 < body.size_arcmin < 650.0
        assert 0.02 < (body.width_arcmin or body.size_arcmin) <= body.size_arcmin
        if body.kind not in ("double star", "star cloud") and body.size_arcmin < 200.0:
            assert showpiece.field_arcmin > 0.6 * body.size_arcmin


def test_the_figures_of_a_star_come_with_it() -> None:
    """Doubles bring their separation, variables their range, and nothing else brings either."""
    for showpiece in SHOWPIECES:
        assert (showpiece.double is not None) == (showpiece.body.kind == "double star")
        assert (showpiece.variable is not None) == (showpiece.body.kind in ("carbon star", "variable star"))


@pytest.mark.parametrize(
    "showpiece", [each for each in SHOWPIECES if each.double is None and each.variable is None], ids=lambda showpiece: str(showpiece.key)
)
def test_its_aperture_shows_it(showpiece: Showpiece) -> None:
    """Under a dark country sky the telescope it asks for shows it by the eye's threshold (Crumey 2014): our guesses meet the physics."""
    body, aperture_mm = showpiece.body, showpiece.from_aperture_mm
    shape = (body.magnitude, body.size_arcmin, body.width_arcmin or body.size_arcmin, showpiece.inner_share)
    glow = Glows(*(np.array([value]) for value in shape))
    eyepieces = [Eyepiece(focal_length_mm, 60.0) for focal_length_mm in (32.0, 25.0, 15.0, 10.0, 6.0)]
    telescope = Telescope(aperture_mm, max(400.0, 5.0 * aperture_mm))
    assert margins_mag(glow, 21.6, telescope, eyepieces, Eye()).max() > 0.0


@pytest.mark.parametrize(
    ("double", "shortest_mm"),
    [(each.double, each.from_aperture_mm) for each in SHOWPIECES if each.double],
    ids=lambda value: str(value)[:40],
)
def test_its_aperture_splits_it(double: DoubleStar, shortest_mm: float) -> None:
    """Dawes' limit of the aperture a double asks for, 116 arcseconds over millimetres, is finer than its separation."""
    assert 116.0 / shortest_mm < double.separation_arcsec


@pytest.mark.parametrize(
    ("key", "constellation"),
    [
        ("M 13", "Her"), ("M 42", "Ori"), ("M 57", "Lyr"), ("M 24", "Sgr"), ("NGC 5139", "Cen"), ("NGC 2070", "Dor"), ("NGC 346", "Tuc"),
        ("NGC 3372", "Car"), ("NGC 253", "Scl"), ("C 14", "Per"), ("NGC 6752", "Pav"), ("NGC 1365", "For"), ("NGC 2477", "Pup"),
        ("Scutum Star Cloud", "Sct"), ("Norma Star Cloud", "Nor"), ("Cygnus Star Cloud", "Cyg"), ("Large Sagittarius Star Cloud", "Sgr"),
        ("Cl 399", "Vul"), ("NGC 5128", "Cen"), ("NGC 6397", "Ara"), ("NGC 3293", "Car"), ("NGC 2014", "Dor"), ("NGC 3918", "Cen"),
    ],
)  # fmt: skip
def test_lies_where_everyone_says(key: str, constellation: str) -> None:
    """A sample lies in the constellation handbooks give (memory, common practice), by the IAU's boundaries as astropy has them."""
    place = find(key).place
    assert place is not None
    assert str(SkyCoord(place.ra_deg * u.deg, place.dec_deg * u.deg).get_constellation(short_name=True)) == constellation
