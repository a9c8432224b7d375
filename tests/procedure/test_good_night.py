"""Packing up: one thing at a time, the hazard before the deed, and short for who knows the rest."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from itertools import pairwise

import pytest

from companion.dialogue import Conversation
from companion.equipment import Equipment, Eyepiece, Instrument
from companion.procedure import EVENING, Stage
from companion.procedure.good_night import good_night
from companion.sky import Site
from tests.english import ENGLISH, VOCABULARY

SITE = Site(46.31, -67.52, zone="America/Moncton")
AT_NIGHT, BY_DAY = datetime(2026, 7, 10, 5, 0, tzinfo=UTC), datetime(2026, 7, 10, 17, 0, tzinfo=UTC)
EQUIPMENT = Equipment(Instrument(200, 1000, (Eyepiece(10), Eyepiece(25), Eyepiece(6)), has_diagonal=True))
STEPS = ("park", "plug", "put the caps", "eyepieces", "cables", "clamp", "torch", "At home")


def _told(*said: str, time: datetime = AT_NIGHT, equipment: Equipment = EQUIPMENT) -> Iterator[str]:
    """Yield what is said first, and after each of these words; the evening must then be over if "the end" is the last of them."""
    conversation = Conversation([Stage("good-night", good_night)], SITE, ENGLISH, equipment=equipment)
    turn = conversation.begin(time)
    yield " ".join(conversation.words(saying, time) for saying in turn.sayings)
    for words in said:
        if words == "the end":
            assert turn.finished
            return
        assert turn.question is not None, words
        turn = conversation.hear(VOCABULARY.understand(words, turn.question.expects), time)
        yield " ".join(conversation.words(saying, time) for saying in turn.sayings)
    assert not turn.finished


def test_one_thing_at_a_time() -> None:
    """Park, power, caps, eyepieces, cables, the weight, the ground, and at home; each waits for "done" or "next"."""
    told = [*_told("done", "next please", "done", "done", "that's done", "done", "skip this", "the end")]
    assert len(told) == len(STEPS)
    for words, step in zip(told, STEPS, strict=True):
        assert step.lower() in words.lower()
        assert words.count(".") + words.count("?") <= 5


def test_what_was_never_switched_on_is_not_switched_off() -> None:
    """By hand, with the power left out, nothing is parked nor switched off; caps and all the rest stay."""
    stages = [stage for stage in EVENING if stage.name in ("power", "reference-stars", "targets", "good-night")]
    conversation = Conversation(stages, SITE, ENGLISH, equipment=EQUIPMENT)
    turn, said = conversation.begin(AT_NIGHT), []
    for words in ("leave this part", "leave this part", "that's all", "yes", *["done"] * 5):
        assert turn.question is not None, words
        turn = conversation.hear(VOCABULARY.understand(words, turn.question.expects), AT_NIGHT)
        said.append(" ".join(conversation.words(saying, AT_NIGHT) for saying in turn.sayings))
    packing = " ".join(said[3:])
    assert "Put the caps" in said[3]
    assert "Good night" in said[-1]
    for word in ("park", "witch", "plug"):
        assert word not in packing


def test_the_hazard_comes_first() -> None:
    """Hands are clear before it parks, off before unplugged, cables before anything is carried, a hold on the tube before a clamp."""
    everything = " ".join(_told(*["done"] * 7, "the end"))
    order = (
        "hands clear",
        "Park the mount",
        "Switch it off",
        "dry hands",
        "cables",
        "Hold the tube",
        "loosen a clamp",
        "bent knees",
        "torch",
    )
    places = [everything.index(words) for words in order]
    assert all(one < other for one, other in pairwise(places)), places


def test_by_day_the_caps_come_first() -> None:
    """Nothing turns an open tube while the Sun is up."""
    first, second, *_ = _told("done", time=BY_DAY)
    assert first.startswith("The Sun is up. Before anything moves, cap tube and finder")
    assert "Park the mount" in second


def test_by_day_who_knows_the_rest_is_told_of_the_caps() -> None:
    """The Sun's caution is not left out with the steps."""
    *_, last = _told("that's all", "the end", time=BY_DAY)
    assert last.startswith("The Sun is up: caps on before anything moves.")


@pytest.mark.parametrize(
    ("equipment", "counted"),
    [
        (EQUIPMENT, "Three eyepieces and the diagonal into the box, dust caps on. Twenty-five, ten and six. Are they all there?"),
        (Equipment(Instrument(eyepieces=(Eyepiece(9.7),))), "One eyepiece into the box, dust caps on. Are they all there?"),
        (Equipment(), "The eyepieces into the box, dust caps on. Are they all there?"),
    ],
)
def test_eyepieces_are_counted_against_the_profile(equipment: Equipment, counted: str) -> None:
    """As many as are known, by their figures; where one is missing, where to look comes before the count again."""
    *_, asked, missing = _told("done", "done", "done", "one is missing", equipment=equipment)
    assert asked.startswith(counted)
    assert missing.startswith("Stand still first. Look in the focuser and your pockets")
    assert missing.endswith(asked)


@pytest.mark.parametrize(
    ("done", "cautions"),
    [(0, ["Hands clear", "Hold the tube", "bent knees"]), (3, ["Hold the tube", "bent knees"]), (6, ["At home"])],
)
def test_that_is_all_leaves_only_the_cautions(done: int, cautions: list[str]) -> None:
    """Whoever knows the rest hears only what can still hurt, and nothing that is behind them."""
    *_, last = _told(*["done"] * done, "that's all", "the end")
    assert last.endswith("Good night.")
    assert all(words in last for words in cautions)
    assert ("Hands clear" in last) == (done == 0)
