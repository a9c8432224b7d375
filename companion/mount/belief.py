"""How far a mount's own idea of the sky may be turned against the true one. Pure."""

from __future__ import annotations

import math

from companion.mount.values import Identity, Settings
from companion.sky import Site, angle_deg

ANYWHERE_DEG = 180.0
SKY_DEG_PER_S = 360.98564736629 / 86_400.0
"""The Earth's turn under the stars: U.S. Naval Observatory Circular 179, equation 2.11."""


def sky_turned_by_deg(settings: Settings, site: Site, ahead_s: float) -> float:
    """Return by how much a wrong clock and a wrong place turn a mount's sky, at most; what it doesn't tell is taken as right.

    ``ahead_s`` is what our own clock has been corrected by since ``settings`` were read. A mount that was aligned all the same has made
    up for some of it, but only where its stars stood.
    """
    clock_deg, place_deg = 0.0, 0.0
    if settings.time_error_s is not None:
        turned_deg = (settings.time_error_s - ahead_s) * SKY_DEG_PER_S
        clock_deg = abs(math.remainder(turned_deg, 360.0))
    if settings.latitude_deg is not None and settings.longitude_deg is not None:
        place_deg = angle_deg(settings.latitude_deg, settings.longitude_deg, site.latitude_deg, site.longitude_deg)
    return min(clock_deg + place_deg, ANYWHERE_DEG)


def uncertainty_deg(aligned_within_deg: float, identity: Identity, settings: Settings, site: Site, ahead_s: float) -> float:
    """Return how far a mount may be from where it says it points, on its way too.

    Axes that aren't azimuth and altitude, or may not be, lead anywhere on the way.
    """
    if identity.is_altazimuth is not True:
        return ANYWHERE_DEG
    return min(aligned_within_deg + sky_turned_by_deg(settings, site, ahead_s), ANYWHERE_DEG)
