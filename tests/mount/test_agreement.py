"""Where the observer and the line say different things it is asked, and the observer is believed in the end."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.procedure.notes import StarRead
from companion.talk.mount_phrases import DoesItStandStill, IsItReallyThat, ItSaysItTurns, WhatTheReadingsTell
from companion.talk.stars_phrases import FindStar, FirstStar
from tests.mount.altaz_server import altaz_server
from tests.mount.evening import Evening, evening, knowing
from tests.mount.test_target_turns import at_the_targets
from tests.mount.test_turning import point_at_the_star, slews


def _at_the_first_star(held: Evening) -> str:
    held.hear("yes", "go to the stars", "yes")
    (star,) = [said.star for said in held.sayings if isinstance(said, FirstStar)]
    point_at_the_star(held, star)
    return star


def test_a_star_called_centred_while_it_turns_is_asked_and_not_synced(tmp_path: Path) -> None:
    """The line says that it turns: asked; a no asks on, a yes is believed, and what turns is told nothing."""
    with altaz_server(**knowing()) as server, evening(server, tmp_path) as held:
        _at_the_first_star(held)
        server.values["slewing"] = True
        held.hear("it stopped")
        assert isinstance(held.turn.question, DoesItStandStill)
        held.hear("yes", "it's in the finder", "centred")
        assert isinstance(held.turn.question, DoesItStandStill)
        assert "Centred now?" in held.hear("no")
        held.hear("centred", "yes")
        assert not [request for request in server.requests if "sync" in request and request.startswith("PUT")]


def test_a_star_called_centred_far_from_it_is_asked(tmp_path: Path) -> None:
    """It reads itself 30 degrees off: asked; no leads back to the star, yes goes on and isn't asked again."""
    with altaz_server(**knowing()) as server, evening(server, tmp_path) as held:
        star = _at_the_first_star(held)
        point_at_the_star(held, star, up_deg=-30.0)
        asked = held.hear("it's in the finder", "centred")
        assert isinstance(held.turn.question, IsItReallyThat)
        assert "thirty degrees away" in asked
        held.hear("no")
        assert isinstance(held.turn.question, FindStar)
        assert not [note for note in held.notes() if isinstance(note, StarRead)]
        held.hear("it's in the finder", "centred", "yes")
        assert [note.star for note in held.notes() if isinstance(note, StarRead)] == [star]


def test_a_slew_called_over_that_goes_on_is_asked(tmp_path: Path) -> None:
    """After "it has arrived" or "it was halted" the line says that it turns: it is asked, and goes on being watched."""
    with altaz_server(**knowing(rate_deg_s=1.0)) as server, evening(server, tmp_path) as held:
        at_the_targets(held)
        held.hear("turn there")
        held.hear("it has arrived")
        assert isinstance(held.turn.question, ItSaysItTurns)
        held.hear("it was halted")
        assert isinstance(held.turn.question, ItSaysItTurns)
        server.mount.altitude_deg -= 40.0
        held.until_said("so I halted it", 4.0)
        assert slews(server) == 1


@pytest.mark.parametrize(("rms_deg", "said"), [(0.3, "agree to"), (52.0, "don't fit together")])
def test_readings_of_no_one_sky_are_not_called_agreed(tmp_path: Path, rms_deg: float, said: str) -> None:
    """A star believed against its reading may be another one: then the readings don't fit, and that is said."""
    with altaz_server(**knowing()) as server, evening(server, tmp_path) as held:
        assert said in held.session.words(WhatTheReadingsTell(rms_deg, None))
