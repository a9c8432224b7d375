"""The journal and going on from it: torn, damaged and foreign files, another companion, changed scripts."""

from __future__ import annotations

import stat
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from companion.dialogue import Conversation, Journal, JournalError, Record, read_journal, rebuild
from companion.dialogue.memory import same_decisions
from companion.errors import BadRequest
from companion.languages import load_language
from companion.messages import Heard
from companion.procedure import EVENING, Context, Done, Result, Script, Stage, ask
from companion.procedure.script import Steps
from companion.sky import Site
from companion.talk.answers import ReadyAnswer, YesNoAnswer
from companion.talk.saying import Ask, Note, Say

SITE = Site(46.31, -67.52, zone="America/Moncton")
START = datetime(2026, 10, 15, 22, 0, tzinfo=UTC)
ANSWERS = [
    *("yes", "yes", "ready"),  # check-in
    *("ready", "ready", "go-back", "ready", "ready", "ready"),  # ground
    "no",  # finder
    *("before-power", "ready", "card", "which-way", "ready", "ready"),  # starting pose
    *("dead", "ready"),  # power
    *("next", "go-back", "zone", "next", "month-first", "next", "next", "all-in"),  # settings
    *("list", "in-finder", "centred", "another", "in-finder", "gone", "in-finder", "centred", "success"),  # reference stars
    "in-eyepiece",  # proof
    *("next", "skip", "next"),  # targets
    "yes",  # good night
]


ENGLISH = load_language("en")


class First(Ask[YesNoAnswer]): ...


class Second(Ask[ReadyAnswer]): ...


class Third(Ask[ReadyAnswer]): ...


class Another(Ask[ReadyAnswer]): ...


class Never(Say): ...


@dataclass(frozen=True)
class Took(Note):
    """What was answered."""

    answer: str


@dataclass(frozen=True)
class Taken(Result):
    """What the first stage found out."""

    took: str


@dataclass(frozen=True)
class Before(Result):
    """What was found out before."""

    before: str


def _first(context: Context) -> Steps[Taken]:
    answer = yield from ask(First())
    yield Took(answer.command)
    yield from ask(Second())
    return Taken(answer.command)


def _second(context: Context) -> Script:
    yield from ask(Third())
    return Done()


ONE, TWO = Stage("one", _first, Taken), Stage("two", _second)


def _hold(stages: tuple[Stage, ...], answers: list[str], record: list[Record]) -> Conversation:
    conversation = Conversation(stages, SITE, ENGLISH, record.append)
    conversation.begin(START)
    for minute, command in enumerate(answers, 1):
        conversation.hear(Heard(command, command), START + timedelta(minutes=minute))
    return conversation


def test_what_is_written_is_read_back(tmp_path: Path) -> None:
    """Records come back in order, across closing and opening; only the owner may read them."""
    path = tmp_path / "home" / "evening.jsonl"
    for number in (1, 2):
        with Journal(path) as journal:
            journal.append({"kind": "answer", "command": f"größer {number}", "slots": {}, "time": START.isoformat()})
            journal.sync()
    kept = read_journal(path)
    assert [record["command"] for record in kept.records] == ["größer 1", "größer 2"]
    assert kept.flaw is None
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


@pytest.mark.parametrize(
    ("spoil", "flaw", "left"),
    [
        (lambda lines: [*lines[:-1], lines[-1][:-9]], "torn", 2),
        (lambda lines: [lines[0], b"\x00\xffgarbage\n", lines[2]], "damaged", 1),
        (lambda lines: [lines[0], lines[1].replace(b"two", b"too"), lines[2]], "damaged", 1),
        (lambda lines: [lines[0].replace(b'"schema": 1', b'"schema": 9'), *lines[1:]], "other-version", 0),
        (lambda lines: [*lines, b"[]\n", lines[0]], "damaged", 3),
    ],
)
def test_a_flawed_journal_is_believed_up_to_the_flaw(tmp_path: Path, spoil: object, flaw: str, left: int) -> None:
    """A torn tail, garbage, a changed letter and another version are told apart, and what comes before them counts."""
    path = tmp_path / "evening.jsonl"
    with Journal(path) as journal:
        for word in ("one", "two", "three"):
            journal.append({"kind": "noted", "what": word})
    path.write_bytes(b"".join(spoil(path.read_bytes().splitlines(keepends=True))))  # type: ignore[operator]
    kept = read_journal(path)
    assert (kept.flaw, len(kept.records)) == (flaw, left)


def test_a_second_companion_is_refused(tmp_path: Path) -> None:
    """While one holds the journal another is told so; afterwards it may come in."""
    path = tmp_path / "evening.jsonl"
    with Journal(path), pytest.raises(BadRequest, match="another companion"):
        Journal(path)
    Journal(path).close()


def test_beginning_anew_keeps_the_old_one_when_wanted(tmp_path: Path) -> None:
    """The old file lies beside the new one under a number that is free."""
    path = tmp_path / "evening.jsonl"
    with Journal(path) as journal:
        for word in ("one", "two"):
            journal.append({"kind": "noted", "what": word})
            journal.begin_anew(keep_old=True)
        journal.append({"kind": "noted", "what": "three"})
        journal.begin_anew([{"kind": "noted", "what": "four"}], keep_old=False)
    assert [record["what"] for record in read_journal(path).records] == ["four"]
    assert [read_journal(tmp_path / f"evening-{n}.jsonl").records[0]["what"] for n in (1, 2)] == ["one", "two"]


def test_a_place_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    """A home that is a file is a journal error."""
    (tmp_path / "home").write_text("a file")
    with pytest.raises(JournalError) as caught:
        Journal(tmp_path / "home" / "evening.jsonl")
    assert caught.value.exit_code == 3


@pytest.mark.parametrize("broken_off_after", range(len(ANSWERS) + 1))
def test_an_evening_goes_on_where_it_broke_off(broken_off_after: int) -> None:
    """Broken off after any answer and resumed from its records, the evening has the same end as one held through."""
    whole: list[Record] = []
    _hold(EVENING, ANSWERS, whole)
    part: list[Record] = []
    _hold(EVENING, ANSWERS[:broken_off_after], part)
    resumed = Conversation(EVENING, SITE, ENGLISH, part.append)
    turn = resumed.resume(rebuild(part), START + timedelta(minutes=broken_off_after))
    for minute, command in enumerate(ANSWERS[broken_off_after:], broken_off_after + 1):
        turn = resumed.hear(Heard(command, command), START + timedelta(minutes=minute))
    assert turn.finished
    assert rebuild(part) == rebuild(whole)
    assert rebuild(whole).ended


def test_finished_stages_are_believed_and_not_run_again() -> None:
    """The script of a finished stage isn't called on resuming; its recorded result is handed on."""
    records: list[Record] = []
    _hold((ONE, TWO), ["yes", "ready"], records)

    def broken(context: Context) -> Script:
        raise AssertionError("this stage was finished")
        yield Never()

    def curious(context: Context) -> Steps[Before]:
        yield from ask(Third())
        taken = context.found(Taken)
        assert taken is not None
        return Before(taken.took)

    resumed = Conversation((Stage("one", broken, Taken), Stage("two", curious, Before)), SITE, ENGLISH, records.append)
    turn = resumed.resume(rebuild(records), START)
    assert [saying.code() for saying in turn.sayings] == ["going-on", "third"]
    resumed.hear(Heard("ready", "ready"), START)
    assert rebuild(records).stages[1].result == {"before": "yes"}


@pytest.mark.parametrize("changed", ["question", "note", "crash"])
def test_a_changed_script_begins_its_stage_anew(changed: str) -> None:
    """At the first difference the stage under way starts afresh, says so, and the old answers no longer count."""
    records: list[Record] = []
    _hold((ONE,), ["no"], records)

    def other(context: Context) -> Script:
        answer = yield from ask(First())
        if changed == "crash":
            raise KeyError("what an old answer can do to new code")
        yield Took("maybe" if changed == "note" else answer.command)
        yield from ask(Another() if changed == "question" else Second())
        return Done()

    resumed = Conversation((Stage("one", other),), SITE, ENGLISH, records.append)
    turn = resumed.resume(rebuild(records), START + timedelta(hours=1))
    assert [saying.code() for saying in turn.sayings] == ["stage-anew", "first"]
    memory = rebuild(records)
    assert [stage.answers for stage in memory.stages] == [[]]
    assert memory.stages[0].started == START + timedelta(hours=1)


def test_going_back_is_remembered() -> None:
    """What was taken back is forgotten, also across a stage's border."""
    records: list[Record] = []
    _hold((ONE, TWO), ["yes", "ready", "go-back", "go-back", "no"], records)
    memory = rebuild(records)
    assert [answer.command for answer in memory.stages[0].answers] == ["no"]
    assert [record.get("phrase", record.get("what")) for record in memory.stages[0].decisions] == ["first", "took", "second"]
    assert len(memory.stages) == 1


def test_a_result_of_another_shape_hands_nothing_on() -> None:
    """A finished stage whose recorded result this version can't read is believed to be over, with nothing found out."""
    records: list[Record] = []
    _hold((ONE, TWO), ["yes", "ready"], records)
    old = [record | {"result": {"answer": "yes"}} if record["kind"] == "result" else record for record in records]
    resumed = Conversation((ONE, TWO), SITE, ENGLISH, [].append)
    turn = resumed.resume(rebuild(old), START)
    assert [saying.code() for saying in turn.sayings] == ["going-on", "third"]


def test_numbers_of_another_release_are_the_same_decision() -> None:
    """A probability that a newer library works out a ten-thousandth otherwise is no other decision; a tenth is."""
    noted = {"kind": "noted", "what": "likely-cause", "facts": {"cause": "hour", "probability": 0.9731}}
    assert same_decisions([noted], [noted | {"facts": {"cause": "hour", "probability": 0.9732}}])
    assert not same_decisions([noted], [noted | {"facts": {"cause": "hour", "probability": 0.8732}}])
    assert not same_decisions([noted], [noted | {"facts": {"cause": "site", "probability": 0.9731}}])
