"""What the bare eye sees: against the figures Crumey prints, and against Blackwell's measurements themselves."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.observing import Eye, naked_eye_limit_mag
from companion.observing.eye import contrast_threshold, ricco_area_sr, threshold_lux
from companion.observing.surface_brightness import candelas_m2, magnitude_of_lux, steradians

AREAS = st.floats(1e-10, 0.01)
BACKGROUNDS = st.floats(-7.0, 4.0).map(lambda log: 10.0**log)

# Blackwell 1946 (Journal of the Optical Society of America 36, 624), table VIII as Clark 1990 has it (appendix E; read in five programs
# that carry it): log10 of the threshold contrast for discs of these diameters, by the background's mag per square arcsecond.
DISCS_ARCMIN = np.array([0.595, 3.60, 9.68, 18.2, 55.2, 121.0, 360.0])
BLACKWELL = {
    4.0: (-0.3769, -1.8064, -2.3368, -2.4601, -2.5469, -2.5610, -2.5660),
    8.0: (-0.1238, -1.6252, -2.2791, -2.4462, -2.5463, -2.5597, -2.5646),
    12.0: (0.2934, -1.2256, -1.9674, -2.1965, -2.3631, -2.4092, -2.4318),
    16.0: (1.1558, -0.3952, -1.1264, -1.4176, -1.7300, -1.8727, -2.0034),
    18.0: (1.8559, 0.3458, -0.4924, -0.8561, -1.2661, -1.4721, -1.6624),
    20.0: (2.6760, 1.0880, 0.2060, -0.3210, -0.8800, -1.1370, -1.3620),
    22.0: (2.9304, 1.3821, 0.5353, 0.0328, -0.5605, -0.8606, -1.1187),
    24.0: (3.4643, 1.9034, 1.0338, 0.4943, -0.2033, -0.5259, -0.8288),
}


@pytest.mark.parametrize("background", BLACKWELL)
def test_blackwells_measurements(background: float) -> None:
    """From daylight to the darkest sky and from 0.6 arcminutes to 6 degrees the threshold is Blackwell's within 0.2 in the logarithm."""
    threshold = contrast_threshold(steradians(DISCS_ARCMIN, DISCS_ARCMIN), candelas_m2(background))
    assert np.log10(threshold) == pytest.approx(np.array(BLACKWELL[background]), abs=0.2)


@pytest.mark.parametrize(
    ("sky", "field_factor", "printed"),
    [
        (21.83, 1.0, 6.93),  # Crumey 2014, section 3.1, equation 53
        (21.83, 2.0, 6.18),  # the same, his typical observer
        (21.83, 1.378, 6.59),  # section 3.1: the star's limit of who just sees M 33
        (19.2, 2.0, 5.2),  # section 3.1: the limit at which M 31 shows
    ],
)
def test_stars_as_printed(sky: float, field_factor: float, printed: float) -> None:
    """The faintest star under a sky is what Crumey prints, within 0.07 mag: he rounds and uses his simpler curve for dark skies."""
    assert float(naked_eye_limit_mag(sky, Eye(field_factor=field_factor))) == pytest.approx(printed, abs=0.07)


@pytest.mark.parametrize("sky", [20.0, 20.5, 21.0, 21.5, 22.0])
def test_stars_by_the_straight_line(sky: float) -> None:
    """Between 20 and 22 the limit is 0.3834 mu - 1.4400 - 2.5 log F: Crumey's equation 54."""
    assert float(naked_eye_limit_mag(sky, Eye(field_factor=2.0))) == pytest.approx(0.3834 * sky - 1.4400 - 2.5 * math.log10(2.0), abs=0.05)


@pytest.mark.parametrize("sky", [18.5, 19.5, 20.5, 21.5])
def test_large_surfaces_by_the_straight_line(sky: float) -> None:
    """A surface without end shows down to 0.6864 mu + 9.9325 - 2.5 log F: Crumey's equation 57, within 0.13 mag.

    His line is of the simpler curve for dark skies; ours joins it to daylight's, and the two differ most in the brightest.
    """
    endless_arcmin = 1e6
    faintest = float(naked_eye_limit_mag(sky, Eye(field_factor=1.0), endless_arcmin, endless_arcmin))
    per_arcsec2 = faintest + 2.5 * math.log10(math.pi / 4.0 * (60.0 * endless_arcmin) ** 2)
    assert per_arcsec2 == pytest.approx(0.6864 * sky + 9.9325, abs=0.13)


@pytest.mark.parametrize("sky", [21.0, 21.5, 21.83, 22.0])
def test_the_size_where_points_end(sky: float) -> None:
    """Ricco's radius is 5.21 mu - 76.2 arcminutes between 21 and 22: Crumey's equation 63; 37.6 at 21.83 (section 3.1)."""
    radius_arcmin = math.degrees(math.sqrt(float(ricco_area_sr(candelas_m2(sky))) / math.pi)) * 60.0
    assert radius_arcmin == pytest.approx(5.21 * sky - 76.2, rel=0.03)


def test_a_black_background() -> None:
    """On black a point needs 1.150e-9 lux (Crumey, equation 71) and an endless surface a contrast of 0.1286 with 1e-5 cd/m2 (52)."""
    for background in (0.0, 1e-7, 1e-5):
        assert float(threshold_lux(0.0, background)) == pytest.approx(1.150e-9, rel=0.02)
        assert float(contrast_threshold(math.pi, background)) == pytest.approx(0.1286, rel=0.05)


@pytest.mark.parametrize("sky", [21.0, 21.5, 21.83, 22.0])
def test_the_triangulum_galaxy(sky: float) -> None:
    """What shows of M 33, 18.7' in radius and of 5.93 mag, is just seen where F is 0.5482 mu - 10.585: Crumey 2014, section 3.1."""
    eye = Eye(field_factor=0.5482 * sky - 10.585)
    assert float(naked_eye_limit_mag(sky, eye, 37.4, 37.4)) == pytest.approx(5.93, abs=0.05)


def test_by_day() -> None:
    """At noon Venus (-4.4) shows to who knows where it is, near sunset it is easy, and Sirius (-1.5) never does while the Sun is high.

    Common practice, no published source.
    """
    noon = float(naked_eye_limit_mag(4.0, Eye()))
    assert -4.4 < noon < -1.5


@given(AREAS, BACKGROUNDS, st.floats(1.0, 1.2))
def test_a_brighter_background_never_helps(area_sr: float, background: float, factor: float) -> None:
    """The light needed never falls as the background grows, nor, by more than rounding, the contrast needed rises."""
    assert threshold_lux(area_sr, background * factor) >= threshold_lux(area_sr, background) * (1.0 - 1e-12)
    assert contrast_threshold(area_sr, background * factor) <= contrast_threshold(area_sr, background) * (1.0 + 1e-12)


@given(AREAS, BACKGROUNDS, st.floats(1.0, 10.0))
def test_spreading_light_never_helps(area_sr: float, background: float, factor: float) -> None:
    """A larger patch needs more light, but less contrast."""
    assert threshold_lux(area_sr * factor, background) >= threshold_lux(area_sr, background)
    assert contrast_threshold(area_sr * factor, background) <= contrast_threshold(area_sr, background)


@given(AREAS, BACKGROUNDS.filter(lambda background: background >= 1e-5))
def test_light_is_contrast_times_surface(area_sr: float, background: float) -> None:
    """The two thresholds are one law: light is background times area times contrast."""
    assert float(threshold_lux(area_sr, background)) == pytest.approx(
        background * area_sr * float(contrast_threshold(area_sr, background)), rel=1e-9
    )


@given(AREAS, BACKGROUNDS)
def test_the_threshold_has_no_steps(area_sr: float, background: float) -> None:
    """A background brighter by a ten-thousandth changes the limit by less than two thousandths of a magnitude."""
    here, there = (float(magnitude_of_lux(threshold_lux(area_sr, background * factor))) for factor in (1.0, 1.0001))
    assert abs(here - there) < 2e-3
