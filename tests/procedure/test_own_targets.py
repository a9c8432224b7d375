"""The observer's own objects in the night and before it: offered, told of, found again after a crash, though the sky has no such name."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from companion import observing
from companion.cli import main
from companion.dialogue import Conversation, rebuild
from companion.equipment import Equipment
from companion.messages import NotNow
from companion.observing.night_ahead import night_ahead
from companion.procedure import EVENING
from companion.procedure.night.offer import body_of, offers
from companion.procedure.night.state import Night
from companion.procedure.prepare import best_of
from companion.sky import Body, Moment, Place, Site
from companion.talk.night_phrases import FindTarget, IntroduceTarget, SayNextTarget
from tests.english import ENGLISH, VOCABULARY

TARGETS = [stage for stage in EVENING if stage.name == "targets"]
SITE = Site(46.31, -67.52, 180, "America/Moncton", "Spruce Ridge clearing")
START = datetime(2026, 10, 15, 23, 30, tzinfo=UTC)
MINE = Body("Gate Post Cluster", "user", 4.0, place=Place(300.0, 30.0), size_arcmin=20.0)
SHADE = Body("Farm Road Pair", "user", 5.0, place=Place(320.0, 40.0))


def test_offered_with_the_rest() -> None:
    """Among the best of the evening; without a list nothing of the kind, and the body is the list's."""
    moment = Moment(SITE, START)
    offered = {one.body for one in offers(moment, Equipment(), Night(own=(MINE,)), "anything", 80)}
    assert MINE in offered
    assert len(offered) > 10
    assert not any(one.body.kind == "user" for one in offers(moment, Equipment(), Night(), "anything", 80))
    assert body_of(MINE.name, Night(own=(MINE,))) == MINE


def test_told_of_in_the_night(rank_by: Callable[[Any], None]) -> None:
    """Introduced, asked about, written down and gone back to; after a crash the evening stands at the same one."""
    rank_by(partial(_only_own, observing.targets))
    records: list[Any] = []
    night = Conversation(TARGETS, SITE, ENGLISH, records.append, own=(MINE, SHADE))
    turn = night.begin(START)

    def says(line: str) -> str:
        nonlocal turn
        assert turn.question is not None
        turn = night.hear(VOCABULARY.understand(line, turn.question.expects), START)
        return " ".join(night.words(saying, START) for saying in turn.sayings)

    assert isinstance(turn.question, IntroduceTarget)
    first = turn.question.target
    assert "from your own list" in night.words(turn.question, START)
    assert says("what should I see").startswith("I don't know how it looks.")
    for line in ("where is it", "tell me more", "is it well placed", "how long till it sets", "I'm lost", "nothing there"):
        assert says(line), line
    for line in ("seen it", "easily", "skip this", "skip this", "skip this"):
        says(line)
    noted = next(record["facts"]["observation"] for record in records if record.get("what") == "observed")
    assert (noted["target"], noted["kind"]) == (first, "user")
    says("next target")
    assert first in says("back to the last one")
    resumed = Conversation(TARGETS, SITE, ENGLISH, own=(MINE, SHADE)).resume(rebuild(records), START)
    assert resumed.question == turn.question
    without = Conversation(TARGETS, SITE, ENGLISH).resume(rebuild(records), START)
    assert not isinstance(without.question, FindTarget), "what is no longer on the list is not gone on with"


def test_the_own_list_is_wished_for() -> None:
    """By voice no name of it is known, but the list is: "something from my list"."""
    night = Conversation(TARGETS, SITE, ENGLISH, own=(MINE, SHADE))
    turn = night.begin(START)
    assert turn.question is not None
    turn = night.hear(VOCABULARY.understand("something from my list", turn.question.expects), START)
    assert isinstance(turn.question, IntroduceTarget)
    assert turn.question.target in {MINE.name, SHADE.name}


def _only_own(targets: Any, moment: Moment, count: int, *hidden: Any, **how: Any) -> Any:
    return targets(moment, count, *hidden, **how | {"kinds": ("user",)})


def test_not_to_miss_holds_them(capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """By day they are weighed with the rest, and the command reads the file; one that can't be read is one line."""
    ahead = night_ahead(Moment(SITE, datetime(2026, 10, 15, 15, 0, tzinfo=UTC)))
    usual = best_of(ahead, Equipment())
    assert MINE in {target.sight.body for target in ahead.not_to_miss(60, Equipment(), own=(MINE,))}
    assert best_of(ahead, Equipment(), (MINE,)) == usual, "what everybody should see comes before it"
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    (tmp_path / "objects.csv").write_text("name,ra\n", encoding="utf-8")
    for command in ("prepare", "start"):
        assert main([command, "--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T15:00:00Z"]) == 2
        assert "objects.csv: row 1" in capsys.readouterr().err


@pytest.mark.parametrize(
    "line",
    ["show me my quasar", "My Quasar", "let's see My Quasar", "where is my quasar?", "go to my quasar next"],
)
def test_asked_for_by_its_name_as_typed(line: str) -> None:
    """No grammar has its name: it is taken as a name that one has would be."""
    vocabulary = replace(VOCABULARY, own_names=("My Quasar", "Quasar"))
    heard = vocabulary.understand(line, SayNextTarget.expects, SayNextTarget.also)
    assert isinstance(heard, NotNow)
    assert (heard.command, dict(heard.slots)) == ("show-me", {"name": "My Quasar"})


def test_another_word_of_its_name_is_no_name() -> None:
    """Only the whole name counts, and only where it is wanted."""
    vocabulary = replace(VOCABULARY, own_names=("Next",))
    assert vocabulary.understand("next target", SayNextTarget.expects, SayNextTarget.also) == VOCABULARY.understand(
        "next target", SayNextTarget.expects
    )
