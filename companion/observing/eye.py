"""The faintest thing an eye sees against a background: the threshold model of Crumey 2014 (MNRAS 442, 2600; arXiv 1405.4209).

A uniform patch of any size, on anything from a black to a daylight background. Equation numbers are that paper's; its text could not be
read here: equations and coefficients are as four independent transcriptions give them (one of the four has other figures for equation
40, which don't meet equations 37 and 38 as they must), checked against figures the paper prints.

Magnitudes are as from the ground with the object at the zenith, as in that paper's own examples, which set catalogue magnitudes against
the limit: the air at the zenith is within the field factor. Lower down the caller adds ``companion.sky.dimming_mag``.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from companion.observing.surface_brightness import Floats, candelas_m2, magnitude_of_lux, steradians

# Equation 28, of the Ricco factor R (equation 25), steradians; equation 40, of the contrast of a large target (equation 39).
_RICCO = (5.949e-8, -2.389e-7, 2.459e-7, 4.120e-4, -4.225e-4)
_LARGE = (9.606e-6, -4.112e-5, 5.019e-5, 4.837e-3, -4.884e-3)

BLACK_CD_M2 = 1e-5
"""A background no brighter is as good as black: the threshold light stays what it is there (section 2.3, equations 45 to 52)."""

# Where the light needed for a point stops growing with the background, until 0.065 cd/m2: a dip of 0.03 mag in equation 34, an artefact
# of joining two fits. The limit is held across it, so that a brighter sky never helps.
_DIP_CD_M2 = 0.0217


@dataclass(frozen=True)
class Eye:
    """An observer's dark-adapted eye."""

    pupil_mm: float = 6.5
    """Its pupil in the dark: 7 exp(-(age / 100)^2 / 2), so about 40 years; Schaefer 1990 (PASP 102, 212), value from memory."""
    field_factor: float = 2.0
    """By how much more light than in Blackwell's laboratory it needs: 1.4 (keen) to 2.4; 2 is Crumey's typical observer (section 3.1)."""


def contrast_threshold(area_sr: Floats | float, background_cd_m2: Floats | float) -> Floats:
    """Return the least contrast, patch over background, that is seen half of the time in the laboratory: equation 41.

    ``area_sr`` is the patch's area as the eye sees it, above 0. The arrays are broadcast.
    """
    background = np.maximum(background_cd_m2, BLACK_CD_M2)
    exponent = _joining_exponent(background)
    relative = ricco_area_sr(background) / np.asarray(area_sr)
    return np.asarray(_large_contrast(background) * (1.0 + relative**exponent) ** (1.0 / exponent))


def threshold_lux(area_sr: Floats | float, background_cd_m2: Floats | float) -> Floats:
    """Return the least light of a patch, lux at the eye, that is seen half of the time in the laboratory; an area of 0 is a point.

    Equation 34 for a point; it grows with the area and never falls as the background grows.
    """
    background = np.maximum(background_cd_m2, BLACK_CD_M2)
    exponent = _joining_exponent(background)
    relative = np.asarray(area_sr) / ricco_area_sr(background)
    return np.asarray(background * _ricco_factor_sr(background) * (1.0 + relative**exponent) ** (1.0 / exponent))


def ricco_area_sr(background_cd_m2: Floats | float) -> Floats:
    """Return the area below which only the whole light counts, above which only the surface brightness does: equation 22."""
    background = np.maximum(background_cd_m2, BLACK_CD_M2)
    return _ricco_factor_sr(background) / _large_contrast(background)


def naked_eye_limit_mag(sky_mag_arcsec2: Floats | float, eye: Eye, length_arcmin: float = 0.0, width_arcmin: float = 0.0) -> Floats:
    """Return the faintest magnitude both eyes see on that sky: of a star, or of a uniform patch of those axes (equations 53, 62)."""
    threshold = threshold_lux(steradians(length_arcmin, width_arcmin), candelas_m2(sky_mag_arcsec2))
    return magnitude_of_lux(eye.field_factor * threshold)


def _ricco_factor_sr(background_cd_m2: Floats) -> Floats:
    """Return contrast times area for a small patch: equations 25 and 28, its dip bridged."""
    held = _hyperbola(np.asarray(_DIP_CD_M2), _RICCO) ** 2 * _DIP_CD_M2 / background_cd_m2
    bridge = np.where(background_cd_m2 > _DIP_CD_M2, held, 0.0)
    return np.asarray(np.maximum(_hyperbola(background_cd_m2, _RICCO) ** 2, bridge))


def _large_contrast(background_cd_m2: Floats) -> Floats:
    """Return the threshold contrast of a patch so large that its size no longer matters: equations 39 and 40."""
    return _hyperbola(background_cd_m2, _LARGE)


def _hyperbola(background_cd_m2: Floats, coefficients: tuple[float, ...]) -> Floats:
    """Return the curve that joins the dark-adapted eye's law to the light-adapted one's, over B to the power -1/4."""
    one, two, three, four, five = coefficients
    x = background_cd_m2**-0.25
    return np.asarray(np.sqrt(one * x * x + two * x + three) + four * x + five)


def _joining_exponent(background_cd_m2: Floats) -> Floats:
    """Return q, how sharply small and large targets' laws meet: equations 42 to 44."""
    log = np.log10(background_cd_m2)
    return np.asarray(np.where(log < np.log10(3.40), np.maximum(0.6, 0.8861 + 0.4 * log), 1.146 - 0.0885 * log))
