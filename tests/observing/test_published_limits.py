"""What can be seen, against the limits Bortle gives for skies from the country to the city: seventeen cases.

J. E. Bortle, "Introducing the Bortle Dark-Sky Scale", Sky & Telescope 101 (2001) 126: limits of the eye and of a 320 mm telescope, and how
the galaxies M 31 and M 33 show to the eye; as tabulated, with the sky's brightness of each class, by R. Ivester (rogerivester.com, 19
October 2023). Further printed cases: ``test_eye.py`` (Crumey, Blackwell) and ``test_telescope.py`` (Crumey, a customary table).
"""

from __future__ import annotations

import numpy as np
import pytest

from companion.equipment import Eyepiece
from companion.observing import Eye, Telescope, naked_eye_limit_mag, star_limits_mag

KEEN = Eye(pupil_mm=7.0, field_factor=1.4)
"""Who wrote the scale had fifty years of practice; Crumey 2014, section 3.1, has such eyes at F = 1.4 and the typical ones at 2."""
TYPICAL = Eye(pupil_mm=7.0)

# The middle of each class's sky, magnitudes per square arcsecond.
COUNTRY, EDGE_OF_COUNTRY, SUBURB, BRIGHT_SUBURB, TOWN, CITY = 21.8, 21.1, 20.0, 19.2, 18.66, 18.2


@pytest.mark.parametrize(
    ("sky", "printed"), [(COUNTRY, 6.75), (EDGE_OF_COUNTRY, 6.25), (SUBURB, 5.75), (BRIGHT_SUBURB, 5.25), (TOWN, 4.75)]
)
def test_the_eye(sky: float, printed: float) -> None:
    """The faintest star by eye, the middle of the printed half magnitude, lies between typical and keen eyes, or within 0.4 mag of one."""
    typical, keen = (float(naked_eye_limit_mag(sky, eye)) for eye in (TYPICAL, KEEN))
    assert typical - 0.4 <= printed <= keen + 0.4


@pytest.mark.parametrize(
    ("sky", "printed"), [(COUNTRY, 16.0), (EDGE_OF_COUNTRY, 15.5), (SUBURB, 14.75), (BRIGHT_SUBURB, 14.25), (TOWN, 14.0), (CITY, 13.0)]
)
def test_a_telescope_of_320_mm(sky: float, printed: float) -> None:
    """At 100 to 190 times the faintest star is the printed one within 0.8 mag; which power Bortle used is not told."""
    telescope = Telescope(320.0, 1500.0, central_obstruction=0.2)
    limits = star_limits_mag(sky, telescope, [Eyepiece(15.0), Eyepiece(8.0)], KEEN)
    assert limits.min() - 0.8 <= printed <= limits.max() + 0.8
    assert limits.min() < limits.max()


def margin_mag(sky: float, whole_mag: float, length_arcmin: float, width_arcmin: float, inner_share: float) -> float:
    """Return by how much a galaxy is above the keen eye's limit: the whole of it, or the inner part with half of its light."""
    whole = naked_eye_limit_mag(sky, KEEN, length_arcmin, width_arcmin) - whole_mag
    inner = naked_eye_limit_mag(sky, KEEN, inner_share * length_arcmin, inner_share * width_arcmin) - whole_mag - 2.5 * np.log10(2.0)
    return float(max(whole, inner))


# Magnitude, length, width and inner share as companion.observing has them.
ANDROMEDA, TRIANGULUM = (3.4, 178.0, 63.0, 0.3), (5.7, 68.7, 41.6, 0.5)


@pytest.mark.parametrize(
    ("sky", "least_mag", "most_mag"), [(SUBURB, 0.5, 2.0), (BRIGHT_SUBURB, 0.5, 2.0), (TOWN, 0.0, 0.5), (CITY, -0.5, 0.3)]
)
def test_the_andromeda_galaxy(sky: float, least_mag: float, most_mag: float) -> None:
    """By eye it is easy in a suburb, also a bright one, difficult in a town, and no longer named in a city, where ours leaves 0.29 mag."""
    assert least_mag < margin_mag(sky, *ANDROMEDA) < most_mag


def test_the_triangulum_galaxy() -> None:
    """By eye it shows in the country, looking aside, and not in a suburb, where the scale no longer names it."""
    assert margin_mag(COUNTRY, *TRIANGULUM) > -0.25
    assert margin_mag(SUBURB, *TRIANGULUM) < -0.5
