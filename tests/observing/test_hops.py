"""The way to a target by hand: that following it with a person's errors leads there, and that it is what an observer would say."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.equipment import FinderKind, Instrument
from companion.observing import DOT, Direction, Finder, finder_of, in_field_parts, in_fingers, length_in_fingers, way_to
from companion.observing.hop_measures import mount_offset, tangent_offset
from companion.sky import Moment, Site, find, finder_stars
from tests.observing import hop_walk
from tests.observing.hop_walk import walked

EVENING = Moment(Site(48.0, 16.0), datetime(2027, 1, 7, 20, tzinfo=UTC))
NOON = Moment(Site(48.0, 16.0), datetime(2027, 1, 7, 11, tzinfo=UTC))
HEIGHTS = st.floats(5.0, 75.0)
TURNS = st.floats(0.0, 360.0)


@pytest.mark.parametrize("finder", [Finder(), DOT], ids=["optical", "dot"])
def test_it_leads_there(finder: Finder) -> None:
    """With ten per cent of error in each part of each step at least 95 of 100 walks end with the target in the finder, of five degrees.

    Over places from 64 N to 45 S, nights of a year and all showpieces; there is a way to nine of ten. Of 300 targets and 20 walks to
    each, seed 7, put aside until the end: ways to 288 (with a lit mark 271), and 5747 of 5760 (5402 of 5420) walks arrive.
    """
    found = walked(20, 1, finder=finder)
    assert found.ways >= 0.85 * found.tasks
    assert found.arrived >= 0.95 * found.walks
    assert found.steps <= 2.5 * found.ways


@pytest.mark.parametrize("field_deg", [2.0, 3.0, 8.0])
def test_it_leads_there_in_any_field(field_deg: float) -> None:
    """So it is with narrower and wider finders: with a narrow one there are fewer ways, but one that is told arrives.

    Of 100 targets and 20 walks to each, seed 13, put aside until the end: with three degrees ways to 73, and 1450 of 1460 walks arrive;
    with eight ways to 95, and 1899 of 1900.
    """
    found = walked(8, 1, finder=Finder(field_deg))
    assert found.arrived >= 0.95 * found.walks
    assert found.ways >= (0.6 * found.tasks if field_deg >= 3.0 else 2)


def test_a_careless_walker_gets_lost(monkeypatch: pytest.MonkeyPatch) -> None:
    """The check can fail: with errors of sixty per cent a good part of the walks end elsewhere."""
    monkeypatch.setattr(hop_walk, "ERROR", 0.6)
    found = walked(10, 1)
    assert found.arrived < 0.9 * found.walks


def test_the_ways_observers_know() -> None:
    """To the Andromeda and the Triangulum Galaxy from Mirach, to the Crab Nebula from the Bull's horn: common practice."""
    starts = {}
    for name in ("M 31", "M 33", "M 1"):
        way = way_to(find(name), EVENING)
        assert way is not None
        starts[name] = way.start.name
        assert way.steps[-1].end == find(name).place
    assert starts["M 31"] == starts["M 33"] == "Mirach"
    assert starts["M 1"] in ("Elnath", "Tianguan")


def test_a_bright_star_is_its_own_start() -> None:
    """To a double star that the eye sees there is nothing to move."""
    way = way_to(find("Almach"), EVENING)
    assert way is not None
    assert (way.start.name, way.steps) == ("Almach", ())


def test_no_way_without_stars_or_below_the_horizon() -> None:
    """By day there are no stars to start from; the Moon and planets have no place among them; what is down is not led to."""
    assert way_to(find("M 31"), NOON) is None
    assert way_to(find("Saturn"), EVENING) is None
    assert way_to(find("Omega Centauri"), EVENING) is None
    assert way_to(find("M 31"), EVENING, hidden=lambda _: True) is None


@given(HEIGHTS, TURNS, st.floats(-10.0, 10.0), st.floats(0.0, 8.0))
def test_both_readings_are_the_same_nearby(height: float, azimuth: float, turn: float, up: float) -> None:
    """Steps are as long as the way, and to the right where the azimuth grows; up and across by mount end where they should."""
    start, end = Direction(height, azimuth), Direction(height + up, azimuth + turn)
    right, upward = tangent_offset(start, end)
    assert (right**2 + upward**2) ** 0.5 == pytest.approx(start.apart_deg(end), abs=1e-6)
    assert right * turn >= -1e-9
    assert mount_offset(start, end)[1] == pytest.approx(up)


def test_measures() -> None:
    """A fist of ten degrees has five fingers; a field has four parts; a small hand takes more fingers for the same way."""
    low, high = Direction(20.0, 100.0), Direction(34.0, 100.0)
    assert in_fingers(low, high, 10.0).up == 7
    assert length_in_fingers(low, high, 8.0) == 9
    assert in_field_parts(high, low, 5.0).up == -11
    assert in_field_parts(low, Direction(20.0, 105.32), 5.0).right == 4


def test_the_stars_of_a_finder() -> None:
    """Some five thousand stars shine to magnitude 6 (handbooks count 4,800 to 5,100; value from memory), brightest first."""
    ra_deg, dec_deg, vmag = finder_stars()
    assert 4800 <= len(vmag) <= 5100
    assert (vmag[1:] >= vmag[:-1]).all()
    assert ((ra_deg >= 0.0) & (ra_deg < 360.0) & (abs(dec_deg) <= 90.0)).all()
    assert abs(int((dec_deg > 0.0).sum()) - len(vmag) / 2) < 0.05 * len(vmag)


@pytest.mark.parametrize(("kind", "faintest_mag"), [("optical", 6.0), ("dot", 4.5), (None, 6.0)])
def test_the_finder_of_a_profile(kind: FinderKind | None, faintest_mag: float) -> None:
    """A lit mark shows what the eye sees; where nobody has told, the finder is an optical one of five degrees."""
    assert finder_of(Instrument(finder=kind)) == Finder(5.0, faintest_mag)
    assert finder_of(Instrument(finder=kind, finder_field_deg=7.5)) == Finder(7.5, faintest_mag)
