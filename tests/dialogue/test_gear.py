"""What is told of the telescope before anybody asks: it counts at once, in any line, and isn't asked for again."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from companion.dialogue import Conversation, rebuild
from companion.languages import load_language
from companion.procedure import EVENING
from companion.sky import Site
from companion.talk.check_in_phrases import NoSkyWithoutAPlace
from companion.talk.equipment_phrases import AboutYourTelescope, Aperture, FocalLength, TelescopeHeard, TownHeard, WhereAreYou
from companion.talk.sight_phrases import GearNoted
from tests.english import VOCABULARY

TIME = datetime(2026, 10, 15, 18, 30, tzinfo=UTC)


class _Evening:
    def __init__(self, site: Site | None = None) -> None:
        self.records: list[object] = []
        self.conversation = Conversation(EVENING, site, load_language(), self.records.append)
        self.turn = self.conversation.begin(TIME)

    def type(self, *lines: str) -> None:
        for line in lines:
            assert self.turn.question is not None
            self.turn = self.conversation.hear(VOCABULARY.understand(line, self.turn.question.expects, self.conversation.instead), TIME)


@pytest.mark.parametrize(
    ("line", "noted"),
    [
        ("my scope is a six inch reflector", GearNoted(152.4)),
        ("it's a goto dobsonian, ten inch", GearNoted(254.0, on_the_ground=True)),
        ("it's a goto dobsonian", GearNoted(on_the_ground=True)),
        ("150mm f5 newt", GearNoted(150.0, 750.0)),
        ("it has a red dot finder", GearNoted(finder="dot")),
    ],
)
def test_it_is_noted_where_it_is_told(line: str, noted: GearNoted) -> None:
    """The open question stands."""
    evening = _Evening()
    evening.type(line)
    assert evening.turn.sayings[0] == noted
    assert isinstance(evening.turn.question, WhereAreYou)
    known = evening.conversation.equipment.instrument
    assert (known.aperture_mm, known.focal_length_mm, known.finder) == (noted.aperture_mm, noted.focal_length_mm, noted.finder)


def test_it_stands_beside_the_answer_in_one_line() -> None:
    """All of the line is taken."""
    evening = _Evening()
    evening.type("near Bristol, 8 inch dob, f6")
    assert isinstance(evening.turn.question, TownHeard)
    assert evening.conversation.equipment.instrument.focal_length_mm == 1219.0


def test_it_is_not_asked_again() -> None:
    """The interview reads it back at once; who says no is asked for the figures. A journal has it, too."""
    evening = _Evening(Site(46.31, -67.52))
    evening.type("8 inch dob", "focal length 1200", "yes", "yes", "ask about my telescope")
    assert evening.turn.question == TelescopeHeard(203.2, 1200.0)
    evening.type("no")
    assert isinstance(evening.turn.question, Aperture)
    evening.type("200 mm")
    assert isinstance(evening.turn.question, FocalLength)
    told = rebuild(evening.records).oneself  # type: ignore[arg-type]
    assert told is not None
    assert (told.aperture_mm, told.focal_length_mm) == (203.2, 1200.0)


def test_told_at_its_own_question_it_answers_it() -> None:
    """What is told in other words than were asked for isn't asked once more beside the next question; that any may be skipped is said."""
    evening = _Evening(Site(46.31, -67.52))
    evening.type("yes", "yes", "ask about my telescope")
    assert evening.turn.sayings[0] == AboutYourTelescope()
    evening.type("I have a hundred and thirty millimetre reflector")
    assert evening.turn.sayings == (GearNoted(130.0), FocalLength())


def test_without_a_place_nobody_goes_to_the_stars() -> None:
    """They would be those of another sky."""
    evening = _Evening()
    for line in ("go to the alignment", "leave this part"):
        evening.type(line)
        assert evening.turn.sayings[0] == NoSkyWithoutAPlace()
        assert isinstance(evening.turn.question, WhereAreYou)
