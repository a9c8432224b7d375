"""How dark the sky is here: asked once, when it can be judged, of who can tell; kept for the night, and noted for the profile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from companion.dialogue import Conversation
from companion.equipment import Equipment, Observer
from companion.messages import Answer
from companion.observing import SiteSky, darkness_from_milky_way
from companion.procedure import EVENING
from companion.procedure.night.darkness import ask_how_dark
from companion.procedure.night.state import Cloud, Night
from companion.procedure.notes import Learned
from companion.procedure.script import Context
from companion.sky import Moment, Site, find, sight
from companion.talk.jump_phrases import PackUpNow
from companion.talk.night_answers import MilkyWayAnswer, TargetAnswer
from companion.talk.night_phrases import HowDoesTheMilkyWayShow, HowManySeen, IntroduceTarget, LookAtIt
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
    """Say whether it is asked so long after the first target."""
    script = ask_how_dark(Context(SITE, start, {}, Equipment(observer=observer)), night, Reply(TargetAnswer.NEXT, start + after))
    try:
        return isinstance(next(script), HowDoesTheMilkyWayShow)
    except StopIteration:
        return False


def test_asked_when_it_can_be_judged() -> None:
    """In October with the Swan overhead and no Moon; not at once, by Moonlight, in twilight, in May (the Milky Way low), among clouds."""
    assert is_asked()
    assert not is_asked(after=timedelta(minutes=5))
    assert not is_asked(FULL_MOON)
    assert not is_asked(datetime(2026, 10, 10, 22, 30, tzinfo=UTC)), "half an hour after sunset"
    assert not is_asked(SPRING)
    cloud = Cloud(sight(find("Vega"), Moment(SITE, NEW_MOON)), NEW_MOON + timedelta(hours=1))
    assert not is_asked(night=Night(clouds=(cloud,)))


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
    script = ask_how_dark(Context(SITE, NEW_MOON, {}), Night(), Reply(TargetAnswer.NEXT, NEW_MOON + LATER))
    next(script)
    told, become = [], None
    try:
        told.append(script.send(Answer(answer, NEW_MOON + LATER)))
        next(script)
    except StopIteration as ended:
        become = ended.value
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


def _held(lines: Sequence[str]) -> tuple[list[type], Conversation]:
    """Return the kinds of question asked after each line, and the evening."""
    conversation = Conversation([stage for stage in EVENING if stage.name == "targets"], SITE, ENGLISH)
    time = NEW_MOON
    turn = conversation.begin(time)
    asked: list[type] = []
    for line in lines:
        assert turn.question is not None
        time += LATER
        turn = conversation.hear(VOCABULARY.understand(line, turn.question.expects), time)
        asked.append(type(turn.question))
    return asked, conversation
