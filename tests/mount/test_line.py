"""The line itself: limits of time, lines lost and mended, commands sent once or never, stops past everything else."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest

from companion.mount import (
    Effect,
    Failed,
    Finished,
    Horizontal,
    Lost,
    Nudge,
    Opened,
    SetTime,
    Slew,
    Standstill,
    Sync,
    Track,
    mount_address,
    open_line,
)
from tests.mount.altaz_server import AltAzServer, altaz_server
from tests.mount.lines import free_port, line_to, reading, state, tell, until


@pytest.fixture
def server() -> Iterator[AltAzServer]:
    """Hold the tests' own mount: level, tracking off, at azimuth 180 and altitude 30."""
    with altaz_server() as held:
        yield held


def test_calls_return_at_once_however_slow_the_mount(server: AltAzServer) -> None:
    """Asking takes no time of the caller's; the outcome comes when it comes."""
    with line_to(server.address) as line:
        server.slow_s["*"] = 0.05
        pending = line.read()
        assert pending.outcome() is None
        assert not isinstance(pending.wait(), Failed)


def test_a_hung_mount_ends_in_a_failure_within_the_limit(server: AltAzServer) -> None:
    """Whoever gave half a second has an answer after half a second."""
    with line_to(server.address) as line:
        server.hung.add("*")
        begun = time.monotonic()
        outcome = line.read(limit_s=0.5).wait()
        assert isinstance(outcome, Failed)
        assert 0.4 < time.monotonic() - begun < 2.0


def test_nobody_there_is_known_at_once() -> None:
    """A refused connection ends the reading; the event comes once however often it is tried again."""
    line = open_line(mount_address(f"alpaca://127.0.0.1:{free_port()}/0"))
    try:
        begun = time.monotonic()
        outcome = line.read().wait()
        assert isinstance(outcome, Failed)
        assert outcome.why == "unreachable"
        assert time.monotonic() - begun < 2.0
        time.sleep(2.5)
        assert [type(event) for event in line.events()] == [Lost]
    finally:
        line.close()


@pytest.mark.alone
@pytest.mark.slow
def test_a_lost_line_is_told_once_and_mended(server: AltAzServer) -> None:
    """Cut in mid-slew: told once, that it was turning too; back, told once, and read again."""
    with line_to(server.address) as line:
        assert isinstance(tell(line, Slew(Horizontal(60.0, 300.0))), Finished)
        until(lambda: line.state is not None and line.state.slewing)
        assert [type(event) for event in line.events()] == [Opened]
        server.cut()
        lost = until(lambda: list(line.events()))
        assert [(type(event), event.was_slewing) for event in lost] == [(Lost, True)]
        assert not line.is_up
        failed = tell(line, Track(True))
        assert isinstance(failed, Failed)
        time.sleep(1.5)
        assert not list(line.events())
        server.restore()
        mended = until(lambda: list(line.events()))
        assert [(type(event), event.again) for event in mended] == [(Opened, True)]
        assert reading(line).identity.name == "Invented Alt-Azimuth"


@pytest.mark.alone
@pytest.mark.slow
def test_a_mount_that_falls_silent_is_lost(server: AltAzServer) -> None:
    """No connection is refused, nothing is answered: noticed within five seconds, on a busy machine a little later."""
    with line_to(server.address) as line:
        list(line.events())
        server.hung.add("*")
        begun = time.monotonic()
        (lost,) = until(lambda: list(line.events()))
        assert isinstance(lost, Lost)
        assert lost.failed.why == "unanswered"
        assert time.monotonic() - begun < 7.0


def test_one_answer_gone_astray_is_no_lost_line(server: AltAzServer) -> None:
    """A single connection that breaks is tried again before anything is said."""
    with line_to(server.address) as line:
        list(line.events())
        for _ in range(3):
            for connection in list(server._open):
                connection.shutdown(2)
            time.sleep(0.7)
        assert not list(line.events())
        assert line.is_up


def test_an_effect_is_sent_once(server: AltAzServer) -> None:
    """The same id again is refused without a word to the mount, also where the first time failed."""
    with line_to(server.address) as line:
        effect = Effect("stage 3, turn 1", Slew(Horizontal(35.0, 190.0)))
        assert isinstance(line.send(effect).wait(), Finished)
        assert line.send(effect).wait() == Failed("repeated", "stage 3, turn 1")
        assert server.requests.count("PUT slewtoaltazasync") == 1


@pytest.mark.alone
@pytest.mark.slow
def test_a_command_whose_answer_is_lost_is_not_sent_again(server: AltAzServer) -> None:
    """The mount took it and the answer never came: it may be turning, so it is said and not repeated."""
    with line_to(server.address) as line:
        server.hung.add("PUT slewtoaltazasync")
        outcome = tell(line, Slew(Horizontal(35.0, 190.0)))
        assert isinstance(outcome, Failed)
        assert outcome.why == "unanswered"
        time.sleep(0.5)
        assert server.requests.count("PUT slewtoaltazasync") == 1


def test_a_command_that_had_to_wait_too_long_is_never_sent(server: AltAzServer) -> None:
    """A slew asked for while the line hung doesn't begin when the line comes back."""
    with line_to(server.address) as line:
        server.hung.add("*")
        time.sleep(0.1)
        line.read(limit_s=3.0)
        outcome = line.send(Effect("late", Slew(Horizontal(35.0, 190.0))), limit_s=0.3).wait()
        assert isinstance(outcome, Failed)
        server.hung.clear()
        until(lambda: line.is_up)
        reading(line)
        assert "PUT slewtoaltazasync" not in server.requests


def test_a_stop_voids_what_waits_to_be_sent(server: AltAzServer) -> None:
    """Two slews waiting behind a slow reading: a stop, and neither is ever sent."""
    with line_to(server.address) as line:
        server.slow_s["GET utcdate"] = 0.5
        line.read()
        waiting = [line.send(Effect(f"slew {azimuth}", Slew(Horizontal(35.0, azimuth)))) for azimuth in (190.0, 200.0)]
        assert isinstance(line.stop().wait(), Standstill)
        for pending in waiting:
            outcome = pending.wait()
            assert isinstance(outcome, Failed)
            assert outcome.why == "stopped"
        assert "PUT slewtoaltazasync" not in server.requests
        assert server.mount.slewing is False


def test_a_stop_while_a_slew_is_on_its_way_stops_that_slew(server: AltAzServer) -> None:
    """The mount begins to turn only after the stop reached it: it is stopped again, and the stop isn't done before."""
    with line_to(server.address) as line:
        server.slow_s["PUT slewtoaltazasync"] = 0.6
        line.send(Effect("slow", Slew(Horizontal(60.0, 300.0))))
        until(lambda: "PUT slewtoaltazasync" in server.requests)
        stopped = line.stop().wait()
        assert isinstance(stopped, Standstill)
        assert stopped.confirmed
        assert not server.mount.slewing
        time.sleep(1.5)
        assert not server.mount.slewing
        assert server.mount.says()[0] == pytest.approx(180.0, abs=3.0)


@pytest.mark.alone
@pytest.mark.slow
def test_a_slew_that_begins_long_after_the_stop_is_stopped(server: AltAzServer) -> None:
    """The request hung past every limit and is carried out at last: seen at the next reading and stopped."""
    with line_to(server.address) as line:
        server.hung.add("PUT slewtoaltazasync")
        line.send(Effect("hung", Slew(Horizontal(60.0, 300.0))))
        until(lambda: "PUT slewtoaltazasync" in server.requests)
        line.stop()
        time.sleep(5.0)
        server.hung.clear()
        # Not by watching it turn: the next reading can come, and stop it, between two looks of ours.
        until(lambda: server.mount.stopped_at is not None)
        assert not server.mount.slewing
        assert server.mount.says()[0] == pytest.approx(180.0, abs=8.0)


def test_after_a_stop_the_mount_can_be_sent_again(server: AltAzServer) -> None:
    """A stop is no ban."""
    with line_to(server.address) as line:
        tell(line, Slew(Horizontal(60.0, 300.0)))
        assert isinstance(line.stop().wait(), Standstill)
        assert isinstance(tell(line, Slew(Horizontal(32.0, 185.0))), Finished)
        until(lambda: not server.mount.slewing)
        assert state(line).azimuth_deg == pytest.approx(185.0, abs=0.01)


def test_a_stop_ends_a_nudge(server: AltAzServer) -> None:
    """At once, not when the nudge would have been over."""
    with line_to(server.address) as line:
        nudge = line.send(Effect("nudge", Nudge("primary", 3.0, 3.0)))
        until(lambda: server.mount.slewing)
        begun = time.monotonic()
        assert isinstance(line.stop().wait(), Standstill)
        assert nudge.wait()
        assert time.monotonic() - begun < 2.0
        assert not server.mount.slewing


def test_a_nudge_whose_end_is_lost_is_stopped_when_the_line_is_back(server: AltAzServer) -> None:
    """The axis runs on while the line is down; the stop goes on trying until it is heard."""
    with line_to(server.address) as line:
        line.send(Effect("nudge", Nudge("primary", 1.0, 1.5)))
        until(lambda: server.mount.slewing)
        server.cut()
        time.sleep(2.5)
        assert server.mount.slewing
        server.restore()
        until(lambda: not server.mount.slewing)


@pytest.mark.alone
@pytest.mark.slow
def test_a_stop_with_nobody_there_fails_and_says_so() -> None:
    """No exception, no endless wait."""
    line = open_line(mount_address(f"alpaca://127.0.0.1:{free_port()}/0"))
    try:
        outcome = line.stop().wait()
        assert isinstance(outcome, Failed)
        assert outcome.why == "unreachable"
    finally:
        line.close()


@pytest.mark.alone
@pytest.mark.slow
def test_a_stop_that_the_mount_refuses_fails(server: AltAzServer) -> None:
    """Nothing is called stopped that wasn't taken."""
    with line_to(server.address) as line:
        server.missing |= {"abortslew", "moveaxis"}
        outcome = line.stop().wait()
        assert isinstance(outcome, Failed)
        assert outcome.why == "refused"


def test_a_time_that_waits_its_turn_is_given_right(server: AltAzServer) -> None:
    """Behind a slow reading: what the mount is given is the time when it is given it."""
    with line_to(server.address) as line:
        server.slow_s["GET sitelatitude"] = 0.8
        line.read()
        assert isinstance(tell(line, SetTime(datetime.now(UTC))), Finished)
        assert server.mount.clock_error_s == pytest.approx(0.0, abs=0.3)


def test_a_slew_beyond_the_mounts_limits_is_refused(server: AltAzServer) -> None:
    """The mount's no is a value."""
    with line_to(server.address) as line:
        server.mount.highest_deg = 70.0
        outcome = tell(line, Slew(Horizontal(80.0, 190.0)))
        assert isinstance(outcome, Failed)
        assert outcome.why == "refused"
        assert server.mount.slewing is False


def test_the_reading_before_a_sync_is_the_miss(server: AltAzServer) -> None:
    """What the sync erases is in the reading taken before it."""
    with line_to(server.address) as line:
        server.mount.turn_to(183.0, 31.5)
        before = state(line)
        assert isinstance(tell(line, Sync(Horizontal(30.0, 180.0))), Finished)
        after = state(line)
        assert (before.azimuth_deg, before.altitude_deg) == pytest.approx((183.0, 31.5), abs=0.01)
        assert (after.azimuth_deg, after.altitude_deg) == pytest.approx((180.0, 30.0), abs=0.01)


def test_a_closed_line_answers_nothing(server: AltAzServer) -> None:
    """Calls after the end fail as lost."""
    with line_to(server.address) as line:
        pass
    outcome = line.read().wait()
    assert isinstance(outcome, Failed)
    assert outcome.why == "lost"
