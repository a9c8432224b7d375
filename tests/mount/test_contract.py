"""Every call of the protocol against three real parts on loopback: two published simulators and the tests' own mount.

What one of them can't is asked all the same and must be refused as such. The Alpaca simulator is a German equatorial mount that starts
parked at the pole, takes a time and ignores it, and forgets a sync in altitude and azimuth at once; the INDI one knows equatorial
coordinates only and no place until it is given one. The tests' own mount does what those don't.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from companion.mount import Equatorial, Failed, Finished, Horizontal, Line, Nudge, Park, SetPlace, SetTime, Slew, Standstill, Sync, Track
from tests.mount.altaz_server import altaz_server
from tests.mount.lines import alpaca_simulator, indi_simulator, line_to, reading, state, tell, until


@dataclass(frozen=True)
class Part:
    """One real part and what is to be expected of it."""

    kind: str
    line: Line

    @property
    def tells_altaz(self) -> bool:
        """Whether it tells altitude and azimuth."""
        return self.kind != "indi"

    def place_east_of_here(self, degrees: float) -> Equatorial:
        """Return a place among the stars a little higher in right ascension than where it points now, far from the pole."""
        now = state(self.line)
        assert now.ra_deg is not None
        assert now.dec_deg is not None
        return Equatorial((now.ra_deg + degrees) % 360, min(now.dec_deg, 60.0), now.epoch)


_SLOW = (pytest.mark.slow, pytest.mark.alone)
_PARTS = [pytest.param("alpaca", marks=_SLOW), pytest.param("indi", marks=_SLOW), "own"]


@pytest.fixture(scope="module", params=_PARTS)
def part(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Part]:
    """Hold a line to each part in turn, unparked, tracking and away from the pole."""
    home = tmp_path_factory.mktemp("indi")
    with _address(request.param, home) as address, line_to(address) as line:
        for command in (Park(False), SetPlace(46.3, -67.5, 100.0), Track(True)):
            assert isinstance(tell(line, command), Finished)
        epoch = reading(line).identity.epoch
        assert isinstance(tell(line, Sync(Equatorial(_high_ra_deg(), 40.0, epoch))), Finished)
        yield Part(request.param, line)


@contextmanager
def _address(kind: str, home: Path) -> Iterator[str]:
    if kind == "alpaca":
        with alpaca_simulator() as address:
            yield address
    elif kind == "indi":
        with indi_simulator(home) as address:
            yield address
    else:
        with altaz_server() as server:
            yield server.address


def _high_ra_deg() -> float:
    """Return the right ascension now in the south over 67.5 degrees west, so that nothing is below the horizon."""
    days = (datetime.now(UTC) - datetime(2000, 1, 1, 12, tzinfo=UTC)).total_seconds() / 86_400
    return (280.46061837 + 360.98564736629 * days - 67.5) % 360


def test_it_says_who_it_is_and_what_it_can(part: Part) -> None:
    """Name, standard, abilities and epoch; null for what it doesn't tell."""
    identity = reading(part.line).identity
    assert identity.name in ("Simulator Telescope", "Telescope Simulator", "Invented Alt-Azimuth")
    assert identity.standard == ("indi" if part.kind == "indi" else "alpaca")
    everything = {"read", "set_time", "set_place", "sync", "slew", "slew_altaz", "abort", "nudge", "park", "track"}
    assert identity.can == everything - ({"slew_altaz", "nudge"} if part.kind == "indi" else set())
    # The Alpaca simulator calls its system "other"; the INDI one has coordinates of the day by the property's name.
    assert identity.epoch == (None if part.kind == "alpaca" else "of_date")
    assert identity.is_altazimuth == {"alpaca": False, "indi": None, "own": True}[part.kind]


def test_it_tells_its_place_as_it_was_given(part: Part) -> None:
    """West is negative, whatever the standard counts in."""
    assert isinstance(tell(part.line, SetPlace(-33.9, -70.25, 1200.0)), Finished)
    told = reading(part.line).settings
    assert (told.latitude_deg, told.longitude_deg, told.elevation_m) == pytest.approx((-33.9, -70.25, 1200.0), abs=1e-4)
    assert isinstance(tell(part.line, SetPlace(46.3, -67.5, 100.0)), Finished)


def test_it_tells_its_time_as_it_was_given(part: Part) -> None:
    """An hour ahead, given with an offset, is read back as an hour ahead. The Alpaca simulator takes it and ignores it."""
    ahead = datetime.now(UTC) + timedelta(hours=1)
    assert isinstance(tell(part.line, SetTime(ahead.astimezone())), Finished)
    error_s = reading(part.line).settings.time_error_s
    assert error_s == pytest.approx(0.0 if part.kind == "alpaca" else 3600.0, abs=1.1)  # INDI counts whole seconds
    assert isinstance(tell(part.line, SetTime(datetime.now(UTC))), Finished)
    assert reading(part.line).settings.time_error_s == pytest.approx(0.0, abs=1.1)


def test_tracking_is_switched(part: Part) -> None:
    """Off and on again, as it says itself."""
    for on in (False, True):
        assert isinstance(tell(part.line, Track(on)), Finished)
        until(lambda on=on: state(part.line).tracking is on)


def test_a_sync_among_the_stars_is_where_it_points_then(part: Part) -> None:
    """To a hundredth of a degree."""
    there = part.place_east_of_here(3.0)
    assert isinstance(tell(part.line, Sync(there)), Finished)
    now = until(lambda: (read := state(part.line)) and abs((read.ra_deg - there.ra_deg + 180) % 360 - 180) < 0.01 and read)
    assert now.dec_deg == pytest.approx(there.dec_deg, abs=0.01)


def test_a_sync_over_the_ground_lasts(part: Part) -> None:
    """It points where it was told, and still does after a slew. Only the tests' own mount keeps it; INDI takes none."""
    if part.kind == "own":
        tell(part.line, Track(False))
        tell(part.line, Slew(Horizontal(40.0, 170.0)))
        until(lambda: state(part.line).slewing is False)
        assert isinstance(tell(part.line, Sync(Horizontal(41.5, 172.0))), Finished)
        tell(part.line, Slew(Horizontal(45.0, 180.0)))
        until(lambda: state(part.line).slewing is False)
        now = state(part.line)
        assert (now.altitude_deg, now.azimuth_deg) == pytest.approx((45.0, 180.0), abs=0.01)
        tell(part.line, Track(True))
    elif part.kind == "alpaca":
        assert isinstance(tell(part.line, Sync(Horizontal(41.5, 172.0))), Finished)
    else:
        assert tell(part.line, Sync(Horizontal(41.5, 172.0))) == Failed("cannot", "the mount takes no horizontal sync")


def test_a_slew_among_the_stars_arrives(part: Part) -> None:
    """It turns, says so, comes to a stand and points there, to a hundredth of a degree."""
    there = part.place_east_of_here(6.0)
    assert isinstance(tell(part.line, Slew(there)), Finished)
    assert state(part.line).slewing is True
    until(lambda: state(part.line).slewing is False, 30.0)
    now = state(part.line)
    assert now.ra_deg == pytest.approx(there.ra_deg, abs=0.01)
    assert now.dec_deg == pytest.approx(there.dec_deg, abs=0.01)


def test_a_slew_over_the_ground_arrives(part: Part) -> None:
    """The same by altitude and azimuth, where it can."""
    sent = tell(part.line, Slew(Horizontal(50.0, 190.0)))
    if not part.tells_altaz:
        assert sent == Failed("cannot", "the mount can't slew_altaz")
        return
    assert isinstance(sent, Finished)
    until(lambda: state(part.line).slewing is False, 30.0)
    now = state(part.line)
    assert (now.altitude_deg, now.azimuth_deg) == pytest.approx((50.0, 190.0), abs=0.05)
    assert isinstance(tell(part.line, Track(True)), Finished)


def test_a_stop_stops_a_slew(part: Part) -> None:
    """It stands, says so, and is far from where it was sent."""
    there = part.place_east_of_here(40.0)
    assert isinstance(tell(part.line, Slew(there)), Finished)
    until(lambda: state(part.line).slewing)
    stopped = part.line.stop().wait()
    assert isinstance(stopped, Standstill)
    assert stopped.confirmed
    now = state(part.line)
    assert now.slewing is False
    later = state(part.line)
    assert later.ra_deg == pytest.approx(now.ra_deg, abs=0.02)
    assert abs((there.ra_deg - (later.ra_deg or 0.0) + 180) % 360 - 180) > 5.0


def test_a_stop_of_a_standing_mount_is_no_failure(part: Part) -> None:
    """Who says stop twice has stopped."""
    stopped = part.line.stop().wait()
    assert isinstance(stopped, Standstill)
    assert stopped.confirmed


@pytest.mark.parametrize("axis", ["primary", "secondary"])
def test_a_nudge_turns_an_axis_for_a_moment(part: Part, axis: str) -> None:
    """About rate times seconds and then it stands; the other way round goes back. Where it can."""
    before = state(part.line)
    sent = tell(part.line, Nudge(axis, 2.0, 0.5))
    if part.kind == "indi":
        assert sent == Failed("cannot", "the mount can't nudge")
        return
    assert isinstance(sent, Finished)
    after = state(part.line)
    assert after.slewing is False
    assert 0.5 < _moved_deg(part, axis, before, after) < 2.0
    assert isinstance(tell(part.line, Nudge(axis, -2.0, 0.5)), Finished)
    assert _moved_deg(part, axis, before, state(part.line)) < 0.4


def _moved_deg(part: Part, axis: str, before: object, after: object) -> float:
    """Return how far the axis itself has turned: azimuth or right ascension, altitude or declination."""
    names = {"own": ("azimuth_deg", "altitude_deg"), "alpaca": ("ra_deg", "dec_deg")}[part.kind]
    name = names[axis == "secondary"]
    return float(abs((getattr(after, name) - getattr(before, name) + 180) % 360 - 180))


def test_what_makes_no_sense_is_never_sent(part: Part) -> None:
    """Directions that are none, an epoch that isn't the mount's, nudges without end."""
    epoch = reading(part.line).identity.epoch
    other = "J2000" if epoch is None else None
    for command in (
        Slew(Equatorial(float("nan"), 0.0, epoch)),
        Slew(Equatorial(10.0, 91.0, epoch)),
        Slew(Equatorial(10.0, 20.0, other)),
        Nudge("primary", 1.0, 60.0),
        Nudge("primary", float("nan"), 1.0),
        SetPlace(91.0, 0.0),
        SetTime(datetime(2026, 10, 15, 19, 30)),
    ):
        outcome = tell(part.line, command)
        assert isinstance(outcome, Failed), command
        assert outcome.why == "cannot"


def test_a_parked_mount_moves_only_when_let_go(part: Part) -> None:
    """Parked, it says so and slews nowhere; let go, it does."""
    # Near where the INDI simulator parks, low in the east, so that it is soon there.
    assert isinstance(tell(part.line, Sync(Equatorial((_high_ra_deg() + 85) % 360, 5.0, reading(part.line).identity.epoch))), Finished)
    assert isinstance(tell(part.line, Park(True)), Finished)
    until(lambda: state(part.line).parked, 60.0)
    refused = tell(part.line, Slew(part.place_east_of_here(2.0)))
    assert isinstance(refused, Failed)
    assert refused.why in ("parked", "refused", "unanswered")
    assert state(part.line).slewing is False
    assert isinstance(part.line.stop().wait(), Standstill)
    assert isinstance(tell(part.line, Park(False)), Finished)
    until(lambda: state(part.line).parked is False)
