"""Units of light: magnitudes per square arcsecond, nanolamberts, candelas per square metre, lux."""

from __future__ import annotations

import math
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]
"""Numbers of any shape; every function here takes and returns them element by element."""

_LUX_OF_MAGNITUDE_0 = 10.0 ** (-0.4 * 13.99)  # m = -2.5 log lux - 13.99: Crumey 2014 (MNRAS 442, 2600), section 1.2, V = 0 is 2.54e-6 lux
_MAG_OF_1_CD_M2 = 12.58  # the same zero point spread over a square arcsecond; as Crumey rounds it
_CD_M2_OF_1_NANOLAMBERT = 1e-5 / math.pi  # by definition of the lambert, 1e4 / pi candelas per square metre


def nanolamberts(mag_arcsec2: Floats | float) -> Floats:
    """Return a V surface brightness in nanolamberts: Krisciunas and Schaefer 1991 (PASP 103, 1033), equation 1."""
    return np.asarray(34.08 * np.exp(20.7233 - 0.92104 * np.asarray(mag_arcsec2)))


def mag_arcsec2(nanolamberts: Floats | float) -> Floats:
    """Return nanolamberts, above 0, as V magnitudes per square arcsecond: the same equation, solved."""
    return np.asarray((20.7233 - np.log(np.asarray(nanolamberts) / 34.08)) / 0.92104)


def candelas_m2(mag_arcsec2: Floats | float) -> Floats:
    """Return a V surface brightness in candelas per square metre: Crumey 2014, section 1.2."""
    return np.asarray(10.0 ** (0.4 * (_MAG_OF_1_CD_M2 - np.asarray(mag_arcsec2))))


def candelas_m2_of_nanolamberts(nanolamberts: Floats | float) -> Floats:
    """Return nanolamberts in candelas per square metre."""
    return np.asarray(nanolamberts) * _CD_M2_OF_1_NANOLAMBERT


def magnitude_of_lux(lux: Floats | float) -> Floats:
    """Return the V magnitude of a light that gives that many lux, above 0."""
    return np.asarray(-2.5 * np.log10(np.asarray(lux) / _LUX_OF_MAGNITUDE_0))


def steradians(length_arcmin: Floats | float, width_arcmin: Floats | float) -> Floats:
    """Return the area of an ellipse on the sky from its two axes in arcminutes."""
    return np.asarray(math.pi / 4.0 * np.asarray(length_arcmin) * np.asarray(width_arcmin) * math.radians(1.0 / 60.0) ** 2)
