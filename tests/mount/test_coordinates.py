"""Right ascension and declination of the day, of J2000, and the horizon, against astropy (ERFA), an independent reduction."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from astropy import units as u
from astropy.coordinates import TETE, AltAz, SkyCoord
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.mount import Equatorial, Horizontal
from companion.mount.coordinates import equatorial_of, horizontal_of, place_of
from companion.sky import Moment, Site, find
from tests.sky import astropy_reference

WITHIN_ARCSEC = 1.0
"""In the years both have the Earth's rotation for; the pole's motion, up to 0.6 arcseconds, is left out by us."""
PREDICTED_ARCSEC = 4.0
"""Beyond those years each predicts the Earth's rotation, and by 2026 they are 0.13 seconds of time apart: 2 arcseconds."""
_SITES = st.builds(Site, st.floats(-80, 80), st.floats(-180, 180), st.floats(0, 3000))
_TIMES = st.integers(0, 14 * 365 * 24).map(lambda hours: datetime(2010, 1, 1, tzinfo=UTC) + timedelta(hours=hours))
_RA = st.floats(0, 360, exclude_max=True)
_DEC = st.floats(-89, 89)


def _frames(moment: Moment) -> tuple[object, object]:
    """Return astropy's true equator and equinox of the day, and its airless horizon, both at the site."""
    when = astropy_reference.times(moment.time, 0.0)
    place = astropy_reference.location(moment.site)
    return TETE(obstime=when, location=place), AltAz(obstime=when, location=place, pressure=0 * u.hPa)


def _apart_arcsec(pointing: Equatorial | Horizontal, reference: SkyCoord) -> float:
    if isinstance(pointing, Equatorial):
        ours = SkyCoord(pointing.ra_deg * u.deg, pointing.dec_deg * u.deg)
        theirs = SkyCoord(reference.ra, reference.dec)
    else:
        ours = SkyCoord(pointing.azimuth_deg * u.deg, pointing.altitude_deg * u.deg)
        theirs = SkyCoord(reference.az, reference.alt)
    return float(ours.separation(theirs).arcsec)


@settings(max_examples=30, deadline=None)
@given(_SITES, _TIMES, _RA, _DEC)
def test_the_horizon_of_a_place_of_the_day(site: Site, time: datetime, ra_deg: float, dec_deg: float) -> None:
    """What a mount of the day's coordinates points at, over the ground; and back."""
    moment = Moment(site, time)
    tete, altaz = _frames(moment)
    reference = SkyCoord(ra_deg * u.deg, dec_deg * u.deg, frame=tete).transform_to(altaz)
    pointing = horizontal_of(Equatorial(ra_deg, dec_deg, "of_date"), moment)
    assert _apart_arcsec(pointing, reference) < WITHIN_ARCSEC
    back = equatorial_of(pointing, moment, "of_date")
    assert _apart_arcsec(back, SkyCoord(ra_deg * u.deg, dec_deg * u.deg)) < 0.01


@settings(max_examples=30, deadline=None)
@given(_SITES, _TIMES, _RA, _DEC)
def test_the_horizon_of_a_j2000_place(site: Site, time: datetime, ra_deg: float, dec_deg: float) -> None:
    """What a mount of J2000 coordinates points at, over the ground; and back."""
    moment = Moment(site, time)
    _, altaz = _frames(moment)
    reference = SkyCoord(ra_deg * u.deg, dec_deg * u.deg, frame="icrs").transform_to(altaz)
    pointing = horizontal_of(Equatorial(ra_deg, dec_deg, "J2000"), moment)
    assert _apart_arcsec(pointing, reference) < WITHIN_ARCSEC
    back = equatorial_of(pointing, moment, "J2000")
    assert _apart_arcsec(back, SkyCoord(ra_deg * u.deg, dec_deg * u.deg)) < 0.01


@pytest.mark.parametrize("name", ["Vega", "Arcturus", "Jupiter", "Moon", "M 42"])
def test_where_to_send_a_mount_for_a_body(name: str) -> None:
    """The place of the day and the J2000 place of stars, a planet and the Moon, and both stand where the body stands."""
    moment = Moment(Site(46.31, -67.52, 120.0), datetime(2026, 10, 15, 22, 30, tzinfo=UTC))
    body = find(name)
    tete, _ = _frames(moment)
    when = astropy_reference.times(moment.time, 0.0)
    altitude_deg, azimuth_deg = astropy_reference.altaz(body, moment.site, when)
    seen = SkyCoord(azimuth_deg * u.deg, altitude_deg * u.deg)
    of_date = place_of(body, moment, "of_date")
    reference = SkyCoord(alt=altitude_deg * u.deg, az=azimuth_deg * u.deg, frame=_frames(moment)[1]).transform_to(tete)
    assert _apart_arcsec(of_date, reference) < PREDICTED_ARCSEC
    for place in (of_date, place_of(body, moment, "J2000")):
        shown = horizontal_of(place, moment)
        assert _apart_arcsec(shown, SkyCoord(alt=seen.dec, az=seen.ra, frame=_frames(moment)[1])) < PREDICTED_ARCSEC


def test_the_two_epochs_are_as_far_apart_as_precession_makes_them() -> None:
    """Since J2000 the equinox has moved by 50.29 arcseconds a year (IAU 2006): an error in the epoch is no small one."""
    moment = Moment(Site(46.31, -67.52), datetime(2026, 10, 15, 22, 30, tzinfo=UTC))
    on_ecliptic = Equatorial(0.0, 0.0, "J2000")
    of_date = equatorial_of(horizontal_of(on_ecliptic, moment), moment, "of_date")
    years = 26.79
    expected_deg = 50.29 / 3600 * years
    assert np.hypot(of_date.ra_deg, of_date.dec_deg) == pytest.approx(expected_deg, abs=0.01)
