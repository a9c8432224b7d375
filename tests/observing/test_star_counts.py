"""How faint a star is seen, from how many inside a figure: against printed counts, and that some figure always stands well."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from companion.observing import Figure, darkness_from_faintest_star, faintest_seen_mag, figure_to_count
from companion.observing.star_counts import FIGURES
from companion.sky import MOON, Moment, Site, dimming_mag, find, separation_deg, sight
from companion.sky.visibility import nothing_hidden

SQUARE = Figure(("Alpheratz", "Scheat", "Markab", "Algenib"))
OVERHEAD = Moment(Site(22.0, -67.5), datetime(2026, 10, 12, 3, 20, tzinfo=UTC))
"""The Great Square stands near the zenith."""


@pytest.mark.parametrize(("count", "printed_mag"), [(2, 4.6), (8, 5.5), (13, 6.0)])
def test_the_great_square(count: int, printed_mag: float) -> None:
    """The limits printed for counts inside the Great Square hold within 0.2 mag, since half way to the next star is taken.

    R. W. Sinnott, "How can I find out my naked-eye magnitude limit?", skyandtelescope.org.
    """
    assert faintest_seen_mag(SQUARE, count, OVERHEAD) == pytest.approx(printed_mag, abs=0.2)


def test_more_stars_mean_a_darker_sky() -> None:
    """The more are counted, the fainter the limit; none, and more than all, have their ends."""
    for figure in FIGURES:
        limits = [faintest_seen_mag(figure, count, OVERHEAD) for count in range(len(figure.magnitudes()) + 2)]
        assert limits == sorted(limits)
        assert limits[-1] == limits[-2]
    darkest, brightest = (darkness_from_faintest_star(faintest_seen_mag(SQUARE, count, OVERHEAD)) for count in (20, 0))
    assert darkest > brightest + 2.0


def test_a_lower_figure_loses_to_the_air() -> None:
    """The same count lower down is a darker sky: what the air takes there is added, as ``sky.dimming_mag`` has it."""
    low = Moment(OVERHEAD.site, OVERHEAD.time - timedelta(hours=4))
    lost_mag = dimming_mag(sight(SQUARE.middle, low, refraction=False).altitude_deg) - dimming_mag(
        sight(SQUARE.middle, OVERHEAD, refraction=False).altitude_deg
    )
    assert lost_mag > 0.05
    assert faintest_seen_mag(SQUARE, 5, low) - faintest_seen_mag(SQUARE, 5, OVERHEAD) == pytest.approx(lost_mag)


@pytest.mark.parametrize("latitude_deg", [-50, -35, -15, 0, 20, 48, 65])
def test_some_figure_stands_well_nearly_always(latitude_deg: float) -> None:
    """Of twelve midnights a year at most one has none; each stands high, its corners too, and away from a Moon that is up."""
    site, found = Site(latitude_deg, 0.0), 0
    for month in range(1, 13):
        moment = Moment(site, datetime(2026, month, 15, tzinfo=UTC))
        figure = figure_to_count(moment, nothing_hidden)
        if figure is None:
            continue
        found += 1
        middle, moon = (sight(body, moment, refraction=False) for body in (figure.middle, MOON))
        assert middle.altitude_deg >= 45.0
        assert all(sight(find(name), moment).altitude_deg >= 30.0 for name in figure.corners)
        assert moon.altitude_deg <= 0.0 or separation_deg(middle, moon) >= 40.0
    assert found >= 11


def test_trees_hide_a_figure() -> None:
    """A figure with a corner behind trees isn't offered."""
    assert figure_to_count(OVERHEAD, nothing_hidden) is not None
    assert figure_to_count(OVERHEAD, lambda _: True) is None
