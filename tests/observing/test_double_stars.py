"""Which double stars a telescope splits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.equipment import Eyepiece
from companion.observing import Telescope, closest_arcsec, splits

INCH_MM = 25.4


@pytest.mark.parametrize(("aperture_mm", "printed"), [(88.9, 116.0 / 88.9), (4.0 * INCH_MM, 1.14), (10.0 * INCH_MM, 0.456)])
def test_dawes(aperture_mm: float, printed: float) -> None:
    """In steady air equal stars are split down to Dawes's 116 mm, 4.56 inches (Sky & Telescope, June 2019, page 36)."""
    assert float(closest_arcsec(aperture_mm, 0.0, seeing_arcsec=0.0)) == pytest.approx(printed, rel=0.005)


def test_polaris() -> None:
    """Two inches of good glass just show the companion of Polaris, 18.4 arcseconds off: Dawes, in Scientific American Supplement 832."""
    assert float(closest_arcsec(2.0 * INCH_MM, 9.1 - 2.0, seeing_arcsec=0.0)) == pytest.approx(18.4, rel=0.06)


@pytest.mark.parametrize(("brighter", "fainter", "printed"), [(6.2, 9.5, 16.5), (4.7, 10.4, 36.0)])
def test_lewis(brighter: float, fainter: float, printed: float) -> None:
    """Lewis's means of what was measured, arcseconds an inch, are wider than our limit, by less than half as much again.

    The Observatory 37 (1914) 378; values from memory, as is that they are means over pairs rather than the closest ones.
    """
    closest = float(closest_arcsec(INCH_MM, fainter - brighter, seeing_arcsec=0.0))
    assert closest < printed < 1.6 * closest


# Separations and magnitudes as catalogues have them. Common practice, no published source.
PAIRS = (
    ("Albireo", 34.6, 3.1, 5.1, 60.0, True),
    ("the Double-Double's halves", 2.3, 5.2, 5.3, 80.0, True),
    ("the Double-Double's halves", 2.3, 5.2, 5.3, 40.0, False),
    ("Izar", 2.9, 2.6, 4.8, 130.0, True),
    ("Antares", 2.6, 1.1, 5.4, 80.0, False),
    ("Polaris", 18.4, 2.0, 9.1, 80.0, True),
    ("Sirius", 11.0, -1.5, 8.4, 80.0, False),
)


@pytest.mark.parametrize(("_", "separation", "brighter", "fainter", "aperture_mm", "split"), PAIRS)
def test_pairs_observers_know(_: str, separation: float, brighter: float, fainter: float, aperture_mm: float, split: bool) -> None:
    """With power enough, seven well-known pairs are split or not as observers know."""
    telescope = Telescope(aperture_mm, 1200.0)
    ratio = splits(np.array([separation]), np.array([fainter - brighter]), telescope, [Eyepiece(6.0)], seeing_arcsec=1.5)
    assert (float(ratio[0, 0]) >= 1.0) == split


def test_too_little_power_splits_nothing() -> None:
    """A pair wide for the telescope stays one star where the eyepiece shows it narrower than the eye splits."""
    ratio = splits(np.array([3.0]), np.array([0.0]), Telescope(100.0, 1000.0), [Eyepiece(40.0), Eyepiece(10.0)])
    assert ratio[0, 0] < 1.0 < ratio[0, 1]


@given(st.floats(40.0, 600.0), st.floats(0.0, 8.0), st.floats(0.0, 6.0), st.floats(0.0, 2.0))
def test_what_never_helps(aperture_mm: float, difference_mag: float, seeing_arcsec: float, more: float) -> None:
    """Less aperture, worse air and a larger difference never split a closer pair; which star is named first is all one."""
    closest = closest_arcsec(aperture_mm, difference_mag, seeing_arcsec)
    assert closest_arcsec(aperture_mm / (1.0 + more), difference_mag, seeing_arcsec) >= closest
    assert closest_arcsec(aperture_mm, difference_mag + more, seeing_arcsec) >= closest
    assert closest_arcsec(aperture_mm, difference_mag, seeing_arcsec + more) >= closest
    assert closest_arcsec(aperture_mm, -difference_mag, seeing_arcsec) == closest
