"""How the way by hand is told in English."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from companion.equipment import NOTHING_KNOWN, Equipment, Instrument
from companion.languages import load_language
from companion.languages.en.by_hand_phrases import _field, _hand, step_by_finder
from companion.languages.phrase import Scene
from companion.procedure.by_hand import steps_by_hand
from companion.sky import Moment, Site, find

EVENING = Moment(Site(48.0, 16.0), datetime(2027, 1, 7, 20, tzinfo=UTC))


@pytest.mark.parametrize(
    ("fingers", "said"),
    [(1, "a finger"), (3, "three fingers"), (5, "a fist"), (6, "a fist and a finger"), (12, "two fists and two fingers")],
)
def test_fists_and_fingers(fingers: int, said: str) -> None:
    """Five fingers are a fist."""
    assert _hand(fingers) == said


@pytest.mark.parametrize(
    ("quarters", "said"),
    [
        (1, "a quarter of a finder field"),
        (2, "half a finder field"),
        (3, "three quarters of a finder field"),
        (4, "one finder field"),
        (6, "one and a half finder fields"),
        (7, "one and three quarters finder fields"),
        (8, "two finder fields"),
    ],
)
def test_finder_fields(quarters: int, said: str) -> None:
    """Fields are told to their quarter."""
    assert _field(quarters) == said


def test_a_whole_way_is_told() -> None:
    """To the galaxy in the Great Bear: a bright star first, a step by eye, then the tube moved until it is there."""
    english = load_language("en")
    told = [english.words(step, EVENING) for step in steps_by_hand(find("M 81"), EVENING, NOTHING_KNOWN, lambda _: False)]
    assert told[0].startswith("Begin at Kochab.")
    assert any("By eye, from there:" in words for words in told)
    assert "finder field" in told[-1]
    assert "Take the low-power eyepiece" in told[-1]


def test_the_finder_of_the_profile_measures_the_steps() -> None:
    """From Mirach to the Andromeda Galaxy are some eight degrees (value from memory): a field and a half of five, one field of eight."""
    for field_deg, told in ((None, "one and a half finder fields to the right"), (8.0, "one finder field to the right")):
        equipment = Equipment(Instrument(finder_field_deg=field_deg))
        *_, last = steps_by_hand(find("M 31"), EVENING, equipment, lambda _: False)
        assert told in load_language("en").words(last, EVENING)


def test_nothing_to_move_is_said_so() -> None:
    """Where the target is where we are, the tube hardly moves."""
    scene = Scene(EVENING.site, EVENING.time)
    words = step_by_finder(scene, start_ra_deg=10.0, start_dec_deg=40.0, end_ra_deg=10.1, end_dec_deg=40.0, field_deg=5.0, target=None)
    assert words == "Now move the tube hardly at all. Centre the brightest star there."
