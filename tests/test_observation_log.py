"""The file of observations: only its owner's, only ever added to, and no line lost to a damaged neighbour."""

from __future__ import annotations

import os
import stat
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from companion import sky
from companion.equipment import Instrument
from companion.observation_log import LogError, read_log, withdraw, write_down
from companion.observing.observation import Observation, observed
from companion.sky import Moment, Site
from companion.sky.types import zone_info

SITE = Site(-33.4, 149.6, 700.0, zone="Australia/Sydney", name="Hill's edge")
START = datetime(2026, 7, 10, 10, 0, tzinfo=UTC)
NAMES = ("NGC 5139", "Jupiter", "Alpha Centauri")
BARE = [observed(sky.find(name), Moment(SITE, START + timedelta(hours=n)), Instrument(150, 750), 25.0) for n, name in enumerate(NAMES)]
SEEN = [replace(observation, seen="easily", looks=("two",)) for observation in BARE]


@pytest.fixture
def log(tmp_path: Path) -> Path:
    """Return where a log lies that doesn't exist yet, nor its folder."""
    return tmp_path / "home" / "observations.jsonl"


def _written(log: Path, *observations: Observation) -> Path:
    for observation in observations:
        write_down(log, observation)
    return log


def test_what_is_written_is_read(log: Path) -> None:
    """Each field comes back as it was, in order of time, whatever the order of writing; a missing file is an empty log."""
    assert read_log(log).observations == ()
    assert read_log(_written(log, *reversed(SEEN))).observations == tuple(SEEN)


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps no such modes")
def test_for_its_owner_only(log: Path) -> None:
    """Nobody else may read file or folder."""
    _written(log, SEEN[0])
    assert stat.S_IMODE(log.stat().st_mode) == 0o600
    assert stat.S_IMODE(log.parent.stat().st_mode) == 0o700


def test_told_again_it_is_the_same_one(log: Path) -> None:
    """The same time and target, in any zone's time, is one observation, the last word counting; what was taken back is gone."""
    again = replace(SEEN[0], seen="just", time=SEEN[0].time.astimezone(zone_info("Asia/Kathmandu")))
    assert [seen.seen for seen in read_log(_written(log, *SEEN, again)).observations] == ["just", "easily", "easily"]
    withdraw(log, SEEN[1])
    assert [seen.target for seen in read_log(log).observations] == [SEEN[0].target, SEEN[2].target]
    assert read_log(_written(log, SEEN[1])).observations[1] == SEEN[1]


@pytest.mark.parametrize("cut", range(1, 400, 37))
def test_a_line_cut_off_costs_only_itself(log: Path, cut: int) -> None:
    """However much of the last line reached the disk, the lines before it and after it are read."""
    _written(log, SEEN[0], SEEN[1])
    log.write_bytes(log.read_bytes()[:-cut])
    found = read_log(_written(log, SEEN[2]))
    # Without its line feed alone a line is whole.
    assert found.observations == (tuple(SEEN) if cut == 1 else (SEEN[0], SEEN[2]))
    assert found.unreadable == (cut > 1)


def test_what_is_no_file_or_has_no_end_is_refused(log: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A pipe nobody writes to, a device without an end and a file larger than any log are one line, not waited for or read."""
    log.parent.mkdir()
    for target in ("/dev/zero", "/dev/full"):
        log.symlink_to(target)
        for use in (read_log, lambda path: write_down(path, SEEN[0])):
            with pytest.raises(LogError, match="not a file but a device"):
                use(log)
        log.unlink()
    os.mkfifo(log)
    for use in (read_log, lambda path: write_down(path, SEEN[0])):
        with pytest.raises(LogError, match="a device or a pipe"):
            use(log)
    log.unlink()
    monkeypatch.setattr("companion.observation_log.LARGEST_BYTES", 1000)
    with pytest.raises(LogError, match="larger than"):
        read_log(_written(log, *SEEN))


def test_damage_is_seen(log: Path) -> None:
    """A figure changed on the disk is not believed, nor a line of another version, nor what is no text; all others are."""
    _written(log, *SEEN)
    first, second, third = log.read_bytes().splitlines(keepends=True)
    changed = second.replace(b'"aperture_mm": 150', b'"aperture_mm": 250')
    assert changed != second
    log.write_bytes(b"\xff\xfe\n" + first.replace(b'"schema": 1', b'"schema": 9') + changed + third)
    assert read_log(log) == replace(read_log(log), observations=(SEEN[2],), unreadable=3)


def test_a_disk_that_refuses_is_one_line(log: Path) -> None:
    """Reading and writing say what is wrong and the remedy."""
    log.mkdir(parents=True)
    for use in (lambda: write_down(log, SEEN[0]), lambda: read_log(log)):
        with pytest.raises(LogError, match=r"observation log can't be used .*; free some space") as refused:
            use()
        assert "\n" not in str(refused.value)
