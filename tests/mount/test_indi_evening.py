"""An evening with a mount behind INDI: it is read, given time and place, moved by small steps, and stops. Debian's simulator."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from companion.mount import Equatorial, Finished, Horizontal, Park, Slew, Sync, Track
from companion.mount.coordinates import equatorial_of, horizontal_of
from companion.sky import Moment
from tests.mount.evening import SITE, evening
from tests.mount.lines import indi_simulator, line_to, reading, tell, until


@pytest.mark.alone
@pytest.mark.slow
def test_an_indi_mount_is_read_given_time_and_place_and_halted(tmp_path: Path) -> None:
    """It tells no place at first: it is offered ours, and takes it. Turning by another client's order, a word halts it."""
    (tmp_path / "indi").mkdir()
    with indi_simulator(tmp_path / "indi") as address, line_to(address) as other, evening(address, tmp_path) as held:
        asked = held.hear("yes", "go to the settings")
        assert "same time and place" not in asked
        assert asked.endswith("Shall I give it the time and place?")
        told = held.hear("yes")
        settings = reading(other).settings
        assert settings.latitude_deg == pytest.approx(SITE.latitude_deg, abs=0.001)
        assert settings.longitude_deg == pytest.approx(SITE.longitude_deg, abs=0.001)
        assert "my time and place now" in told
        epoch = reading(other).identity.epoch
        for command in (Park(False), Track(True), Sync(Equatorial(100.0, 40.0, epoch)), Slew(Equatorial(160.0, 50.0, epoch))):
            assert isinstance(tell(other, command), Finished)
        held.until(lambda: held.link.is_turning)
        called = time.monotonic()
        held.hear("stop")
        until(lambda: reading(other).state.slewing is False)
        print(f"stands and says so {time.monotonic() - called:.2f} s after the word")
        held.until_said("It stands still.")


@pytest.mark.alone
@pytest.mark.slow
def test_an_indi_mount_is_moved_by_small_steps_among_the_stars(tmp_path: Path) -> None:
    """It has no rates in degrees, so a step is a short slew. It goes as far as said, half as far back; one that doesn't track is left."""
    (tmp_path / "indi").mkdir()
    with indi_simulator(tmp_path / "indi") as address, line_to(address) as other, evening(address, tmp_path) as held:
        held.hear("yes", "go to the settings", "yes")
        epoch = reading(other).identity.epoch
        assert epoch is not None
        south = equatorial_of(Horizontal(40.0, 180.0), Moment(SITE, held.now()), epoch)
        for command in (Park(False), Track(True), Sync(south)):
            assert isinstance(tell(other, command), Finished)

        def moved(said: str) -> tuple[float, float]:
            def pointing() -> Horizontal:
                place = reading(other).state.equatorial
                assert place is not None
                return horizontal_of(place, Moment(SITE, held.now()))

            def settled(was: Horizontal) -> Horizontal:
                """Return where it stands elsewhere: the other client is told once a second, so readings further apart must agree."""
                last, deadline = pointing(), time.monotonic() + 15.0
                while True:
                    time.sleep(1.2)
                    now = pointing()
                    if _apart_deg(now, last) < 0.03 and _apart_deg(now, was) > 0.1:
                        return now
                    assert time.monotonic() < deadline, "it never came to a stand elsewhere"
                    last = now

            before = pointing()
            held.hear(said)
            after = settled(before)
            return (after.azimuth_deg - before.azimuth_deg) * 0.766, after.altitude_deg - before.altitude_deg

        assert moved("a bit right") == pytest.approx((1.0, 0.0), abs=0.06)
        assert moved("too far") == pytest.approx((-0.5, 0.0), abs=0.06)
        assert moved("a bit up") == pytest.approx((0.0, 1.0), abs=0.06)
        assert isinstance(tell(other, Track(False)), Finished)
        assert "arrow" in held.hear("a bit up")


def _apart_deg(one: Horizontal, other: Horizontal) -> float:
    return max(abs(one.azimuth_deg - other.azimuth_deg), abs(one.altitude_deg - other.altitude_deg))
