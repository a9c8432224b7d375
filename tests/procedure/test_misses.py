"""Where a star lay, as it is said, and what the diagnosis is given of it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from companion.messages import Heard
from companion.procedure.misses import as_request, told_miss
from companion.procedure.notes import MissTold
from companion.sky import Site
from companion.talk.answers import MissAnswer
from companion.talk.saying import Reply
from tests.english import VOCABULARY

SITE = Site(46.31, -67.52)
TIME = datetime(2026, 10, 15, 23, 0, tzinfo=UTC)


def told(said: str, star: str = "Vega", before: tuple[MissTold, ...] = ()) -> MissTold | None:
    """Return the miss that is meant by what is said."""
    heard = VOCABULARY.understand(said, MissAnswer)
    assert isinstance(heard, Heard), said
    return told_miss(star, Reply(MissAnswer(heard.command), TIME, heard.slots), before, synced=False)


@pytest.mark.parametrize(
    ("said", "turn_deg", "up_deg"),
    [
        ("it's behind me", 180.0, None),
        ("behind me and two fists up", 180.0, 20.0),
        ("a quarter turn left", -90.0, None),
        ("half a quarter turn right and a fist down", 45.0, -10.0),
        ("it's on my right", 90.0, None),
        ("over my left shoulder", -135.0, None),
    ],
)
def test_a_turn_of_the_body_is_an_azimuth(said: str, turn_deg: float, up_deg: float | None) -> None:
    """It goes to the diagnosis as a turn with its own spread, wider for "behind me"; nothing is said of the height unless it was."""
    miss = told(said)
    assert miss is not None
    assert (miss.right_deg, miss.turn_deg, miss.up_deg) == (None, turn_deg, up_deg)
    assert miss.is_large
    assert not miss.is_unseen
    (given,) = as_request(SITE, TIME, [miss], {}, "none").misses
    assert (given.right_deg, given.turn_deg, given.up_deg) == (None, turn_deg, up_deg)
    assert given.turn_sigma_deg == (30.0 if abs(turn_deg) == 180.0 else 15.0)


def test_same_as_last_time_is_that_stars_own_miss() -> None:
    """What was told of the same star before holds again; else what was told last; nothing where nothing was."""
    vega, altair = told("a fist left"), told("two fists up", star="Altair")
    assert vega is not None
    assert altair is not None
    again, other = told("same as last time", before=(vega, altair)), told("same as last time", "Deneb", (vega, altair))
    assert again is not None
    assert other is not None
    assert (again.star, again.right_deg) == ("Vega", -10.0)
    assert (other.star, other.up_deg) == ("Deneb", 20.0)
    assert told("same as last time") is None


def test_of_many_stars_the_left_ones_are_forgotten_first() -> None:
    """The mount goes from what it took in, so the stars it took in stay in the request as long as there is another to leave out."""
    names = ("Deneb", "Altair", "Mirach", "Capella", "Alpheratz")
    misses = [MissTold(star, TIME + timedelta(minutes=10 + k), -10.0, 5.0, synced=True) for k, star in enumerate(names)]
    request = as_request(SITE, TIME, misses, {"Vega": TIME, "Mirach": TIME + timedelta(minutes=14)}, "none")
    assert [miss.body.name for miss in request.misses] == ["Vega", "Altair", "Mirach", "Capella", "Alpheratz"]


def test_stars_centred_freely_are_among_the_misses() -> None:
    """In the order of the slews; each says whether the mount took in the one before."""
    altair = MissTold("Altair", TIME + timedelta(minutes=8), -10.0, 5.0, synced=True)
    request = as_request(SITE, TIME, [altair], {"Vega": TIME + timedelta(minutes=3)}, "failed")
    vega, second = request.misses
    assert (vega.body.name, vega.centred, vega.synced) == ("Vega", True, False)
    assert (second.body.name, second.centred, second.synced) == ("Altair", False, True)
    left = MissTold("Deneb", TIME + timedelta(minutes=1), 20.0, 0.0, synced=False)
    assert [miss.synced for miss in as_request(SITE, TIME, [left, altair], {"Vega": TIME + timedelta(minutes=3)}, "none").misses] == [
        False,
        False,
        True,
    ]
