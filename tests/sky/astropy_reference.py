"""A second opinion from astropy and ERFA, told not to download: the reduction is independent, the kernel and the catalogue are ours.

Both get JPL's DE421 from the same file and the stars from the same table, so what is tested is everything between those and the
horizon: proper motion, parallax, light time, aberration, precession, nutation, the Earth's rotation, the site.
"""

from __future__ import annotations

import warnings
from datetime import UTC, datetime
from importlib.resources import files
from typing import Any

import astropy.units as u
import numpy as np
from astropy.coordinates import AltAz, Distance, EarthLocation, HADec, SkyCoord, get_body, solar_system_ephemeris
from astropy.time import Time
from astropy.utils import iers

from companion.sky import Body, Site

iers.conf.auto_download = False
iers.conf.auto_max_age = None
iers.conf.iers_degraded_accuracy = "warn"
warnings.filterwarnings("ignore", module="astropy|erfa")  # dubious years and UT1 beyond the tables: the tolerances cover both

KERNEL = f"file://{files('skyfield_data') / 'data' / 'de421.bsp'}"


def location(site: Site) -> Any:
    """Return astropy's place for ours."""
    return EarthLocation.from_geodetic(site.longitude_deg * u.deg, site.latitude_deg * u.deg, site.elevation_m * u.m)


def times(start: datetime, seconds: Any) -> Any:
    """Return astropy's UTC times so many seconds after a start."""
    return Time(start.astimezone(UTC).replace(tzinfo=None), scale="utc") + np.asarray(seconds) * u.s


def altaz(body: Body, site: Site, when: Any) -> tuple[Any, Any]:
    """Return the airless altitude and azimuth, degrees, of a body at astropy times."""
    place = location(site)
    frame = AltAz(obstime=when, location=place, pressure=0 * u.hPa)
    if body.place is None:
        with solar_system_ephemeris.set(KERNEL):
            seen = get_body(body.name.lower(), when, place).transform_to(frame)
    else:
        seen = catalogue_place(body).apply_space_motion(new_obstime=when).transform_to(frame)
    return seen.alt.deg, seen.az.deg


def catalogue_place(body: Body) -> SkyCoord:
    """Return a star of our table as astropy reads it."""
    place = body.place
    assert place is not None
    return SkyCoord(
        ra=place.ra_deg * u.deg,
        dec=place.dec_deg * u.deg,
        distance=Distance(parallax=max(place.parallax_mas, 1e-3) * u.mas),
        pm_ra_cosdec=place.pm_ra_mas * u.mas / u.yr,
        pm_dec=place.pm_dec_mas * u.mas / u.yr,
        radial_velocity=0 * u.km / u.s,
        obstime=Time(2448349.0625, format="jd", scale="tdb"),
        frame="icrs",
    )


def sun_hour_angle_deg(site: Site, when: Any) -> Any:
    """Return the Sun's apparent local hour angle, degrees, at astropy times."""
    place = location(site)
    with solar_system_ephemeris.set(KERNEL):
        sun = get_body("sun", when, place)
    return sun.transform_to(HADec(obstime=when, location=place, pressure=0 * u.hPa)).ha.deg


def apart_arcsec(altitude1_deg: float, azimuth1_deg: float, altitude2_deg: float, azimuth2_deg: float) -> float:
    """Return the angle between two directions, arcseconds, by astropy."""
    one = SkyCoord(azimuth1_deg * u.deg, altitude1_deg * u.deg)
    return float(one.separation(SkyCoord(azimuth2_deg * u.deg, altitude2_deg * u.deg)).arcsec)
