"""What the horizon hides is no way to true north and nothing to line the finder up on."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from companion.equipment import Equipment, Observer, Obstruction
from companion.messages import Answer
from companion.procedure import Context, Script
from companion.procedure.finder import line_up_the_finder
from companion.procedure.starting_pose import take_pose
from companion.sky import Site
from companion.talk.ground_phrases import PickAMarkAfterDark
from companion.talk.pose_phrases import NorthByLandmark, NorthByThePole
from companion.talk.saying import Answers, Ask, Wanted
from tests.interview import ENGLISH, SITE, TIME

SYDNEY, JULY = Site(-33.8688, 151.2093, zone="Australia/Sydney"), datetime(2026, 7, 10, 9, tzinfo=UTC)
WOOD_IN_THE_NORTH = Obstruction(300.0, 60.0, 60.0)
WOOD_ALL_ROUND = Obstruction(0.0, 360.0, 60.0)


def behind(*horizon: Obstruction, site: Site = SITE, time: datetime = TIME) -> Context:
    """Return an evening without a compass, behind such a horizon."""
    return Context(site, time, {}, Equipment(observer=Observer(compass="none"), horizon=horizon))


def asked(script: Script, context: Context, **answers: str) -> dict[type[Wanted], Ask[Answers]]:
    """Answer the questions of a script, by the rule expected; return them by their class."""
    found: dict[type[Wanted], Ask[Answers]] = {}
    wanted = next(script)
    try:
        while True:
            if not isinstance(wanted, Ask):
                wanted = next(script)
                continue
            command = "ready" if type(wanted) in found else answers.get(wanted.expects.rule(), "ready")
            found[type(wanted)] = wanted
            wanted = script.send(Answer(command, context.started))
    except StopIteration:
        return found


def ways_to_north(context: Context) -> dict[type[Wanted], str]:
    """Ask for another way until the first comes again; return what is said of each way."""
    questions = asked(take_pose(context), context, north="which-way")
    moment = context.moment(context.started)
    return {kind: ENGLISH.words(question, moment, Observer()) for kind, question in questions.items() if question.expects.rule() == "north"}


def test_a_free_pole_star_shows_north() -> None:
    """With a free horizon the pole star is among the ways, where it stands told in fists: 46 degrees up are about four and a half."""
    assert "The pole star stands due north, four and a half fists up." in ways_to_north(behind())[NorthByThePole]


@pytest.mark.parametrize("horizon", [WOOD_IN_THE_NORTH, WOOD_ALL_ROUND])
def test_a_hidden_pole_star_is_no_way(horizon: Obstruction) -> None:
    """Behind a wood in the north the pole star is never offered; a landmark is."""
    assert set(ways_to_north(behind(horizon))) == {NorthByLandmark}


@pytest.mark.parametrize(
    ("horizon", "way"),
    [
        ((), "Carry the long arm of the Cross on"),
        ((Obstruction(150.0, 250.0, 66.0),), None),
    ],
)
def test_the_southern_cross_is_a_way_where_it_is_free(horizon: tuple[Obstruction, ...], way: str | None) -> None:
    """In July the Cross over Sydney shows the way, unless something stands before it."""
    ways = ways_to_north(behind(*horizon, site=SYDNEY, time=JULY))
    assert (NorthByThePole in ways) == (way is not None)
    assert way is None or way in ways[NorthByThePole]


def test_the_finder_is_lined_up_on_what_is_free() -> None:
    """After dark the mark is the pole star; behind a wood in the north the Moon, behind one all round a lamp."""

    def mark(*horizon: Obstruction) -> object:
        context = behind(*horizon, time=TIME + timedelta(days=7))
        questions = asked(line_up_the_finder(context), context, yes_no="yes", finder_check="agrees")
        return questions[PickAMarkAfterDark].facts["mark"]

    assert mark() == "Polaris"
    assert mark(WOOD_IN_THE_NORTH) == "Moon"
    assert mark(WOOD_ALL_ROUND) == "lamp"
