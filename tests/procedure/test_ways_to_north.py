"""What the horizon hides is no way to true north and nothing to line the finder up on."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from companion.equipment import Equipment, Observer, Obstruction
from companion.languages.en.north_words import _north_from
from companion.languages.phrase import Scene
from companion.messages import Answer
from companion.procedure import Context, Script
from companion.procedure.finder import line_up_the_finder
from companion.procedure.starting_pose import take_pose
from companion.sky import Site
from companion.talk.ground_phrases import PickAMarkAfterDark
from companion.talk.pose_phrases import FaceTrueNorth, NoOtherWay, NorthByAMark, NorthByLandmark, NorthByThePole, NorthByTheSunset
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
            command = "ready" if isinstance(wanted, NoOtherWay) else answers.get(wanted.expects.rule(), "ready")
            assert type(wanted) not in found, f"{wanted} is said a second time"
            found[type(wanted)] = wanted
            wanted = script.send(Answer(command, context.started))
    except StopIteration:
        return found


def ways_to_north(context: Context) -> dict[type[Wanted], str]:
    """Ask for another way until there is none; return what is said of each way."""
    questions = asked(take_pose(context), context, north="which-way")
    moment = context.moment(context.started)
    return {kind: ENGLISH.words(question, moment, Observer()) for kind, question in questions.items() if question.expects.rule() == "north"}


def test_a_free_pole_star_is_found_from_the_plough() -> None:
    """With a free horizon the pole star is among the ways, from the Plough in the north: 46 degrees are about 4.5 fists."""
    words = ways_to_north(behind())[NorthByThePole]
    assert "Look for the Plough, or Big Dipper, in the north, two and a half fists up" in words
    assert "carry their line on: three fists, up and to the right." in words
    assert "four and a half fists up: as bright as those, and alone." in words


@pytest.mark.parametrize(("horizon", "ways"), [(WOOD_IN_THE_NORTH, {NorthByAMark}), (WOOD_ALL_ROUND, set())])
def test_a_hidden_pole_star_is_no_way(horizon: Obstruction, ways: set[type[Wanted]]) -> None:
    """Behind a wood in the north the pole star is never offered, the low Moon is; a landmark always, and in the end that that's all."""
    assert set(ways_to_north(behind(horizon))) == {NorthByLandmark, NoOtherWay, *ways}


def test_the_pole_star_is_nothing_for_who_sees_no_faint_stars() -> None:
    """Magnitude 2 is beyond eyes that don't see faint stars; the Moon is not."""
    context = behind()
    limited = replace(context.equipment, observer=Observer(compass="none", limits=frozenset({"faint-stars"})))
    assert list(ways_to_north(replace(context, equipment=limited))) == [NorthByAMark, NorthByLandmark, NoOtherWay]


def test_another_way_never_says_the_same_twice() -> None:
    """At dusk with a compass: compass, setting point, Moon, landmark, none; each once, however often one asks."""
    context = replace(behind(), started=TIME - timedelta(minutes=45), equipment=Equipment(observer=Observer(compass="needle")))
    said = ways_to_north(context)
    assert list(said) == [FaceTrueNorth, NorthByTheSunset, NorthByAMark, NorthByLandmark, NoOtherWay]
    assert len(set(said.values())) == len(said)


@pytest.mark.parametrize(
    ("facing_deg", "words"),
    [
        (258.1, "to your right: a quarter turn and a fist."),
        (214.8, "to your right: three and a half fists short of half a turn."),
        (20.0, "to your left: two fists."),
        (180.5, "North is exactly behind you."),
        (359.0, "That is north."),
        (90.0, "to your left: a quarter turn."),
    ],
)
def test_turns_to_north(facing_deg: float, words: str) -> None:
    """Worked by hand: 360 - 258 is 102 degrees, a quarter turn and a fist; 145 is half a turn less 35."""
    assert words in _north_from(facing_deg, Scene(SITE, TIME))


@pytest.mark.parametrize(
    ("horizon", "way"),
    [
        ((), "Carry its long arm on past its foot"),
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
