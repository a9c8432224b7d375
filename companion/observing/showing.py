"""How well each candidate shows at one moment: its margin over the eye's limit with its best eyepiece, and what that is worth.

All numbers that say what something is worth are judgement, tuned on the evenings of ``tests/observing/must_sees.py``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from companion.observing.double_stars import splits
from companion.observing.outfit import Outfit
from companion.observing.planets import planet_view
from companion.observing.showpieces import Showpiece
from companion.observing.sky_brightness import Lamps, SiteSky, sky_brightness
from companion.observing.surface_brightness import Floats, steradians
from companion.observing.telescope import (
    AIRY_FWHM_ARCSEC_MM,
    FRAMING,
    Glows,
    best_eyepieces,
    exit_pupil_mm,
    limits_mag,
    magnification,
    margins_mag,
    true_field_deg,
)
from companion.sky import Moment, Sight
from companion.sky.night import SUNSET_DEG
from companion.sky.visibility import air_mass

SEEING_ARCSEC = 2.0
"""Of an ordinary night: common practice, no published source."""
CLUSTER_STARS_MAG = 4.5
"""A cluster's stars are seen singly when those this much fainter than its whole light are. Judgement."""
BY_DAY_MAG = -3.0
"""While the Sun is up nothing fainter can be found, but for the Moon: common practice, no published source."""

BRIGHT_MAG_ARCSEC2, DARK_MAG_ARCSEC2 = 18.0, 20.5
"""Overhead: a sky in which stars, planets and the Moon are what there is to see, and one whose glows come first."""

_STARS = ("double star", "carbon star", "variable star", "star")
_SPLIT_WELL = 1.3  # pairs so many times as wide as need be need no more power
_PLANET_BEAM_MM, _PLANET_POWER = 0.7, 250.0  # a thinner beam, and more power, only blur a planet

# What a margin is worth, magnitudes; what a pair is, in closest pairs split; the Moon by its lit part; a disc in arcseconds.
_MARGIN_MAG, _MARGIN_WORTH = (0.0, 0.5, 1.0, 2.0, 3.0), (0.05, 0.25, 0.45, 0.85, 1.0)
_SPLIT_TIMES, _SPLIT_WORTH = (1.0, 1.5, 2.5), (0.5, 0.85, 1.0)
_LIT, _LIT_WORTH = (0.0, 0.03, 0.2, 0.85, 1.0), (0.0, 0.4, 1.0, 1.0, 0.7)
_DISC_ARCSEC, _DISC_WORTH = (2.0, 4.0, 8.0, 15.0), (0.5, 0.6, 0.8, 1.0)
# The aperture over the one from which it begins to be worth the look; the widest field over the one that suits it.
_APERTURE_TIMES, _APERTURE_WORTH = (0.5, 1.0, 2.0), (0.4, 0.85, 1.0)
# By how many doublings it surpasses that one.
_WASTED_DOUBLINGS, _WASTED_WORTH = (1.0, 2.5), (1.0, 0.6)


@dataclass(frozen=True)
class Showing:
    """How N candidates show at one moment: arrays of shape (N,)."""

    margin_mag: Floats
    """By how much each is above what is just seen, of a pair its fainter star; NaN where its brightness is unknown."""
    eyepiece: NDArray[np.intp]
    """Which eyepiece shows it best."""
    worth: Floats
    """How well it shows, 0..1; 0 where it can't be seen or not be split."""


class Shower:
    """Knows what doesn't change with the hour about N candidates in one outfit."""

    def __init__(self, candidates: Sequence[Showpiece], outfit: Outfit, moment: Moment) -> None:
        """Work out sizes, and how well the pairs are split."""
        self._outfit = outfit
        self._scope, self._eyepieces = outfit.telescope, outfit.eyepieces
        bodies = [candidate.body for candidate in candidates]
        self._is_star = np.array([body.kind in _STARS for body in bodies])
        self._is_planet = np.array([body.kind == "planet" for body in bodies])
        self._is_moon = np.array([body.kind == "moon" for body in bodies])
        self._is_cluster = np.array([body.kind == "open cluster" for body in bodies])
        self._doubles = [candidate.double for candidate in candidates]
        self._is_double = np.array([double is not None for double in self._doubles])
        glows = ~(self._is_star | self._is_planet)
        length = np.array([body.size_arcmin or 0.0 for body in bodies])
        width = np.array([body.width_arcmin or body.size_arcmin or 0.0 for body in bodies])
        self._length, self._width = np.where(glows, length, 0.0), np.where(glows, width, 0.0)
        self._inner = np.array([candidate.inner_share for candidate in candidates])
        # The fainter star of a pair is what must be seen.
        self._fixed_mag = np.array([_fixed_mag(candidate) for candidate in candidates])
        self._field = np.array([candidate.field_arcmin for candidate in candidates])
        self._split = self._splits(candidates)
        self._lasting_worth = self._worth_in_outfit(candidates) * np.array([_look_worth(candidate, moment) for candidate in candidates])
        self._wasted = self._wasted_light(candidates)

    def showing(self, sights: Sequence[Sight], lamps: Lamps, sky: SiteSky) -> Showing:
        """Return how the candidates show where they stand, in the order given to the constructor."""
        altitude = np.array([seen.altitude_deg for seen in sights])
        dimming = sky.extinction_mag * (np.array([air_mass(seen.altitude_deg) for seen in sights]) - 1.0)
        told = np.array([np.nan if seen.magnitude is None else seen.magnitude for seen in sights])
        magnitude = np.where(np.isnan(self._fixed_mag), told, self._fixed_mag) + dimming
        brightness = sky_brightness(sky, lamps, altitude, np.array([seen.azimuth_deg for seen in sights]))
        margins = self._margins(magnitude, brightness)
        chosen = self._chosen(margins)
        margin = np.take_along_axis(margins, chosen[:, np.newaxis], axis=1)[:, 0]
        overhead = float(sky_brightness(sky, lamps, 90.0, 0.0))
        wasted = self._wasted
        if overhead < DARK_MAG_ARCSEC2:
            # In a bright sky a large telescope has nothing better to do than stars.
            share = np.interp(overhead, (BRIGHT_MAG_ARCSEC2, DARK_MAG_ARCSEC2), (0.0, 1.0))
            wasted = np.where(self._is_star, 1.0 - share * (1.0 - wasted), wasted)
        worth = np.interp(margin, _MARGIN_MAG, _MARGIN_WORTH) * self._lasting_worth * wasted
        split = np.take_along_axis(self._split, chosen[:, np.newaxis], axis=1)[:, 0]
        worth *= np.where(self._is_double, np.where(split < 1.0, 0.0, np.interp(split, _SPLIT_TIMES, _SPLIT_WORTH)), 1.0)
        # Of what nobody has told the brightness, half is hoped.
        worth = np.where(np.isnan(margin), 0.5, np.where(margin <= 0.0, 0.0, worth))
        if lamps.sun_altitude_deg > SUNSET_DEG:
            worth = np.where(self._is_moon | (magnitude < BY_DAY_MAG), worth, 0.0)
        return Showing(margin, chosen, worth)

    def _margins(self, magnitude: Floats, brightness: Floats) -> Floats:
        """Return the margins with each eyepiece, shape (N, E)."""
        glows = Glows(magnitude, self._length, self._width, self._inner)
        as_glow = margins_mag(glows, brightness, self._scope, self._eyepieces, self._outfit.eye)
        blur_arcmin = np.hypot(SEEING_ARCSEC, AIRY_FWHM_ARCSEC_MM / self._scope.aperture_mm) / 60.0
        area = steradians(blur_arcmin, blur_arcmin).reshape(1, 1)
        as_point = limits_mag(area, brightness, self._scope, self._eyepieces, self._outfit.eye) - magnitude[:, np.newaxis]
        points = (self._is_star | self._is_planet)[:, np.newaxis]
        stars_of_it = np.where(self._is_cluster[:, np.newaxis], as_point - CLUSTER_STARS_MAG, -np.inf)
        return np.where(points, as_point, np.maximum(as_glow, stars_of_it))

    def _chosen(self, margins: Floats) -> NDArray[np.intp]:
        """Return which eyepiece shows each best, shape (N,)."""
        power = magnification(self._scope, self._eyepieces)
        best = best_eyepieces(np.nan_to_num(margins), self._field / FRAMING, self._scope, self._eyepieces)
        steady = (exit_pupil_mm(self._scope, self._eyepieces) >= _PLANET_BEAM_MM) & (power <= _PLANET_POWER)
        for_planets = int(np.argmax(np.where(steady, power, -power)))
        # The least power that splits a pair well, else the one that splits it best.
        splits_well = np.minimum(self._split, _SPLIT_WELL)
        for_doubles = np.argmax(np.where(splits_well >= splits_well.max(axis=1, keepdims=True), -power, -np.inf), axis=1)
        low = int(np.argmin(power))
        best = np.where(self._is_star, low, np.where(self._is_planet, for_planets, best))
        return np.where(self._is_double, for_doubles, best).astype(np.intp)

    def _splits(self, candidates: Sequence[Showpiece]) -> Floats:
        """Return how well each pair is split with each eyepiece, shape (N, E); 1 for what is no pair."""
        ratio = np.ones((len(candidates), len(self._eyepieces)))
        doubles = [double for double in self._doubles if double is not None]
        if doubles:
            separation = np.array([double.separation_arcsec for double in doubles])
            difference = np.array([double.companion_vmag - double.primary_vmag for double in doubles])
            ratio[self._is_double] = splits(separation, difference, self._scope, self._eyepieces, SEEING_ARCSEC)
        return ratio

    def _worth_in_outfit(self, candidates: Sequence[Showpiece]) -> Floats:
        """Return what each loses in a small telescope, or in a narrow field, shape (N,), 0..1."""
        times = self._apertures(candidates)
        widest_arcmin = 60.0 * true_field_deg(self._scope, self._eyepieces).max()
        framed = np.sqrt(np.minimum(1.0, widest_arcmin / self._field))
        return np.asarray(np.interp(times, _APERTURE_TIMES, _APERTURE_WORTH) * framed)

    def _wasted_light(self, candidates: Sequence[Showpiece]) -> Floats:
        """Return what each loses in a large telescope under a dark sky, shape (N,), 0..1.

        Such a one is for what a small one doesn't show: stars, and clusters of bright ones, give hardly more in it. The famous pairs are
        shown in every telescope, if not first.
        """
        famous = np.array([candidate.famous for candidate in candidates])
        gains_little = self._is_star | self._is_cluster
        wasted = np.where(gains_little, np.interp(np.log2(self._apertures(candidates)), _WASTED_DOUBLINGS, _WASTED_WORTH), 1.0)
        return np.where(self._is_star & famous, (1.0 + wasted) / 2.0, wasted)

    def _apertures(self, candidates: Sequence[Showpiece]) -> Floats:
        """Return how many times the aperture is the one from which each is worth a look, shape (N,)."""
        return np.asarray(self._scope.aperture_mm / np.array([candidate.from_aperture_mm for candidate in candidates]))


def _fixed_mag(candidate: Showpiece) -> float:
    """Return the magnitude that must be seen; NaN where it changes or isn't known."""
    if candidate.double is not None:
        return candidate.double.companion_vmag
    return np.nan if candidate.body.magnitude is None else candidate.body.magnitude


def _look_worth(candidate: Showpiece, moment: Moment) -> float:
    """Return what the look of the Moon or of a planet gives at that moment, 0..1; 1 for the rest."""
    if candidate.body.kind == "moon":
        return float(np.interp(planet_view(candidate.body, moment).illuminated_fraction, _LIT, _LIT_WORTH))
    if candidate.body.kind == "planet":
        return float(np.interp(planet_view(candidate.body, moment).diameter_arcsec, _DISC_ARCSEC, _DISC_WORTH))
    return 1.0
