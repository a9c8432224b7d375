"""Turning to a target of the night over the line: offered with where to stand, asked each time at first, and never unasked."""

from __future__ import annotations

import threading
from pathlib import Path

from companion.talk.night_phrases import FindTarget
from companion.talk.turning_phrases import ItPointsThere, ShallITurnThere, ShallITurnThereToo
from tests.mount.altaz_server import AltAzServer, altaz_server
from tests.mount.evening import Evening, evening, knowing
from tests.mount.test_turning import at_the_proof, point_at_the_star, slews


def at_the_targets(held: Evening) -> str:
    """Align, leave the proof to the observer's own hand, and return what is said at the first target."""
    at_the_proof(held)
    point_at_the_star(held, held.turn.question.facts["name"])  # type: ignore[union-attr]
    return held.hear("by hand", "in the eyepiece")


def _turned_there(held: Evening, server: AltAzServer, *said: str) -> str:
    before = slews(server)
    held.hear(*said)
    told = held.until_said("It stands still, at")
    assert slews(server) == before + 1
    assert isinstance(held.turn.question, ItPointsThere)
    return told


def test_a_target_is_offered_with_where_to_stand_and_turned_to_when_asked(tmp_path: Path) -> None:
    """It says where the target is and to stand clear; only "turn there" turns; after two good turns a yes is enough."""
    with altaz_server(**knowing(rate_deg_s=250.0)) as server, evening(server, tmp_path) as held:
        offered = at_the_targets(held)
        assert "Stand clear" in offered
        assert offered.endswith("turn there, or by hand?")
        held.hear("yes", "say that again", "what should I see", "where is it")
        assert slews(server) == 0
        assert "Stand clear" in held.hear("turn there")
        assert slews(server) == 0
        held.hear("next target")
        _turned_there(held, server, "turn there")
        assert isinstance(held.hear("found it", "next target") and held.turn.question, ShallITurnThere)
        _turned_there(held, server, "turn there")
        held.hear("next target")
        assert isinstance(held.turn.question, ShallITurnThereToo)
        _turned_there(held, server, "yes")


def test_a_halted_turn_is_offered_again_and_hands_off_ends_the_offers(tmp_path: Path) -> None:
    """A "stop" halts it, and nothing turns again unasked; "don't move it" leaves a link that is only read, for all that follows."""
    with altaz_server(**knowing(rate_deg_s=1.0)) as server, evening(server, tmp_path) as held:
        at_the_targets(held)
        held.hear("turn there")
        held.until(lambda: server.mount.slewing)
        held.hear("stop")
        held.until_said("It stands still.")
        assert not server.mount.slewing
        assert isinstance(held.turn.question, ShallITurnThere)
        assert "Messier" not in held.said[-1]
        assert held.said[-1].endswith("turn there, or by hand?")
        assert "won't move it" in held.hear("don't move it")
        assert "You asked me not to move it" in held.hear("turn there")
        assert "Stand clear" not in held.hear("next target")
        assert slews(server) == 1
        held.hear("you may move it", "next target")
        assert isinstance(held.turn.question, ShallITurnThere)


def test_a_mount_that_is_gone_is_not_offered(tmp_path: Path) -> None:
    """Without an answer on the line the target is introduced as without a mount."""
    with altaz_server(**knowing(rate_deg_s=40.0)) as server, evening(server, tmp_path) as held:
        at_the_targets(held)
        server.cut()
        held.until_said("doesn't answer any more")
        assert "Stand clear" not in held.hear("next target")


def test_going_back_to_a_turn_that_is_over_does_not_wait_for_it(tmp_path: Path) -> None:
    """Nothing turns any more: that it stands is said, and the target is offered again."""
    with altaz_server(**knowing(rate_deg_s=250.0)) as server, evening(server, tmp_path) as held:
        at_the_targets(held)
        _turned_there(held, server, "turn there")
        held.hear("go back")
        held.until_said("It stands still.")
        assert isinstance(held.turn.question, ShallITurnThere)
        assert slews(server) == 1


def test_a_slew_left_by_a_session_that_was_cut_off_is_halted(tmp_path: Path) -> None:
    """The resumed evening finds it turning with nobody watching it: halted, said, and asked before anything moves."""
    with altaz_server(**knowing(rate_deg_s=0.5)) as server:
        with evening(server, tmp_path) as held:
            at_the_targets(held)
            held.hear("turn there")
            held.until(lambda: server.mount.slewing)
            held.vanish()
        assert server.mount.slewing
        with evening(server, tmp_path) as again:
            again.hear("yes")
            again.until_said("nobody watching it")
            assert not server.mount.slewing
            assert slews(server) == 1


def test_a_halt_is_told_wherever_the_talk_has_gone(tmp_path: Path) -> None:
    """While it turns the observer goes on to something else; pushed off its way it is halted, and that is said all the same."""
    with altaz_server(**knowing(rate_deg_s=0.5)) as server, evening(server, tmp_path) as held:
        at_the_targets(held)
        held.hear("turn there", "go to the settings", "yes")
        held.until(lambda: server.mount.slewing)
        server.mount.altitude_deg -= 40.0
        held.until_said("so I halted it")
        assert not server.mount.slewing


def test_leave_it_alone_halts_one_that_turns(tmp_path: Path) -> None:
    """Said of a mount that turns, "don't move it" means that, too."""
    with altaz_server(**knowing(rate_deg_s=0.5)) as server, evening(server, tmp_path) as held:
        at_the_targets(held)
        held.hear("turn there")
        held.until(lambda: server.mount.slewing)
        assert "won't move it" in held.hear("don't move it")
        held.until(lambda: not server.mount.slewing)
        assert "Shall I turn it" not in held.until_said("It stands still.")


def test_a_key_pressed_before_it_turns_keeps_it_from_turning(tmp_path: Path) -> None:
    """Between "turn there" and the slew the mount is read, which may take a while: a key pressed then is meant for what comes."""
    with altaz_server(**knowing(rate_deg_s=1.0)) as server, evening(server, tmp_path) as held:
        at_the_targets(held)
        server.slow_s["azimuth"] = 0.4
        presses = threading.Timer(0.2, held.link.key_pressed)
        presses.start()
        assert "sent nothing more" in held.hear("turn there")
        presses.join()
        assert slews(server) == 0


def test_what_was_introduced_is_not_introduced_again(tmp_path: Path) -> None:
    """Where the mount refuses the turn, or it is to be found by hand, the place is said once more, and nothing else of it."""
    with altaz_server(**knowing(rate_deg_s=250.0)) as server, evening(server, tmp_path) as held:
        offered = at_the_targets(held)
        what = offered[: offered.index(". ")].rsplit(":", 1)[-1].strip()
        server.mount.parked = True
        told = held.hear("turn there")
        assert "parked" in told
        assert what not in told
        assert isinstance(held.turn.question, FindTarget)
