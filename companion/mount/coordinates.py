"""Between what a mount points at and the sky: right ascension and declination of the day or of J2000, and the horizon. Airless.

Of the day means apparent places at the site, on the true equator and equinox, with aberration: what drivers call topocentric.
"""

from __future__ import annotations

import numpy as np

from companion.mount.values import Epoch, Equatorial, Horizontal
from companion.sky import Body, Moment
from companion.sky.airless_directions import fixed_body, local_sidereal_deg, standing, standing_of_date
from companion.sky.attitude import Floats, azimuth_altitude, direction, horizon_to_hour_angle
from companion.sky.ephemeris import apparent, astrometric, instant
from companion.sky.positions import target

_ROUNDS = 3
"""Of the way back from an apparent place: aberration is 20 arcseconds, so each round leaves a ten-thousandth of the error before."""


def horizontal_of(pointing: Equatorial, moment: Moment) -> Horizontal:
    """Return where a right ascension and declination stand over the moment's site. An epoch that isn't told is taken as of the day."""
    if pointing.epoch == "J2000":
        vector = standing(moment.site, [fixed_body(pointing.ra_deg, pointing.dec_deg)], [moment.time])[0]
    else:
        vector = standing_of_date(moment.site, pointing.ra_deg, pointing.dec_deg, moment.time)
    azimuth_deg, altitude_deg = azimuth_altitude(vector)
    return Horizontal(float(altitude_deg), float(azimuth_deg))


def equatorial_of(pointing: Horizontal, moment: Moment, epoch: Epoch) -> Equatorial:
    """Return the right ascension and declination that stand there at that moment: the inverse of ``horizontal_of``."""
    hour_angle_deg, dec_deg = horizon_to_hour_angle(pointing.azimuth_deg, pointing.altitude_deg, moment.site.latitude_deg)
    ra_deg = (local_sidereal_deg(moment.site, moment.time) - float(hour_angle_deg)) % 360.0
    return _in_epoch(ra_deg, float(dec_deg), moment, epoch)


def place_of(body: Body, moment: Moment, epoch: Epoch) -> Equatorial:
    """Return the right ascension and declination to send a mount of that epoch to for a body, also for one that moves."""
    when = instant(moment.time)
    if epoch == "J2000":
        right_ascension, declination, _ = astrometric(moment.site, target(body), when).radec()
    else:
        right_ascension, declination, _ = apparent(moment.site, target(body), when).radec("date")
    return Equatorial(float(right_ascension.hours) * 15.0 % 360.0, float(declination.degrees), epoch)


def _in_epoch(ra_deg: float, dec_deg: float, moment: Moment, epoch: Epoch) -> Equatorial:
    """Return a place of the day as one of the epoch wanted."""
    if epoch == "of_date":
        return Equatorial(ra_deg, dec_deg, epoch)
    wanted = direction(ra_deg, dec_deg)
    to_icrs = instant(moment.time).M.T  # from the equator and equinox of the day
    guess = to_icrs @ wanted
    for _ in range(_ROUNDS):
        shown = place_of(_body_at(guess), moment, "of_date")
        guess = guess + to_icrs @ (wanted - direction(shown.ra_deg, shown.dec_deg))
        guess /= np.linalg.norm(guess)
    place = _body_at(guess).place
    assert place is not None
    return Equatorial(place.ra_deg, place.dec_deg, "J2000")


def _body_at(icrs: Floats) -> Body:
    """Return a body in the direction of a unit vector, shape (3,), of the ICRS."""
    ra_deg, dec_deg = azimuth_altitude(icrs)
    return fixed_body(float(ra_deg), float(dec_deg))
