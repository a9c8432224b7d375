"""Whatever is asked in the night, what is wanted instead may be said: it is no dead end, and costs no bare "no" first."""

from __future__ import annotations

from datetime import timedelta

import pytest

from companion.equipment import Equipment, Instrument
from companion.procedure import EVENING
from companion.procedure.by_hand import steps_by_hand
from companion.procedure.night.search import measured_anew
from companion.procedure.night.state import Night, WayTaken
from companion.sky import Moment, find
from companion.talk import night_phrases as say
from companion.talk.by_hand_phrases import StartByHand, StepByFinder
from companion.talk.guidance_phrases import DoYouMean
from companion.talk.jump_phrases import PackUpNow
from companion.talk.night_phrases import IntroduceTarget
from companion.talk.observation_phrases import HowDidItShow
from tests.procedure.test_night import SITE, START, Evening


def test_a_guess_is_passed_by() -> None:
    """What a line was taken for is asked back; who says another thing then has that done, and the guess is forgotten."""
    evening = Evening(kit=Equipment())
    evening.says("would you jot that down for me")
    assert isinstance(evening.turn.question, DoYouMean)
    evening.says("show me Saturn")
    assert isinstance(evening.turn.question, IntroduceTarget)
    assert evening.turn.question.target == "Saturn"
    evening.says("would you jot that down for me")
    assert evening.says("how many have we seen").startswith("None so far.")
    assert not isinstance(evening.turn.question, DoYouMean)
    evening.says("would you jot that down for me")
    evening.says("a great big cloud has covered everything")
    assert evening.turn.question == DoYouMean("cloud's coming")
    assert "Then away from it" in evening.says("yes")


@pytest.mark.parametrize("leaving", ["that's all", "good night", "pack up"])
def test_packing_up_is_passed_by(leaving: str) -> None:
    """Asked whether to pack up, one more is no, and the one more; the same said again is yes."""
    evening = Evening(kit=Equipment(), stages=[stage for stage in EVENING if stage.name in ("targets", "good-night")])
    evening.says(leaving)
    assert isinstance(evening.turn.question, PackUpNow)
    evening.says("one more")
    assert isinstance(evening.turn.question, IntroduceTarget)
    evening.says("that's all")
    evening.says("no")
    assert isinstance(evening.turn.question, say.SayNextTarget)
    evening.says("that's all")
    evening.says(leaving)
    assert evening.turn.stage == "good-night"


def test_how_dark_it_is_is_passed_by() -> None:
    """Who would rather see something than judge the Milky Way is led there."""
    evening = Evening(kit=Equipment())
    evening.says("next target", timedelta(hours=2))
    assert isinstance(evening.turn.question, say.HowDoesTheMilkyWayShow | say.HowManyStarsInside)
    assert evening.says("show me Albireo").startswith("Albireo")
    assert isinstance(evening.turn.question, IntroduceTarget)


def test_in_the_form_a_line_is_taken_for_what_it_is_about() -> None:
    """What the form doesn't understand may be about the night: it is asked back, as at a target."""
    evening = Evening(kit=Equipment())
    evening.says("seen it")
    assert isinstance(evening.turn.question, HowDidItShow)
    evening.says("a great big cloud has covered everything")
    assert isinstance(evening.turn.question, DoYouMean)
    assert "Then away from it" in evening.says("yes")


def test_another_finder_measures_the_way_anew() -> None:
    """Told in the midst of it how wide the finder shows, the way goes on by that, from the star one is at where that is on it."""
    body, moment = find("M 13"), Moment(SITE, START)
    narrow, wide = (Equipment(Instrument(80, 480, finder="optical", finder_field_deg=field)) for field in (4.0, 8.0))
    steps = steps_by_hand(body, moment, narrow, lambda _: False)
    assert any(isinstance(step, StepByFinder) for step in steps)
    night = Night(way=WayTaken(steps, 0), finder_field_deg=8.0)
    found = measured_anew(night, body, moment, wide, lambda _: False)
    assert found is not None
    on, question = found
    assert isinstance(question, StartByHand)
    assert {step.field_deg for step in on.way.steps if isinstance(step, StepByFinder)} == {8.0}
    assert measured_anew(Night(), body, moment, wide, lambda _: False) is None


def test_the_way_by_hand_goes_by_the_finder_told_last() -> None:
    """At a step of the way the finder's width is taken, and the step is asked anew."""
    evening = Evening(kit=Equipment())
    evening.says("show me the Andromeda Galaxy")
    for _ in range(12):
        if isinstance(evening.turn.question, StartByHand):
            break
        evening.says("nothing there")
    assert isinstance(evening.turn.question, StartByHand)
    assert evening.says("my finder shows seven degrees").startswith("Seven degrees. I measure the way by hand in that. Begin at")


def test_a_bare_name_is_led_to() -> None:
    """At a target a thing's name alone means that it is wanted."""
    evening = Evening(kit=Equipment())
    assert evening.says("Messier thirteen").startswith("Hercules Cluster, Messier thirteen")
    assert isinstance(evening.turn.question, IntroduceTarget)


def test_a_wish_that_nothing_answers_is_not_kept() -> None:
    """Where there is none of a kind, the night goes on as before, and isn't said to have no more of it."""
    evening = Evening(kit=Equipment())
    assert evening.says("something from my list").startswith("No things from your own list")
    assert "own list" not in evening.says("next target")
