"""An evening with a mount behind INDI: it is read, given time and place, and stops. Debian's simulator is the mount."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from companion.mount import Equatorial, Finished, Park, Slew, Sync, Track
from tests.mount.evening import SITE, evening
from tests.mount.lines import indi_simulator, line_to, reading, tell, until


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
