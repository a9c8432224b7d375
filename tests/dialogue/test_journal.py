"""The journal and going on from it: torn, damaged and foreign files, another companion, changed scripts."""

from __future__ import annotations

import os
import stat
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from companion.dialogue import Conversation, Journal, JournalError, Recollection, Record, read_journal, rebuild
from companion.dialogue.memory import same_decisions
from companion.equipment import Equipment
from companion.errors import BadRequest
from companion.languages import load_language
from companion.live import Session, clock_from, journal_path
from companion.messages import Heard, NotNow
from companion.procedure import EVENING, Context, Done, Result, Script, Stage, ask
from companion.procedure.notes import Learned, OurClock
from companion.procedure.script import Steps
from companion.sky import Moment, Site
from companion.talk.answers import ReadyAnswer, YesNoAnswer
from companion.talk.check_in_phrases import ClockMayHaveStood, ClockSetToTheLastAnswer, IsTheClockRight
from companion.talk.guidance_phrases import GoingOn, GoOnThere, JournalDamaged
from companion.talk.help_phrases import HelpWithStep
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Ask, Note, Say
from tests.english import VOCABULARY

SITE = Site(46.31, -67.52, zone="America/Moncton")
START = datetime(2026, 10, 15, 22, 0, tzinfo=UTC)
ANSWERS = [
    *("yes", "yes", "ready"),  # check-in
    *("ready", "ready", "go-back", "ready", "ready", "ready", "ready", "ready"),  # ground
    "no",  # finder
    *("before-power", "ready", "card", "which-way", "ready", "ready"),  # starting pose
    *("dead", "ready"),  # power
    *("next", "go-back", "zone", "next", "month-first", "next", "next", "all-in"),  # settings
    *("list", "in-finder", "up", "right", "centred", "another", "in-finder", "gone", "in-finder", "centred", "success"),  # reference stars
    "in-eyepiece",  # proof
    *("next", "not-there", "skip", "later", "planets", "go-back", "found", "good-night", "yes"),  # targets
    *("yes", "done", "enough"),  # good night
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


# --- the disk refuses ------------------------------------------------------------------------------------------------


class Disk:
    """What ``os.write`` does: it takes so many bytes in all, some of them at a time, and nothing once it is full."""

    def __init__(self, room: int, at_once: int = 1_000_000) -> None:
        """Take what there is room for, and how much of it one call takes."""
        self.room, self.at_once = room, at_once
        self._write = os.write

    def write(self, file: int, data: bytes) -> int:
        """Take what there is room for."""
        if self.room <= 0:
            raise OSError(28, "No space left on device")
        taken = self._write(file, data[: min(self.room, self.at_once)])
        self.room -= taken
        return taken


def test_what_the_disk_takes_in_pieces_is_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """write(2) may take a part of what it is given; the rest is given again."""
    monkeypatch.setattr("os.write", Disk(100_000, at_once=7).write)
    with Journal(tmp_path / "evening.jsonl") as journal:
        journal.append({"kind": "noted", "what": "one"})
    assert read_journal(tmp_path / "evening.jsonl").records == ({"kind": "noted", "what": "one"},)


def test_no_good_line_follows_half_a_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A record cut off by a full disk is taken away again; what comes when there is room follows whole lines only."""
    disk = Disk(100_000)
    monkeypatch.setattr("os.write", disk.write)
    path = tmp_path / "evening.jsonl"
    with Journal(path) as journal:
        journal.append({"kind": "noted", "what": "one"})
        disk.room = 20
        for _ in range(2):
            with pytest.raises(JournalError):
                journal.append({"kind": "noted", "what": "two"})
        assert read_journal(path).flaw is None
        disk.room = 100_000
        journal.append({"kind": "noted", "what": "three"})
    assert [record["what"] for record in read_journal(path).records] == ["one", "three"]


def test_beginning_anew_is_one_step(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """At every rename and link the journal is the old one or the new one, never empty or missing; refused, it is the old one."""
    path, seen = tmp_path / "evening.jsonl", list[list[str]]()

    def watched(call: Callable[..., None]) -> Callable[..., None]:
        def watching(*given: object, **named: object) -> None:
            for _ in range(2):
                seen.append([record["what"] for record in read_journal(path).records])
                if _ == 0:
                    call(*given, **named)

        return watching

    with Journal(path) as journal:
        journal.append({"kind": "noted", "what": "old"})
        monkeypatch.setattr("os.link", watched(os.link))
        monkeypatch.setattr("pathlib.Path.replace", watched(Path.replace))
        journal.begin_anew([{"kind": "noted", "what": "new"}], keep_old=True)
        journal.append({"kind": "noted", "what": "more"})
        assert seen == [["old"], ["old"], ["old"], ["new"]]
        monkeypatch.setattr("os.fsync", lambda _: (_ for _ in ()).throw(OSError(28, "No space left on device")))
        with pytest.raises(JournalError):
            journal.begin_anew([{"kind": "noted", "what": "never"}], keep_old=False)
    assert [record["what"] for record in read_journal(path).records] == ["new", "more"]
    assert [record["what"] for record in read_journal(tmp_path / "evening-1.jsonl").records] == ["old"]
    assert not list(tmp_path.glob(".*"))


def test_a_journal_without_end_is_not_read(tmp_path: Path) -> None:
    """A journal longer than any evening is said to be so; nothing of it is held in memory."""
    path = tmp_path / "evening.jsonl"
    with path.open("wb") as file:
        file.truncate(200_000_000)
    assert read_journal(path) == Recollection((), "too-long")


def test_lines_nested_without_end_are_damage(tmp_path: Path) -> None:
    """JSON nested a hundred thousand deep, bare or as a record, is a damaged line like another."""
    path = tmp_path / "evening.jsonl"
    for text in ("[" * 100_000, '{"schema": 1, "sum": "0", "record": ' + '{"a":' * 100_000):
        path.write_text(text + "\n" + "{}\n")
        assert read_journal(path) == Recollection((), "damaged")


IMPOSSIBLE: list[Record] = [
    {"kind": "anew"},
    {"kind": "back"},
    {"kind": "answer", "command": "yes", "time": START.isoformat(), "slots": {}},
    {"kind": "asked", "phrase": "first", "expects": "yes_no", "facts": {}},
    {"kind": "result", "stage": "one", "result": {}},
    {"kind": "taken-up", "stage": "one"},
    {"kind": "aside"},
    {"kind": "stage", "name": "one"},
    {"kind": "stage", "name": "one", "time": "tomorrow"},
    {"kind": "stage", "name": "one", "time": "2026-10-15T22:00:00"},
    {"kind": "stage", "name": "one", "time": "0001-01-01T00:00:00+14:00"},
    {"kind": "noted"},
    {"kind": "end"},
    {"kind": "unheard-of"},
]


@pytest.mark.parametrize("first", IMPOSSIBLE)
def test_whole_lines_in_an_impossible_order(tmp_path: Path, first: Record) -> None:
    """Whatever the order of whole lines, what made sense before is believed, and an evening can be held."""
    path = tmp_path / "evening.jsonl"
    good: list[Record] = []
    _hold(EVENING, ANSWERS[:4], good)
    bad = [
        {"kind": "stage", "name": "check-in", "time": START.isoformat()},
        {"kind": "noted", "what": "our-clock", "facts": {"nothing": 1}},
    ]
    for records in ([first, *good], [*good, first, *good], [*good, *bad, first], [first] * 3):
        path.unlink(missing_ok=True)
        with Journal(path) as journal:
            for record in records:
                journal.append(record)
            session = Session(SITE, lambda: START + timedelta(hours=1), journal, Equipment(), language=ENGLISH)
            turn = session.begin()
            for command in ("yes", "help", "help"):
                assert session.words(*turn.sayings)
                turn = session.hear(Heard(command, command))
            assert turn.question is not None
            session.sync()
        assert read_journal(path).flaw is None


def _session(journal: Journal, **how: Any) -> Session:
    """Return an evening whose clock moves by a minute each time it is read."""
    times = (START + timedelta(minutes=number) for number in count())
    return Session(SITE, lambda: next(times), journal, Equipment(), language=ENGLISH, **how)


def test_a_full_disk_is_said_in_each_part_until_it_is_mended(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Said when it begins and with each new part, not before each reply. What waited is written, in order, and that is said once."""
    disk = Disk(600)
    monkeypatch.setattr("os.write", disk.write)
    whole: list[Record] = []
    _hold(EVENING, ANSWERS[:16], whole)
    said: list[set[str]] = []
    stages: list[str | None] = []
    with Journal(tmp_path / "evening.jsonl") as journal:
        session = _session(journal)
        turn = session.begin()
        for number, command in enumerate(ANSWERS[:16]):
            if number == 12:
                disk.room = 100_000
            turn = session.hear(Heard(command, command))
            session.sync()
            said.append({saying.code() for saying in turn.sayings} & {"journal-refused", "journal-mended"})
            stages.append(turn.stage)
    first = said.index({"journal-refused"})
    assert [n for n in range(first, 12) if said[n]] == [n for n in range(first, 12) if n == first or stages[n] != stages[n - 1]]
    assert len(set(stages[first:12])) > 1
    assert said[12:] == [{"journal-mended"}, set(), set(), set()]
    kept = read_journal(tmp_path / "evening.jsonl")
    assert kept.flaw is None
    assert [record["kind"] for record in kept.records] == [record["kind"] for record in whole]


# --- the end of an evening -------------------------------------------------------------------------------------------


def test_what_is_to_be_remembered_is_kept_before_the_last_words(tmp_path: Path) -> None:
    """Place and equipment are kept when "yes" is said, once, and a disk that refuses is said in the same breath."""
    kept: list[Site] = []

    def refuse(*_: object) -> None:
        raise BadRequest("the disk is full")

    learns = Stage("check-in", _learns)
    for remember, codes in ((lambda site, _: kept.append(site), []), (refuse, ["profile-refused"])):
        with Journal(tmp_path / "evening.jsonl") as journal, pytest.MonkeyPatch.context() as patch:
            patch.setattr("companion.live.session.EVENING", (learns, EVENING[-1]))
            session = _session(journal, remember=remember)
            session.begin()
            session.hear(Heard("yes", "yes"))
            turn = session.hear(Heard("yes", "yes"))
            assert [saying.code() for saying in turn.sayings] == [*codes, "park-it"]
            assert (session.unremembered is None) is (not codes)
            assert session.hear(Heard("that's all", "enough")).finished
            session.said_good_night()
        assert kept == [SITE]


def _learns(context: Context) -> Script:
    yield from ask(First())
    yield Learned.one("mount", "hours", 12)
    return Done()


def test_an_evening_ends_when_its_last_words_were_said(tmp_path: Path) -> None:
    """Cut off before they were, it is offered again, once, with those words; cut off once more, a new one begins."""
    path = tmp_path / "evening.jsonl"
    with Journal(path) as journal:
        session = _session(journal)
        session.begin()
        for command in ANSWERS:
            turn = session.hear(Heard(command, command))
        assert turn.finished
        assert not rebuild(read_journal(path).records).ended
    with Journal(path) as journal:
        session = _session(journal)
        assert [saying.code() for saying in session.begin().sayings] == ["go-on-there"]
        turn = session.hear(Heard("yes", "yes"))
        assert turn.finished
        assert turn.sayings[-1].code() == "good-night"
    with Journal(path) as journal:
        assert "go-on-there" not in [saying.code() for saying in _session(journal).begin().sayings]


def test_few_words_survive_a_crash() -> None:
    """Who asked for few words isn't told everything again after a crash."""
    records: list[Record] = []
    _hold((ONE, TWO), ["briefly", "yes"], records)
    resumed = Conversation((ONE, TWO), SITE, ENGLISH, records.append)
    resumed.resume(rebuild(records), START)
    assert resumed._terse is True


@pytest.mark.parametrize(
    "shows", ["1970-01-01T00:05:00+00:00", "2026-10-15T12:00:00+00:00", "2028-10-15T23:00:00+00:00", "2082-10-15T23:00:00+00:00"]
)
def test_a_clock_that_went_wrong_meanwhile_is_asked_about(tmp_path: Path, shows: str) -> None:
    """Before the last answer, or more than a year after it: our clock is set to that answer and asked about, and then we go on there."""
    with Journal(journal_path(tmp_path)) as journal:
        session = _session(journal)
        session.begin()
        for command in ("yes", "yes", "ready"):
            session.hear(Heard(command, command))
        last = rebuild(read_journal(journal.path).records).last_time
    with Journal(journal_path(tmp_path)) as journal:
        session = Session(SITE, lambda: datetime.fromisoformat(shows), journal, Equipment(), language=ENGLISH)
        session.begin()
        turn = session.hear(Heard("yes", "yes"))
        assert isinstance(turn.sayings[0], ClockSetToTheLastAnswer)
        assert turn.question == IsTheClockRight()
        there = ENGLISH.words(IsTheClockRight(), Moment(SITE, last))
        assert session.words(turn.question) == there
        for command in ("yes", "yes", "ready"):
            turn = session.hear(Heard(command, command))
        assert turn.stage == "ground"


def test_the_offer_to_go_on_is_explained(tmp_path: Path) -> None:
    """Help there tells what yes and no lead to, and the offer stands."""
    for turns in (["yes", "yes"], []):
        with Journal(journal_path(tmp_path)) as journal:
            session = _session(journal)
            session.begin()
            for command in turns:
                session.hear(Heard(command, command))
    with Journal(journal_path(tmp_path)) as journal:
        session = _session(journal)
        offer = session.begin().question
        turn = session.hear(Heard("help", "help"))
        assert turn.sayings == (HelpWithStep(GoOnThere), offer)
        assert turn.question == offer


def test_the_offer_to_go_on_takes_questions(tmp_path: Path) -> None:
    """They are answered as that evening would answer them, the offer stands, and nothing is recorded; a guess is no yes."""
    with Journal(journal_path(tmp_path)) as journal:
        session = _session(journal)
        session.begin()
        for command in ("yes", "yes"):
            session.hear(Heard(command, command))
    with Journal(journal_path(tmp_path)) as journal:
        session = _session(journal)
        offer = session.begin().question
        written = journal.path.read_bytes()
        for asked in (NotNow("where was I", "where-was-i"), NotNow("which planets are up", "planets-up"), Heard("I'm lost", "lost")):
            turn = session.hear(asked)
            assert len(turn.sayings) == 2
            assert turn.sayings[-1] == AskedAgain(offer)
            assert turn.question == offer
            assert session.words(*turn.sayings)
        for other in (Heard("yes", "yes", confidence=0.5, is_guess=True), NotNow("dead centre", "centred"), NotNow("pack up", "pack-up")):
            assert session.hear(other).sayings == (offer,)
        assert journal.path.read_bytes() == written


@pytest.mark.parametrize("clock_runs_on", [True, False])
def test_without_a_clock_chip_the_time_comes_first(tmp_path: Path, clock_runs_on: bool) -> None:
    """An evening that a power cut broke off begins with the time where the clock may have stood meanwhile, and goes on where it was."""
    with Journal(journal_path(tmp_path)) as journal:
        session = _session(journal)
        session.begin()
        for command in ("yes", "yes", "ready"):
            session.hear(Heard(command, command))
    with Journal(journal_path(tmp_path)) as journal:
        session = Session(SITE, lambda: START + timedelta(hours=1), journal, Equipment(), language=ENGLISH, clock_runs_on=clock_runs_on)
        session.begin()
        turn = session.hear(Heard("yes", "yes"))
        assert (turn.question == IsTheClockRight()) is not clock_runs_on
        assert (turn.sayings[0] == ClockMayHaveStood()) is not clock_runs_on
        for command in () if clock_runs_on else ("yes", "yes", "ready"):
            turn = session.hear(Heard(command, command))
        assert turn.stage == "ground"


def test_an_evening_goes_on_in_its_own_place(tmp_path: Path) -> None:
    """A call without the place, or with another, goes on where the evening began; one begun anew takes the call's."""
    with Journal(journal_path(tmp_path)) as journal:
        _session(journal).begin()
    for site in (None, Site(-33.4, 149.6, zone="Australia/Sydney")):
        with Journal(journal_path(tmp_path)) as journal:
            session = Session(site, lambda: START + timedelta(hours=1), journal, Equipment(), language=ENGLISH)
            session.begin()
            turn = session.hear(Heard("yes", "yes"))
            assert turn.sayings[0] == GoingOn()
            assert "Moncton time" in session.words(*turn.sayings)
    with Journal(journal_path(tmp_path)) as journal:
        session = Session(site, lambda: START + timedelta(hours=1), journal, Equipment(), language=ENGLISH)
        session.begin()
        assert "Sydney time" in session.words(*session.hear(Heard("no", "no")).sayings)


def test_the_evening_before_is_remembered(tmp_path: Path) -> None:
    """The next evening knows when the last one was, and knows it still when it is gone on with."""
    with Journal(journal_path(tmp_path)) as journal:
        _session(journal).begin()
    for answer in ("no", "yes"):
        with Journal(journal_path(tmp_path)) as journal:
            later = START + timedelta(days=700)
            session = Session(SITE, lambda later=later: later, journal, Equipment(), language=ENGLISH)  # type: ignore[misc]
            session.begin()
            turn = session.hear(Heard(answer, answer))
            assert turn.question == IsTheClockRight(with_year=True)


@pytest.mark.parametrize(
    ("told", "seconds"),
    [
        (["wrong hour", "ten past five", "yes", "yes", "ready"], -6_600),
        (["wrong year", "twenty twenty five", "yes", "yes", "ready"], -31_536_000),
        (["wrong hour", "ten past nine", "go back", "yes", "yes", "ready"], 0),
    ],
)
def test_a_clock_that_was_set_stays_set(tmp_path: Path, told: list[str], seconds: int) -> None:
    """What was told of our clock holds after a crash, in either direction; the offer and the next evening go by the clock as told."""
    with Journal(journal_path(tmp_path)) as journal:
        session = Session(SITE, lambda: START, journal, Equipment(), language=ENGLISH)
        turn = session.begin()
        for words in told:
            assert turn.question is not None
            turn = session.hear(VOCABULARY.understand(words, turn.question.expects))
    later = START + timedelta(minutes=5)
    with Journal(journal_path(tmp_path)) as journal:
        session = Session(SITE, lambda: later, journal, Equipment(), language=ENGLISH)
        offer = session.begin().question
        assert isinstance(offer, GoOnThere)
        assert offer.began.time == START + timedelta(seconds=seconds)
        turn = session.hear(Heard("yes", "yes"))
        assert turn.sayings[0] == GoingOn()
        assert session._conversation.moment(later).time == later + timedelta(seconds=seconds)
    assert rebuild(read_journal(journal_path(tmp_path)).records).began == START + timedelta(seconds=seconds)


def test_an_evening_is_offered_by_the_clock_of_its_place(tmp_path: Path) -> None:
    """Who told the place in the evening is offered it in that place's time, also where the call names none."""
    with Journal(journal_path(tmp_path)) as journal:
        session = Session(None, lambda: START, journal, Equipment(), language=ENGLISH)
        turn = session.begin()
        for words in ("near Nairobi", "yes", "in the town"):
            assert turn.question is not None
            turn = session.hear(VOCABULARY.understand(words, turn.question.expects))
    with Journal(journal_path(tmp_path)) as journal:
        session = Session(None, lambda: START, journal, Equipment(), language=ENGLISH)
        assert "one o'clock in the morning, Friday the sixteenth of October" in session.words(*session.begin().sayings)


def test_a_clock_set_beyond_all_time_is_damage(tmp_path: Path) -> None:
    """A journal whose clock was set by more than there is time is believed up to there."""
    with Journal(journal_path(tmp_path)) as journal:
        _session(journal).begin()
        for add_seconds in (1e11, 1e300):
            journal.append({"kind": "noted", "what": OurClock.code(), "facts": {"add_seconds": add_seconds}})
    with Journal(journal_path(tmp_path)) as journal:
        session = _session(journal)
        assert JournalDamaged() in session.begin().sayings
        session.words(*session.hear(Heard("yes", "yes")).sayings)


def test_setting_the_machines_clock_moves_no_evening(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three hours or a day, on or back, and another zone: the evening's clock runs on as it was, where the system has one nobody sets."""
    if not hasattr(time, "CLOCK_BOOTTIME"):
        pytest.skip("this system has no such clock")
    clock, machines = clock_from(START), time.time()
    for jump_s in (10_800, -10_800, 86_400, -86_400):
        monkeypatch.setattr(time, "time", lambda ahead=machines + jump_s: ahead)
        monkeypatch.setenv("TZ", "Asia/Tokyo")
        assert abs(clock() - START) < timedelta(seconds=30)
