"""How dark the sky is here: asked once, when it can be judged, of who can tell; kept for the night, and noted for the profile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from companion.dialogue import Conversation
from companion.equipment import Equipment, Observer
from companion.messages import Answer
from companion.observing import SiteSky, darkness_from_milky_way, targets
from companion.procedure import EVENING
from companion.procedure.night.darkness import ask_how_dark
from companion.procedure.night.state import Cloud, Night
from companion.procedure.notes import Learned
from companion.procedure.script import Context
from companion.sky import Moment, Site, find, sight
from companion.talk.jump_phrases import PackUpNow
from companion.talk.night_answers import MilkyWayAnswer, StarCountAnswer, TargetAnswer
from companion.talk.night_phrases import HowDoesTheMilkyWayShow, HowManySeen, HowManyStarsInside, IntroduceTarget, LookAtIt, SkyIsSoDark
from companion.talk.packing_phrases import ParkIt
from companion.talk.saying import Reply
from tests.english import ENGLISH, VOCABULARY

SITE = Site(46.31, -67.52, 180, "America/Moncton", "Spruce Ridge clearing")
NEW_MOON = datetime(2026, 10, 10, 23, 30, tzinfo=UTC)
FULL_MOON = datetime(2026, 10, 26, 23, 45, tzinfo=UTC)
SPRING = datetime(2026, 5, 16, 3, 0, tzinfo=UTC)
LATER = timedelta(minutes=25)
ANYBODY, BEGUN = Observer(), Night()


def is_asked(start: datetime = NEW_MOON, after: timedelta = LATER, observer: Observer = ANYBODY, night: Night = BEGUN) -> bool:
    """Say whether anything is asked so long after the first target."""
    return asked(start, after, observer, night) is not None


def asked(start: datetime = NEW_MOON, after: timedelta = LATER, observer: Observer = ANYBODY, night: Night = BEGUN) -> object:
    """Return what is asked so long after the first target."""
    script = ask_how_dark(Context(SITE, start, {}, Equipment(observer=observer)), night, Reply(TargetAnswer.NEXT, start + after))
    return next(script, None)


def test_asked_when_it_can_be_judged() -> None:
    """In October with the Swan overhead and no Moon; not at once, by Moonlight, in twilight, among clouds."""
    assert asked() == HowDoesTheMilkyWayShow()
    assert not is_asked(after=timedelta(minutes=5))
    assert not is_asked(FULL_MOON)
    assert not is_asked(datetime(2026, 10, 10, 22, 30, tzinfo=UTC)), "half an hour after sunset"
    cloud = Cloud(sight(find("Vega"), Moment(SITE, NEW_MOON)), NEW_MOON + timedelta(hours=1))
    assert not is_asked(night=Night(clouds=(cloud,)))


def test_stars_are_counted_where_the_milky_way_lies_low() -> None:
    """In May it doesn't pass overhead: the stars inside a high figure are asked for instead, and the answer is a sky for the night.

    Two are seen to 4.7, Bortle's town of 18.7; seventeen to 5.95, half way between his 20.0 and 21.1: as ``test_published_limits.py``.
    """
    assert asked(SPRING) == HowManyStarsInside(("Alkaid", "Cor Caroli", "Arcturus"))
    assert asked(SPRING, observer=Observer(sky_mag_arcsec2=20.5)) is None
    for count, sky_mag in ((2, 18.7), (17, 20.5)):
        outcome, told = _answered(SPRING, Answer(StarCountAnswer.STAR_COUNT, SPRING + LATER, {"number": str(count)}))
        assert told == [Learned.one("observer", "sky_mag_arcsec2", pytest.approx(sky_mag, abs=0.5))]
        assert outcome[0].site_sky == SiteSky(told[0].tables["observer"]["sky_mag_arcsec2"])


@pytest.mark.parametrize("start", [NEW_MOON, SPRING])
def test_i_don_t_know_goes_on(start: datetime) -> None:
    """Who can't tell isn't asked again, and the place's usual sky holds."""
    assert _held(["next target", "I don't know"], start)[0] == [type(asked(start)), IntroduceTarget]
    outcome, told = _answered(start, Answer("dont-know", start + LATER))
    assert (outcome[0].site_sky, told) == (None, [])


@pytest.mark.parametrize("line", ["my meter says twenty point five", "my sky meter shows 20.5"])
def test_a_meter_s_figure_told_at_any_time(line: str) -> None:
    """At a target or instead of either answer: it holds from then on, and nothing is asked any more."""
    for lines in ([line], ["next target", line]):
        questions, evening = _held([*lines, "next target", "next target"], SPRING)
        assert evening.equipment.observer.sky_mag_arcsec2 == 20.5
        assert questions[len(lines) - 1] is SkyIsSoDark
        assert questions[-2:] == [IntroduceTarget, IntroduceTarget]


def test_the_sky_that_was_told_ranks_as_the_command_s_option_does() -> None:
    """A meter's 18 gives the next target that ``--sky 18`` gives: ``observing.targets`` under that sky, and not the one under 21.8."""
    best = {}
    for sky_mag in (18.0, 21.8):
        ranked = targets(Moment(SITE, SPRING + 2 * LATER), 1, sky=SiteSky(sky_mag), unless=(_first_target(SPRING),))
        best[sky_mag] = ranked[0].sight.body.name
        conversation = Conversation([stage for stage in EVENING if stage.name == "targets"], SITE, ENGLISH)
        turn = conversation.begin(SPRING)
        for count, words in enumerate((f"my meter says {sky_mag}", "next target"), 1):
            turn = conversation.hear(VOCABULARY.understand(words, turn.question.expects), SPRING + count * LATER)  # type: ignore[union-attr]
        assert turn.question.facts["target"] == best[sky_mag]  # type: ignore[union-attr]
    assert best[18.0] != best[21.8]


def _first_target(start: datetime) -> str:
    turn = Conversation([stage for stage in EVENING if stage.name == "targets"], SITE, ENGLISH).begin(start)
    assert isinstance(turn.question, IntroduceTarget)
    return turn.question.target


def _answered(start: datetime, answer: Answer) -> tuple[Any, list[Any]]:
    """Return what the night becomes, and what is noted on the way."""
    script = ask_how_dark(Context(SITE, start, {}), Night(), Reply(TargetAnswer.NEXT, start + LATER))
    next(script)
    told: list[Any] = []
    try:
        told.append(script.send(answer))
        while True:
            told.append(next(script))
    except StopIteration as ended:
        return ended.value, told


def test_not_asked_of_whom_it_is_no_use() -> None:
    """Who sees no faint stars can't tell; whose profile knows has told; nobody is asked twice."""
    assert not is_asked(observer=Observer(limits=frozenset({"faint-stars"})))
    assert not is_asked(observer=Observer(sees_milky_way=True))
    assert not is_asked(observer=Observer(sees_milky_way=False))
    assert not is_asked(night=Night(asked_how_dark=True))


@pytest.mark.parametrize(
    ("answer", "shows", "noted"),
    [
        (MilkyWayAnswer.EASILY, "overhead", True),
        (MilkyWayAnswer.FAINTLY, "washed out", True),
        (MilkyWayAnswer.JUST, "barely", False),
        (MilkyWayAnswer.NOT_AT_ALL, "unseen", False),
        (MilkyWayAnswer.SKIP, None, None),
    ],
)
def test_what_each_answer_means(answer: MilkyWayAnswer, shows: str | None, noted: bool | None) -> None:
    """A sky of Berry's scale of 1976 for the night, seen or not for the profile; skipped, neither, and it isn't asked again."""
    become, told = _answered(NEW_MOON, Answer(answer, NEW_MOON + LATER))
    expected = None if shows is None else SiteSky(darkness_from_milky_way(shows))  # type: ignore[arg-type]
    assert become == (replace(Night(), site_sky=expected, asked_how_dark=True), Reply(TargetAnswer.NEXT, NEW_MOON + LATER))
    assert told == ([] if noted is None else [Learned.one("observer", "sees_milky_way", noted)])


def test_asked_once_between_two_targets() -> None:
    """The target after it is introduced as ever; the profile may have it, only if that is wanted at the end."""
    asked, evening = _held(["next target", "a faint band", "next target", "next target"])
    assert asked.count(HowDoesTheMilkyWayShow) == 1
    assert asked[-1] is IntroduceTarget
    assert evening.equipment.observer.sees_milky_way is True
    assert not evening.wants_to_be_remembered


def test_who_wants_something_else_gets_that() -> None:
    """Any answer of the night does what it does; the question doesn't come again, and nothing is noted."""
    asked, evening = _held(["next target", "next target", "how many have we seen", "planets", "next target"])
    assert asked[:3] == [HowDoesTheMilkyWayShow, IntroduceTarget, HowManySeen]
    assert asked.count(HowDoesTheMilkyWayShow) == 1
    assert evening.equipment.observer.sees_milky_way is None
    assert _held(["next target", "found it"])[0][-1] is LookAtIt


@pytest.mark.parametrize("words", ["good night", "that's all"])
def test_good_night_there_leads_to_packing_up(words: str) -> None:
    """As at any question of the night: it is asked whether to pack up, and a yes begins with the first step."""
    conversation = Conversation([stage for stage in EVENING if stage.name in ("targets", "good-night")], SITE, ENGLISH)
    time, turn = NEW_MOON, conversation.begin(NEW_MOON)
    questions = []
    for line in ("next target", words, "yes"):
        assert turn.question is not None
        time += LATER
        turn = conversation.hear(VOCABULARY.understand(line, turn.question.expects), time)
        questions.append(type(turn.question))
    assert questions == [HowDoesTheMilkyWayShow, PackUpNow, ParkIt]


def _held(lines: Sequence[str], start: datetime = NEW_MOON) -> tuple[list[type], Conversation]:
    """Return the kinds of question asked after each line, and the evening."""
    conversation = Conversation([stage for stage in EVENING if stage.name == "targets"], SITE, ENGLISH)
    time = start
    turn = conversation.begin(time)
    asked: list[type] = []
    for line in lines:
        assert turn.question is not None
        time += LATER
        turn = conversation.hear(VOCABULARY.understand(line, turn.question.expects), time)
        asked.append(type(turn.question))
    return asked, conversation
