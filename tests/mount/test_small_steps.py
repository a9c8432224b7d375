"""Small steps over the line: half as far at each turn back, learnt which way, and measured by what the mount reads."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.procedure.notes import MissTold
from companion.talk.mount_phrases import NotTurning
from companion.talk.stars_phrases import FirstStar
from tests.mount.altaz_server import AltAzServer, altaz_server
from tests.mount.evening import Evening, evening, knowing
from tests.mount.test_target_turns import at_the_targets
from tests.mount.test_turning import point_at_the_star


def _moved(held: Evening, server: AltAzServer, said: str) -> tuple[float, float]:
    """Say it; return by how much the tube turned to the right and up, in degrees of its axes."""
    azimuth, altitude = server.mount.says()
    held.hear(said)
    now = server.mount.says()
    assert not any(server.mount.rates)
    return (now[0] - azimuth + 180) % 360 - 180, now[1] - altitude


def test_each_turn_back_goes_half_as_far_and_the_way_is_learnt(tmp_path: Path) -> None:
    """On a mount whose azimuth axis counts the other way the first step is made good, and the next ones go right at once."""
    with altaz_server(**knowing(), azimuth_rate_sign=-1) as server, evening(server, tmp_path) as held:
        at_the_targets(held)
        held.hear("by hand")
        server.mount.altitude_deg, server.mount.altitude_zero_deg = 30.0, 0.0
        assert "which way first" in held.hear("more")
        right, up = _moved(held, server, "a bit left")
        assert right == pytest.approx(-0.25 / 0.866, abs=0.06)
        assert up == pytest.approx(0.0, abs=0.01)
        assert server.requests.count("PUT moveaxis") == 4
        assert _moved(held, server, "more")[0] == pytest.approx(-0.25 / 0.866, abs=0.06)
        assert server.requests.count("PUT moveaxis") == 6
        assert _moved(held, server, "too far")[0] == pytest.approx(0.125 / 0.866, abs=0.05)
        assert _moved(held, server, "a bit up")[1] == pytest.approx(0.25, abs=0.06)
        assert _moved(held, server, "a bit down")[1] == pytest.approx(-0.125, abs=0.05)
        # "Wrong way" goes back and as far again, and turns round what up and down mean.
        assert _moved(held, server, "wrong way")[1] == pytest.approx(0.25, abs=0.06)
        assert _moved(held, server, "a bit down")[1] > 0.05


def test_a_mount_that_cannot_is_steered_by_the_arrows(tmp_path: Path) -> None:
    """Neither an axis nor a place over the ground can be told it: it says so. Hands off: the same, and nothing is sent."""
    with altaz_server(**knowing()) as server:
        server.values.update({"canmoveaxis": False, "canslewaltazasync": False})
        with evening(server, tmp_path) as held:
            at_the_targets(held)
            assert "arrow keys" in held.hear("by hand", "a bit left")
    with altaz_server(**knowing()) as server, evening(server, tmp_path) as held:
        held.hear("yes", "don't move it", "go to the targets", "yes")
        held.hear("a bit left")
        assert "PUT moveaxis" not in server.requests


def test_a_place_over_the_ground_will_do_where_axes_can_not_be_told(tmp_path: Path) -> None:
    """By short slews to directions over the ground, as far."""
    with altaz_server(**knowing()) as server:
        server.values["canmoveaxis"] = False
        with evening(server, tmp_path) as held:
            at_the_targets(held)
            held.hear("by hand")
            assert _moved(held, server, "a bit up")[1] == pytest.approx(0.25, abs=0.02)
            assert _moved(held, server, "too far")[1] == pytest.approx(-0.125, abs=0.02)


def test_a_miss_is_measured_to_the_arcminute(tmp_path: Path) -> None:
    """The tube stops 1.2 degrees left of the star and 0.7 below it; steered there by steps, that is what is noted."""
    with altaz_server(**knowing()) as server, evening(server, tmp_path) as held:
        held.hear("yes", "go to the stars", "yes")
        (star,) = [said.star for said in held.sayings if isinstance(said, FirstStar)]
        point_at_the_star(held, star, right_deg=-1.2, up_deg=-0.7)
        held.hear("a bit right")
        point_at_the_star(held, star)
        held.hear("it's in the finder", "centred")
        (miss,) = [note for note in held.notes() if isinstance(note, MissTold)]
        assert miss.right_deg == pytest.approx(1.2, abs=1 / 60)
        assert miss.up_deg == pytest.approx(0.7, abs=1 / 60)


def test_in_the_eyepiece_too(tmp_path: Path) -> None:
    """There "a bit left" means the star's side in the view: with a mount that can be moved it is a step, else it leads to the arrows."""
    with altaz_server(**knowing()) as server, evening(server, tmp_path) as held:
        held.hear("yes", "go to the stars", "yes", "it's in the finder")
        assert _moved(held, server, "a bit right")[0] > 0.1
        assert "Centred now?" in held.said[-1]
    (tmp_path / "other").mkdir()
    with altaz_server(**knowing()) as server, evening(server, tmp_path / "other") as held:
        server.missing.add("PUT moveaxis")
        held.hear("yes", "don't move it", "go to the stars", "yes", "it's in the finder")
        assert "arrow" in held.hear("a bit right")


def test_a_clock_face_answer_steps_towards_it(tmp_path: Path) -> None:
    """Towards four o'clock is right and down, in the finder and in the eyepiece; refused at the first, no second step is tried."""
    with altaz_server(**knowing()) as server, evening(server, tmp_path) as held:
        held.hear("yes", "go to the stars", "yes")
        right, up = _moved(held, server, "it's at four o'clock")
        assert right > 0.3
        assert up < -0.3
        held.hear("it's in the finder")
        right, up = _moved(held, server, "it's at ten o'clock")
        assert right < -0.1
        assert up > 0.1
        assert "Centred now?" in held.said[-1]
        server.mount.parked = True
        held.hear("it's at ten o'clock")
        assert sum(isinstance(said, NotTurning) for said in held.sayings) == 1
