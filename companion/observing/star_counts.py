"""How faint a star the eye sees, from how many it sees inside a figure of bright stars.

The way meteor observers judge their sky: the corners don't count, only what lies between them. The catalogue is that of the finder's
stars, complete to magnitude 6; who sees more than all of it sees a sky as dark as the darkest we tell apart.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from companion.observing.surface_brightness import Floats
from companion.sky import MOON, Body, Moment, Place, Sight, dimming_mag, find, finder_stars, separation_deg, sight, sights

_HIGHEST_FIRST_DEG, _LOWEST_CORNER_DEG = 45.0, 30.0  # the middle stands so high, every corner so; judgement
_OFF_THE_MOON_DEG = 40.0  # judgement
_BEYOND_MAG = 0.3  # how far beyond the last star counted, or before the first, the limit is taken to lie; judgement
_SAME_STAR = 1e-3  # what is no farther inside than that, in radians, is a corner


@dataclass(frozen=True)
class Figure:
    """A figure of bright stars, by the names of its corners in order round it."""

    corners: tuple[str, ...]

    @property
    def middle(self) -> Body:
        """A place in its middle."""
        x, y, z = self._corners().sum(axis=0)
        ra_deg, dec_deg = np.degrees(np.arctan2(y, x)) % 360.0, np.degrees(np.arctan2(z, np.hypot(x, y)))
        return Body("there", "star", place=Place(float(ra_deg), float(dec_deg)))

    def magnitudes(self) -> Floats:
        """Return the V magnitudes of the stars inside, down to 6, brightest first, shape (N,)."""
        corners = self._corners()
        ra_deg, dec_deg, magnitude = finder_stars()
        stars = _vectors(ra_deg, dec_deg)
        normals = np.cross(corners, np.roll(corners, -1, axis=0))
        sides = stars @ (normals / np.linalg.norm(normals, axis=1, keepdims=True)).T
        turn = np.sign(np.sum(normals @ corners.sum(axis=0)))
        return np.sort(magnitude[(turn * sides > _SAME_STAR).all(axis=1)])

    def _corners(self) -> Floats:
        places = [find(name).place for name in self.corners]
        known = [place for place in places if place is not None]
        return _vectors(np.array([place.ra_deg for place in known]), np.array([place.dec_deg for place in known]))


FIGURES = tuple(
    Figure(tuple(corners.split(", ")))
    for corners in (
        "Alpheratz, Scheat, Markab, Algenib",
        "Capella, Menkalinan, Mahasim, Elnath, Hassaleh",
        "Castor, Pollux, Alhena, Tejat",
        "Regulus, Algieba, Zosma, Denebola",
        "Alkaid, Cor Caroli, Arcturus",
        "Dubhe, Kochab, Polaris",
        "Vega, Deneb, Albireo",
        "Altair, Enif, Sadalsuud",
        "Zubeneschamali, Zubenelgenubi, Antares",
        "Peacock, Alnair, Atria",
        "Fomalhaut, Diphda, Ankaa",
        "Sirius, Arneb, Phact",
        "Hadar, Menkent, Gacrux",
    )
)
"""Figures of stars people know, all round the sky, with enough between their corners to tell skies apart. Judgement."""


def figure_to_count(moment: Moment, hidden: Callable[[Sight], bool]) -> Figure | None:
    """Return the figure that stands highest, well above horizon and trees and away from a Moon that is up; None where none does."""
    moon = sight(MOON, moment, refraction=False)
    best, best_deg = None, _HIGHEST_FIRST_DEG
    for figure in FIGURES:
        middle = sight(figure.middle, moment, refraction=False)
        if middle.altitude_deg < best_deg or (moon.altitude_deg > 0.0 and separation_deg(middle, moon) < _OFF_THE_MOON_DEG):
            continue
        corners = sights([find(name) for name in figure.corners], moment)
        if all(corner.altitude_deg >= _LOWEST_CORNER_DEG and not hidden(corner) for corner in corners):
            best, best_deg = figure, middle.altitude_deg
    return best


def faintest_seen_mag(figure: Figure, count: int, moment: Moment) -> float:
    """Return the faintest star's magnitude at the zenith, by catalogue, for who counts so many inside a figure at that moment.

    Half way between the faintest that is seen and the brightest that isn't; what the air takes more there than at the zenith is added.
    """
    inside = figure.magnitudes()
    bounds = np.concatenate(([inside[0] - _BEYOND_MAG], inside, [inside[-1] + _BEYOND_MAG]))
    seen = min(count, len(inside))
    limit_mag = float(bounds[seen] + bounds[seen + 1]) / 2.0
    return limit_mag + dimming_mag(sight(figure.middle, moment, refraction=False).altitude_deg)


def _vectors(ra_deg: Floats, dec_deg: Floats) -> Floats:
    """Return N directions as unit vectors, shape (N, 3)."""
    ra, dec = np.radians(ra_deg), np.radians(dec_deg)
    return np.stack((np.cos(dec) * np.cos(ra), np.cos(dec) * np.sin(ra), np.sin(dec)), axis=-1)
