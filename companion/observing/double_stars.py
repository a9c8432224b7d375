"""Whether a telescope splits a double star."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from companion.equipment import Eyepiece
from companion.observing.surface_brightness import Floats
from companion.observing.telescope import Telescope, magnification

DAWES_ARCSEC_MM = 116.0
"""Dawes' limit for two equal stars, arcseconds times millimetres of aperture (4.56 inches); Rayleigh's is 138."""

UNEQUAL_DEX_PER_MAG = 0.125
"""The limit grows by this power of ten for each magnitude of difference: to Polaris, 7.1 magnitudes and 18.4 arcseconds, which Dawes held
two good inches to show (Scientific American Supplement 832, 1891). The straight line to there, and on, is ours."""

SEEING_SHARE = 0.5
"""The air blurs two equal stars into one at this share of the seeing disc's width, where they don't wander. Judgement."""

WANDERS_BELOW_MM = 390.0
"""A telescope narrower than this, over the arcseconds of seeing, sees a star wander rather than blur, and the eye follows: 3.5 of Fried's
lengths, where a short exposure is sharpest (Fried 1966, JOSA 56, 1372; value from memory), each 0.98 wavelengths (550 nm) over the seeing.
That the blur grows evenly up to there is ours; where it would grow faster than the aperture gains, one may stop the aperture down."""

EYE_SPLITS_ARCSEC = 150.0
"""What the eye splits easily: two and a half arcminutes behind the eyepiece. Judgement; the sharpest eyes need one."""


def closest_arcsec(aperture_mm: float, difference_mag: Floats | float, seeing_arcsec: float = 2.0) -> Floats:
    """Return how close a pair of that difference in magnitude may be and still be split by the telescope in that air."""
    sharpest_mm = math.sqrt(DAWES_ARCSEC_MM * WANDERS_BELOW_MM / SEEING_SHARE) / seeing_arcsec if seeing_arcsec else math.inf
    used_mm = min(aperture_mm, sharpest_mm)
    blur_arcsec = SEEING_SHARE * seeing_arcsec * used_mm * seeing_arcsec / WANDERS_BELOW_MM
    equal = math.hypot(DAWES_ARCSEC_MM / used_mm, blur_arcsec)
    return np.asarray(equal * 10.0 ** (UNEQUAL_DEX_PER_MAG * np.abs(difference_mag)))


def splits(
    separation_arcsec: Floats, difference_mag: Floats, telescope: Telescope, eyepieces: Sequence[Eyepiece], seeing_arcsec: float = 2.0
) -> Floats:
    """Return how many times as wide as need be N pairs are, with each eyepiece, shape (N, E); below 1 they are not split.

    Both the telescope and, behind the eyepiece, the eye must split them. Whether the fainter star is bright enough is another question.
    """
    by_telescope = separation_arcsec / closest_arcsec(telescope.aperture_mm, difference_mag, seeing_arcsec)
    by_eye = separation_arcsec[:, np.newaxis] * magnification(telescope, eyepieces) / EYE_SPLITS_ARCSEC
    return np.minimum(by_telescope[:, np.newaxis], by_eye)
