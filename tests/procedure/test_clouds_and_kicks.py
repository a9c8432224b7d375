"""What can't be seen leads somewhere new each time, the whole sky is asked about once, and after a kick nothing has only one way."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta

import pytest

from companion import sky
from companion.dialogue.stage_run import StageRun
from companion.equipment import Equipment, Mount, Observer
from companion.messages import Answer
from companion.procedure import Context, Result, Script, Stage
from companion.procedure.align_mount import Aligned, align
from companion.procedure.arrows import last_keys
from companion.procedure.recover import Mishap, Recovered, bring_it_back
from companion.sky import Moment, Site
from companion.talk.centring_phrases import (
    ArrowsDoNotFit,
    IsItInTheFinder,
    PressRightOnce,
    SeeTheFinderIsTrue,
    SweepForIt,
    TheSkyDarkens,
    WhatDoYouSee,
)
from companion.talk.cloud_phrases import IsAnyOfItClear, WaitForTheSky, WhichPartIsClear
from companion.talk.pose_phrases import LevelAgain, NorthAgain, TubeLevelAgain
from companion.talk.saying import Answers, Ask
from companion.talk.stars_phrases import AnotherStar, FirstStar, LeaveStar
from companion.talk.targets_phrases import IsItGoodAgain, IsTheBubbleCentred, ReCentreAndSync, SendItTo, SweepForThat, ThenAlignAgain

SITE = Site(46.31, -67.52, 180, "America/Moncton")
DARK = datetime(2026, 10, 16, 0, 0, tzinfo=UTC)
DUSK = datetime(2026, 10, 15, 22, 5, tzinfo=UTC)
"""Half an hour after sunset there (skyfield by ``companion night``: 21:34 UTC)."""
KIT = Equipment(mount=Mount(star_choice="list", pose_time="before-power", last_keys="up-right"), observer=Observer("card"))


def _aligning(context: Context) -> Script:
    return (yield from align(context, context.started, "list"))


class _Kicked(Result):
    """Stands for what was recovered."""


def _recovering(context: Context) -> Script:
    mishap: Mishap = "kicked"
    recovered: Recovered = yield from bring_it_back(context, mishap, context.started)
    return recovered.aligned or _Kicked()


def _run(script: Stage, answers: Sequence[str | tuple[str, dict[str, str]]], start: datetime = DARK) -> StageRun:
    run = StageRun(script, Context(SITE, start, {}, KIT))
    for minute, answer in enumerate(answers, 1):
        command, slots = answer if isinstance(answer, tuple) else (answer, {})
        run.answer(Answer(command, start + timedelta(seconds=30 * minute), slots))
    return run


STARS, KICK = Stage("stars", _aligning), Stage("kick", _recovering)


def _asked(run: StageRun) -> list[type[Ask[Answers]]]:
    return [type(decision) for decision in run.decisions if isinstance(decision, Ask)]


def test_each_time_something_else_is_tried() -> None:
    """What is before the eye, a sweep, the finder's aim, then another star; never the same twice."""
    run = _run(STARS, ["cannot-see", "other-stars", "cannot-see", "cannot-see", "cannot-see"])
    ways = [kind for kind in _asked(run) if kind in (WhatDoYouSee, SweepForIt, SeeTheFinderIsTrue)]
    assert ways == [WhatDoYouSee, SweepForIt, SeeTheFinderIsTrue]
    assert isinstance(run.sayings[0], LeaveStar)
    assert isinstance(run.sayings[1], AnotherStar)


def test_at_dusk_it_may_only_be_too_early() -> None:
    """While the sky still darkens, ten minutes are one of the ways."""
    run = _run(STARS, ["ready", "cannot-see", "other-stars", "cannot-see", "cannot-see", "cannot-see"], DUSK)
    assert TheSkyDarkens in _asked(run)


@pytest.mark.parametrize("told", [["overcast"], ["cannot-see", "overcast"], ["cloud", "cloud"]])
def test_the_whole_sky_is_asked_about_once(told: list[str]) -> None:
    """Said to be clouded over, or two stars in a row behind clouds: one question, not a third star."""
    assert isinstance(_run(STARS, told).question, IsAnyOfItClear)


@pytest.mark.parametrize(("part", "point_deg"), [("north-west", 315.0), ("east", 90.0)])
def test_only_the_clear_part_is_looked_at(part: str, point_deg: float) -> None:
    """The next star stands within sixty degrees of the compass point that was told."""
    run = _run(STARS, ["overcast", ("clear-part", {"clear_part": part})])
    star = next(saying.star for saying in run.sayings if isinstance(saying, FirstStar))
    azimuth_deg = sky.sight(sky.find(star), Moment(SITE, DARK)).azimuth_deg
    assert abs((azimuth_deg - point_deg + 180) % 360 - 180) <= 60


def test_overhead_means_high() -> None:
    """Whoever says overhead gets a star half way up or higher, or the wait."""
    run = _run(STARS, ["overcast", ("clear-part", {"clear_part": "overhead"})])
    stars = [saying.star for saying in run.sayings if isinstance(saying, FirstStar)]
    assert all(sky.sight(sky.find(star), Moment(SITE, DARK)).altitude_deg >= 45 for star in stars)
    assert stars or isinstance(run.question, WaitForTheSky)


def test_no_clear_sky_is_waited_out_or_given_up() -> None:
    """Ready looks again from the first star on; skipping ends the alignment without asking for more stars."""
    again = _run(STARS, ["overcast", "none-clear", "ready"])
    assert isinstance(again.question, IsItInTheFinder)
    ended = _run(STARS, ["overcast", "yes", "none-clear", "skip"])
    assert WhichPartIsClear in _asked(ended)
    assert ended.result == Aligned((), (), "incomplete")


def test_the_bubble_comes_first() -> None:
    """After a kick the base is looked at before anything is centred; a leaning one is levelled, and the stars done again."""
    assert isinstance(_run(KICK, ["ready"]).question, IsTheBubbleCentred)
    levelled = _run(KICK, ["ready", "no", "ready", "ready", "ready"])
    assert isinstance(levelled.question, IsItInTheFinder)


def test_a_star_that_cannot_be_seen_has_other_ways() -> None:
    """A sweep, then another star, then the alignment again."""
    run = _run(KICK, ["ready", "yes", "cannot-see", "cannot-see"])
    assert SweepForThat in _asked(run)
    first, second = (
        decision for decision in [saying for saying in _run(KICK, ["ready", "yes"]).sayings + run.sayings if isinstance(saying, SendItTo)]
    )
    assert first.star != second.star
    given_up = _run(KICK, ["ready", "yes", *["another"] * 3])
    assert isinstance(given_up.sayings[0], ThenAlignAgain)


def test_without_sync_the_stars_teach_it() -> None:
    """A control that can't sync is told by the alignment stars again."""
    assert isinstance(_run(KICK, ["ready", "yes", "no-sync"]).sayings[0], ThenAlignAgain)


@pytest.mark.parametrize(("told", "good"), [("yes", True), ("in-eyepiece", True), ("no", False), ("cannot-see", False)])
def test_cannot_see_answers_whether_it_is_good_again(told: str, good: bool) -> None:
    """Not seeing it is an answer like no."""
    run = _run(KICK, ["ready", "yes", "ready", told])
    assert ReCentreAndSync in _asked(run)
    assert IsItGoodAgain in _asked(run)
    assert (run.result is not None) == good


def test_the_arrows_that_finished_a_star_finish_the_next() -> None:
    """The first pressed of each pair counts; the one against it doesn't replace it."""
    used = last_keys((), ("left", "down"))
    assert used == ("left", "down")
    assert last_keys(used, ("right",)) == used
    assert last_keys(("left",), ("up", "right")) == ("left", "up")


def test_beginning_again_from_level_and_north_is_coached_in_short() -> None:
    """After a mistake is mended the start position is taken again, three short steps before the first star."""
    seen = ["in-finder", "centred", "in-finder", "centred"]
    run = _run(STARS, [*seen, "failed", "skip", "ready"])
    while not isinstance(run.question, LevelAgain):
        assert run.question is not None
        run.answer(Answer("ready" if "ready" in set(run.question.expects) else "skip", DARK + timedelta(minutes=10)))
    for answer, expected in (("ready", NorthAgain), ("ready", TubeLevelAgain), ("ready", IsItInTheFinder)):
        run.answer(Answer(answer, DARK + timedelta(minutes=11)))
        assert isinstance(run.question, expected)


def test_arrows_that_do_not_fit_are_learnt_anew() -> None:
    """Told that both arrows moved the star the same way, we name no key that would be none, and ask again the next time."""
    told = [("view", {"side": "right"}), ("view", {"side": "top"}), ("view", {"side": "top"})]
    run = _run(STARS, ["in-finder", "which-arrow", *told])
    assert isinstance(run.sayings[0], ArrowsDoNotFit)
    run.answer(Answer("which-arrow", DARK + timedelta(minutes=5)))
    run.answer(Answer("view", DARK + timedelta(minutes=6), {"side": "right"}))
    assert isinstance(run.question, PressRightOnce)
