"""What is known of an answer before it is heard: by the sky, the clock and the place."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from companion import sky
from companion.dialogue import Conversation
from companion.dialogue.expectations import LIKELY, expected_at
from companion.languages import load_language
from companion.messages import Heard
from companion.procedure import Context, Done, Script, Stage, ask
from companion.sky import Moment, Site
from companion.talk.check_in_phrases import IsThePlaceRight, TellMeTheDate, TellMeTheTime
from companion.talk.equipment_phrases import Aperture, FocalLength, WhichEyepiece, YourLatitude, YourLongitude
from companion.talk.guidance_phrases import DidYouSay
from companion.talk.saying import Answers, Ask
from companion.talk.stars_phrases import WhichStarDoesItName
from companion.vocabulary import load_vocabulary

VOCABULARY = load_vocabulary(load_language())
HERE = Moment(Site(46.3, 7.6, zone="Europe/Zurich"), datetime(2026, 11, 26, 20, 15, tzinfo=UTC))
"""A quarter past nine in the evening, by the clocks there."""


def weight(words: str, question: Ask[Answers], *, place_is_known: bool = True) -> float:
    """Return how likely words are as an answer, by what is known beforehand."""
    heard = VOCABULARY.understand(words, question.expects)
    assert isinstance(heard, Heard), words
    expected = expected_at(question, HERE, place_is_known=place_is_known)
    assert expected is not None
    return expected.weight(heard.command, heard.slots)


@pytest.mark.parametrize(
    ("question", "likelier", "less_likely"),
    [
        (TellMeTheTime(), "nine twelve pm", "five past two"),
        (TellMeTheTime(), "quarter past nine", "ten past ten"),
        (TellMeTheTime(), "ten to ten", "ten past four"),
        (TellMeTheDate(), "twenty seventh of November", "twentieth of December"),
        (TellMeTheDate(), "twentieth of December", "seventh of June"),
        (YourLatitude(), "forty six degrees eighteen minutes north", "sixty six degrees eighteen minutes north"),
        (YourLatitude(), "forty six degrees eighteen minutes north", "forty six degrees eighteen minutes south"),
        (YourLatitude(), "fifty four degrees north", "seven degrees east"),
        (YourLongitude(), "seven degrees east", "seven degrees west"),
        (Aperture(), "one hundred and fifty", "one thousand"),
        (FocalLength(), "twelve hundred", "seventy"),
        (WhichEyepiece(), "twenty five", "fifty five"),
        (WhichStarDoesItName(again=False), "it says Capella", "it says Antares"),
        (WhichStarDoesItName(again=False), "it says Aldebaran", "it says Alderamin"),
        (WhichStarDoesItName(again=False), "it begins with C A P", "it begins with A N T"),
    ],
)
def test_the_likelier_answer(question: Ask[Answers], likelier: str, less_likely: str) -> None:
    """Of two answers the one that is nearer to what is known weighs more."""
    assert 0 < weight(less_likely, question) < weight(likelier, question) <= 1


def test_names_weigh_as_the_almanac_has_them() -> None:
    """Against positions of the sky's own rooms, which astropy checks: what is up is likely, what is down never impossible."""
    expected = expected_at(WhichStarDoesItName(again=False), HERE, place_is_known=True)
    assert expected is not None
    for seen in sky.sights(sky.nameable(), HERE):
        given = expected.weight("star-name", {"star": seen.body.name})
        bright = seen.magnitude is not None and seen.magnitude <= 2
        assert (given >= LIKELY) == (seen.altitude_deg >= 10 or (seen.altitude_deg >= 0 and bright))
        assert given > 0


def test_without_a_place_any_inhabited_latitude_will_do() -> None:
    """Nobody lives at 88 degrees south; no latitude ends in west."""
    assert weight("thirty three degrees south", YourLatitude(), place_is_known=False) == 1
    assert weight("eighty eight degrees south", YourLatitude(), place_is_known=False) <= LIKELY
    assert weight("thirty three degrees west", YourLatitude(), place_is_known=False) < LIKELY


def test_what_is_no_figure_and_no_date_weighs_what_it_should() -> None:
    """A word that holds no figure is as likely as any; a day no year has is not."""
    assert weight("skip this", YourLatitude()) == 1
    assert weight("thirty first of June", TellMeTheDate()) < LIKELY


def test_of_other_questions_nothing_is_known() -> None:
    """Most questions leave all answers alike."""
    assert expected_at(IsThePlaceRight(), HERE, place_is_known=True) is None


def _one_latitude(_: Context) -> Script:
    yield from ask(YourLatitude())
    return Done()


def test_what_would_surprise_is_asked_back_though_it_was_heard_well() -> None:
    """Near the place that is known 0.9 will do; a latitude of the other half of the world is asked back."""
    near, far = (
        Heard("forty six degrees " + side, "coordinate", {"whole": "40 6", "side": side[0].upper()}, 0.9) for side in ("north", "south")
    )
    for heard, is_asked_back in ((near, False), (far, True), (replace(far, confidence=0.97), False)):
        talk = Conversation([Stage("place", _one_latitude)], HERE.site, load_language())
        talk.begin(HERE.time)
        turn = talk.hear(heard, HERE.time)
        assert (turn.sayings[:1] == (DidYouSay(heard.phrase),)) == is_asked_back
