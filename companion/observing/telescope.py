"""What a telescope and its eyepieces add to the eye: the telescopic part of Crumey 2014 (MNRAS 442, 2600), equations 65 to 88.

A telescope changes no object's contrast with the sky: both are spread and dimmed alike. It shows the object larger, on a darker
background, and gathers more light. Equation numbers are that paper's (see ``eye``); what is small and uniform needs its whole light seen
(equation 68), what is large its surface brightness, and one curve joins the two (equations 84 and 88).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from companion.equipment import Eyepiece
from companion.observing.eye import Eye, threshold_lux
from companion.observing.surface_brightness import Floats, candelas_m2, magnitude_of_lux, steradians

ONE_EYE_FACTOR = math.sqrt(2.0)
"""How much more light one eye needs than two: Crumey's F_T (section 1.6.4), as Schaefer 1990 has it."""

FRAMING = 1.3
"""How many times its length an object wants as field, to have sky around it. Judgement."""

PLAIN_MAG = 1.5
"""A margin of so much shows an object plainly; more of it is no reason for less power. Judgement."""

THINNEST_BEAM_MM = 1.3
"""A thinner beam shows no more of a glow, and the motes in one's own eye. Judgement."""

_SAME_MARGIN_MAG = 0.05  # eyepieces as near as this show an object alike. Judgement
_HALF_THE_LIGHT_MAG = 2.5 * math.log10(2.0)
_NO_AREA_SR = 1e-30
AIRY_FWHM_ARCSEC_MM = 1.03 * 507e-6 * math.degrees(3600.0)  # 1.03 wavelengths to the aperture, at the dark-adapted eye's 507 nm


@dataclass(frozen=True)
class Telescope:
    """A telescope that is known well enough to compute with."""

    aperture_mm: float
    focal_length_mm: float
    central_obstruction: float = 0.0
    """Diameter of what stands in the middle of the aperture, as a share of it, 0..1."""
    transmission: float = 0.8
    """Share of the light that its glass and mirrors and the eyepiece let through, 0..1. Judgement: Crumey takes 0.75 to 0.95."""

    @property
    def throughput(self) -> float:
        """The share of the aperture's light that comes out: one over Crumey's F_t."""
        return self.transmission * (1.0 - self.central_obstruction**2)


@dataclass(frozen=True)
class Glows:
    """N things whose light is spread out: arrays of shape (N,)."""

    magnitude: Floats
    """Total V magnitude, with what the air takes below the zenith (``companion.sky.dimming_mag``) added."""
    length_arcmin: Floats
    """The longer axis; 0 for a point."""
    width_arcmin: Floats
    """The shorter axis."""
    inner_share: Floats
    """The share of its length and width that holds half of its light: 0.707 for a uniform disc, less for what is brighter in the middle.
    It is seen if either the whole or that inner half is: the bright middle is what one detects (Crumey, section 3.4)."""


def magnification(telescope: Telescope, eyepieces: Sequence[Eyepiece]) -> Floats:
    """Return how many times each eyepiece magnifies, shape (E,)."""
    return telescope.focal_length_mm / np.array([eyepiece.focal_length_mm for eyepiece in eyepieces])


def exit_pupil_mm(telescope: Telescope, eyepieces: Sequence[Eyepiece]) -> Floats:
    """Return the width of the beam that leaves each eyepiece, shape (E,)."""
    return telescope.aperture_mm / magnification(telescope, eyepieces)


def true_field_deg(telescope: Telescope, eyepieces: Sequence[Eyepiece]) -> Floats:
    """Return how much sky each eyepiece shows, shape (E,)."""
    return np.array([eyepiece.apparent_field_deg for eyepiece in eyepieces]) / magnification(telescope, eyepieces)


def limits_mag(area_sr: Floats, sky_mag_arcsec2: Floats | float, telescope: Telescope, eyepieces: Sequence[Eyepiece], eye: Eye) -> Floats:
    """Return the faintest magnitude seen of N uniform patches with each eyepiece, shape (N, E).

    ``area_sr``: their areas on the sky, shape (N, 1), or (N, E) where it depends on the eyepiece; 0 is a point. ``sky_mag_arcsec2``: the
    brightness of the sky outside, one or N. Where the beam is wider than the eye's pupil, the rest of it is lost.
    """
    power = magnification(telescope, eyepieces)
    seen_mm = np.minimum(exit_pupil_mm(telescope, eyepieces), eye.pupil_mm)
    # Equation 66: how bright a surface is to the eye behind the eyepiece.
    dimming = telescope.throughput * (seen_mm / eye.pupil_mm) ** 2
    background = candelas_m2(sky_mag_arcsec2)[..., np.newaxis] * dimming
    at_the_eye = threshold_lux(area_sr * power**2, background)
    # A patch made M times as long and wide and dimmed like the sky brings this much more light to the eye than it has outside.
    return magnitude_of_lux(ONE_EYE_FACTOR * eye.field_factor * at_the_eye / (power**2 * dimming))


def margins_mag(glows: Glows, sky_mag_arcsec2: Floats | float, telescope: Telescope, eyepieces: Sequence[Eyepiece], eye: Eye) -> Floats:
    """Return by how many magnitudes N things are above what is just seen, with each eyepiece: shape (N, E); below 0 they are not seen.

    What is wider than the field shows as much as the field holds.
    """
    field_arcmin = 60.0 * true_field_deg(telescope, eyepieces)
    field_sr = steradians(field_arcmin, field_arcmin)
    whole_sr = steradians(glows.length_arcmin, glows.width_arcmin)
    parts = ((glows.magnitude, whole_sr), (glows.magnitude + _HALF_THE_LIGHT_MAG, whole_sr * glows.inner_share**2))
    margins = []
    for magnitude, area_sr in parts:
        shown_share = np.minimum(1.0, field_sr / np.maximum(area_sr, _NO_AREA_SR)[:, np.newaxis])
        shown_mag = magnitude[:, np.newaxis] - 2.5 * np.log10(shown_share)
        shown_sr = area_sr[:, np.newaxis] * shown_share
        margins.append(limits_mag(shown_sr, sky_mag_arcsec2, telescope, eyepieces, eye) - shown_mag)
    return np.asarray(np.maximum(*margins))


def star_limits_mag(
    sky_mag_arcsec2: float, telescope: Telescope, eyepieces: Sequence[Eyepiece], eye: Eye, seeing_arcsec: float = 2.0
) -> Floats:
    """Return the faintest star seen with each eyepiece, shape (E,): its image is as wide as the air and the aperture make it."""
    width_arcmin = math.hypot(seeing_arcsec, AIRY_FWHM_ARCSEC_MM / telescope.aperture_mm) / 60.0
    area_sr = steradians(width_arcmin, width_arcmin).reshape(1, 1)
    return limits_mag(area_sr, sky_mag_arcsec2, telescope, eyepieces, eye).reshape(-1)


def best_eyepieces(margin_mag: Floats, length_arcmin: Floats, telescope: Telescope, eyepieces: Sequence[Eyepiece]) -> NDArray[np.intp]:
    """Return for N things which of the E eyepieces shows each best, shape (N,), from their margins (N, E) and lengths (N,).

    Of those that frame it (where none does, of the widest), the one with the largest margin. Where several show it plainly, or equally
    well, the one that shows it largest without making the beam too thin.
    """
    field_arcmin = 60.0 * true_field_deg(telescope, eyepieces)
    frames = field_arcmin >= FRAMING * length_arcmin[:, np.newaxis]
    frames |= (field_arcmin == field_arcmin.max()) & ~frames.any(axis=1, keepdims=True)
    framed_mag = np.where(frames, np.minimum(margin_mag, PLAIN_MAG), -np.inf)
    as_good = framed_mag >= framed_mag.max(axis=1, keepdims=True) - _SAME_MARGIN_MAG
    power = magnification(telescope, eyepieces)
    # Too thin a beam comes after all others, the thinnest last.
    preference = np.where(exit_pupil_mm(telescope, eyepieces) >= THINNEST_BEAM_MM, power, -power)
    return np.asarray(np.argmax(np.where(as_good, preference, -np.inf), axis=1))
