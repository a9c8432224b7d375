"""The ranking for one person: what is hard for them, what they have seen, what they want, what they own."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from companion.equipment import Eyepiece, Instrument, Limit, Observer
from companion.observing import Outfit, SiteSky, Telescope, outfit_of, read_own_objects, site_sky_of, targets
from companion.sky import Moment, Site

EVENING = Moment(Site(48.0, 16.0), datetime(2027, 1, 7, 20, tzinfo=UTC))
SMALL = Telescope(80.0, 400.0)


@pytest.mark.parametrize(
    ("hard", "has_diagonal", "lowest_deg", "highest_deg"),
    [
        ("kneeling", True, 10.0, 50.0),
        ("kneeling", False, 20.0, 90.0),
        ("reaching", False, 10.0, 50.0),
        ("reaching", True, 10.0, 90.0),
        ("reaching", None, 10.0, 50.0),
    ],
)
def test_within_reach(hard: Limit, has_diagonal: bool | None, lowest_deg: float, highest_deg: float) -> None:
    """Who can't kneel or reach is offered nothing where the eyepiece would be too low or too high, with their kind of telescope."""
    found = targets(EVENING, 12, outfit=Outfit(SMALL, has_diagonal=has_diagonal), hard={hard})
    assert len(found) == 12
    assert all(lowest_deg <= target.sight.altitude_deg <= highest_deg for target in found)


def test_bright_things_for_who_sees_faint_ones_badly() -> None:
    """Each is at least a magnitude and a half above the limit."""
    found = targets(EVENING, 12, hard={"faint-stars"})
    assert all(target.margin_mag is not None and target.margin_mag >= 1.5 for target in found)


def test_neither_what_was_seen_nor_what_was_not_asked_for() -> None:
    """Names not wanted are left out, in any case; kinds are kept to; the same question has the same answer."""
    first = targets(EVENING, 5)
    seen = [target.sight.body.name.upper() for target in first[:2]]
    assert not {target.sight.body.name for target in first[:2]} & {target.sight.body.name for target in targets(EVENING, 5, unless=seen)}
    assert {target.sight.body.kind for target in targets(EVENING, 3, kinds=("planet", "moon"))} == {"planet"}
    assert targets(EVENING, 3, kinds=("carbon star",)) == targets(EVENING, 3, kinds=("carbon star",))
    assert targets(EVENING, 3, kinds=("sun",)) == []


def test_own_objects() -> None:
    """One's own are weighed by the same eye: a bright one is offered, one far too faint is not, one of unknown brightness is hoped for."""
    own = read_own_objects(
        "name,ra,dec,magnitude,size\nBright One,5 30 0,20 0,5.0,\nFaint One,5 40 0,25 0,17.0,\nNew One,5 50 0,30 0,,\n", "here"
    )
    found = {target.sight.body.name: target for target in targets(EVENING, 9, own=own, kinds=("user",))}
    assert set(found) == {"Bright One", "New One"}
    assert found["New One"].margin_mag is None
    assert found["Bright One"].rating == 2
    assert found["Bright One"].catalogue is None


def test_what_is_not_told_is_usual() -> None:
    """A profile without a telescope gets a usual one, and the guesses are named; what is told is kept."""
    assert outfit_of(Instrument()).guessed == {"aperture", "focal length", "eyepieces"}
    outfit = outfit_of(Instrument(aperture_mm=200.0, focal_length_mm=1000.0, eyepieces=(Eyepiece(20.0),), has_diagonal=False))
    assert outfit.guessed == frozenset()
    assert (outfit.telescope.aperture_mm, outfit.telescope.focal_length_mm, outfit.eyepieces) == (200.0, 1000.0, (Eyepiece(20.0),))
    assert outfit.telescope.central_obstruction > 0.0
    assert outfit.has_diagonal is False
    assert outfit_of(Instrument(focal_length_mm=700.0)).telescope.aperture_mm == pytest.approx(100.0)


def test_who_sees_the_milky_way_has_the_darker_sky() -> None:
    """What the profile tells of the Milky Way is how dark it is; where it tells nothing, between the two."""
    skies = [site_sky_of(Observer(sees_milky_way=sees)).zenith_mag_arcsec2 for sees in (False, None, True)]
    assert skies == sorted(skies)


def test_a_brighter_sky_shows_no_more() -> None:
    """Under a city's sky each galaxy that is still offered stands less above the limit than in the country."""
    city, country = (
        {target.catalogue: target.margin_mag or 0.0 for target in targets(EVENING, 40, sky=SiteSky(sky), kinds=("galaxy",))}
        for sky in (18.0, 21.5)
    )
    assert set(city) < set(country)
    assert all(city[name] < country[name] for name in city)


def test_no_name_twice_and_nothing_overhead_first() -> None:
    """Each is offered once; what stands in the mount's dead zone doesn't lead."""
    found = targets(EVENING, 30)
    names = [target.sight.body.name for target in found]
    assert len(set(names)) == len(names)
    assert all(target.sight.altitude_deg < 84.0 for target in found[:3])
