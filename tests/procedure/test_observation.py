"""Writing an observation down by voice: every part may be skipped, and it is kept once, through crashes and going back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import get_args

import pytest

from companion import sky
from companion.dialogue import Conversation, Journal, Record
from companion.equipment import Equipment, Eyepiece, Instrument
from companion.live import Session, journal_path
from companion.messages import Heard
from companion.observation_log import log_path, read_log
from companion.observing.observation import Look, Observation, Seen
from companion.procedure import Stage
from companion.procedure.notes import Observed
from companion.procedure.observation import AIR_HOLDS, write_down
from companion.procedure.script import Context, Done, Script
from companion.sky import Moment, Site
from companion.talk.answers import HowItLookedAnswer, HowItShowedAnswer, OneToFiveAnswer
from companion.talk.live_phrases import LogMended, LogRefused
from tests.english import ENGLISH, VOCABULARY

SITE = Site(46.31, -67.52, zone="America/Moncton", name="Spruce Ridge clearing")
START = datetime(2026, 7, 10, 3, 0, tzinfo=UTC)
ONE_EYEPIECE = Equipment(Instrument(200, 1000, (Eyepiece(25),)))
TWO_EYEPIECES = Equipment(Instrument(200, 1000, (Eyepiece(25), Eyepiece(9.7))))


def _ring(context: Context) -> Script:
    yield from write_down(context, sky.find("M 57"), context.started)
    return Done()


def _ring_and_cluster(context: Context) -> Script:
    first, _ = yield from write_down(context, sky.find("M 57"), context.started)
    yield from write_down(context, sky.find("M 13"), context.started + AIR_HOLDS, last=first)
    yield from write_down(context, sky.find("Vega"), context.started + 2 * AIR_HOLDS, eyepiece_mm=9.7, last=first)
    return Done()


def _held(said: Sequence[str], equipment: Equipment = ONE_EYEPIECE, script: object = _ring) -> tuple[Conversation, list[Record]]:
    """Return a conversation after these words, each of which is understood, and what it recorded."""
    records: list[Record] = []
    conversation = Conversation([Stage("targets", script)], SITE, ENGLISH, records.append, equipment)  # type: ignore[arg-type]
    turn = conversation.begin(START)
    for words in said:
        assert turn.question is not None, f"nothing was asked when {words!r} was said"
        heard = VOCABULARY.understand(words, turn.question.expects)
        assert isinstance(heard, Heard), words
        turn = conversation.hear(heard, START)
    return conversation, records


def _observations(said: Sequence[str], equipment: Equipment = ONE_EYEPIECE, script: object = _ring) -> list[Observation]:
    """Return what is noted in the end of each look."""
    conversation, _ = _held(said, equipment, script)
    noted = [note.observation for note in conversation.notes() if isinstance(note, Observed)]
    return list({(one.time, one.target): one for one in noted}.values())


def test_the_whole_form() -> None:
    """Time, place, direction and telescope are ours to know; the rest is asked for, one thing at a time."""
    (seen,) = _observations(["only just", "ten", "round", "a bright middle", "that's all", "four", "fair"], TWO_EYEPIECES)
    there = sky.sight(sky.find("Ring Nebula"), Moment(SITE, START))
    assert (seen.time, seen.site, seen.target, seen.catalogue, seen.kind) == (START, SITE, "Ring Nebula", "M 57", "planetary nebula")
    assert seen.altitude_deg == pytest.approx(there.altitude_deg, abs=0.01)
    assert seen.azimuth_deg == pytest.approx(there.azimuth_deg, abs=0.01)
    assert (seen.aperture_mm, seen.focal_length_mm, seen.eyepiece_mm) == (200, 1000, 9.7)
    assert (seen.seen, seen.steadiness, seen.clearness, seen.looks) == ("just", 4, 3, ("round", "bright middle"))


def test_any_part_may_be_skipped() -> None:
    """Nothing but "skip this" still writes down what was looked at, and where and when."""
    (seen,) = _observations(["skip this"] * 5, TWO_EYEPIECES)
    assert (seen.target, seen.seen, seen.eyepiece_mm, seen.looks) == ("Ring Nebula", None, None, ())
    assert (seen.steadiness, seen.clearness) == (None, None)


def test_what_need_not_be_asked_is_not() -> None:
    """The only eyepiece, words for what didn't show, and the air within half an hour."""
    said = ["not at all", "two", "one", "easily", "round", "that's all", "easily", "two", "no", "five", "four"]
    first, second, third = _observations(said, ONE_EYEPIECE, _ring_and_cluster)
    assert (first.eyepiece_mm, first.looks, first.steadiness, first.clearness) == (25, (), 2, 1)
    assert (second.looks, second.steadiness, second.clearness) == (("round",), 2, 1)
    assert (third.looks, third.eyepiece_mm, third.steadiness, third.clearness) == (("two",), 9.7, 5, 4)


def test_a_borrowed_eyepiece_is_taken_as_told() -> None:
    """A figure near one of the profile is that one; any other is believed."""
    assert _observations(["easily", "eighteen", "no", "skip this", "skip this"], TWO_EYEPIECES)[0].eyepiece_mm == 18


def test_every_answer_has_a_meaning() -> None:
    """Whatever can be answered is understood, and each value of an observation can be told."""
    words = set(HowItLookedAnswer) - {HowItLookedAnswer.SKIP, HowItLookedAnswer.DONE}
    told = [_observations(["easily", _words_for(answer), "no", "skip this", "skip this"])[0].looks for answer in words]
    assert sorted(told) == sorted((look,) for look in get_args(Look))
    marks = [_observations(["easily", "no", _words_for(answer), "skip this"])[0].steadiness for answer in OneToFiveAnswer]
    assert sorted(mark for mark in marks if mark is not None) == [1, 2, 3, 4, 5]
    rest = ["skip this"] * 3
    seen = [_observations([_words_for(answer), *rest[answer == "not-at-all" :]])[0].seen for answer in HowItShowedAnswer]
    assert set(seen) == {*get_args(Seen), None}
    assert len(seen) == len(set(seen))


def _words_for(answer: HowItShowedAnswer | HowItLookedAnswer | OneToFiveAnswer) -> str:
    if answer == "skip":
        return "skip this"
    return next(phrase.words for phrase in VOCABULARY.active(type(answer)).phrases() if phrase.command == answer)


# --- kept ------------------------------------------------------------------------------------------------------------


class _Evening:
    """An evening of one stage with its journal and log, which may be cut off and gone on with."""

    def __init__(self, home: Path) -> None:
        self.home, self.time, self.complaints = home, START, list[str]()

    def say(self, *said: str | Callable[[], None]) -> None:
        """Begin, or ask whether to go on, say these words, and have done what is among them; then nobody is there any more."""
        with Journal(journal_path(self.home)) as journal:
            session = Session(SITE, self._clock, journal, ONE_EYEPIECE, language=ENGLISH)
            turn = session.begin()
            self.complaints += [session.words(saying) for saying in turn.sayings if isinstance(saying, LogRefused | LogMended)]
            for words in said:
                if not isinstance(words, str):
                    words()
                    continue
                assert turn.question is not None, words
                turn = session.hear(VOCABULARY.understand(words, turn.question.expects))
                self.complaints += [session.words(saying) for saying in turn.sayings if isinstance(saying, LogRefused | LogMended)]

    def _clock(self) -> datetime:
        self.time += timedelta(seconds=1)
        return self.time

    @property
    def log(self) -> tuple[Observation, ...]:
        return read_log(log_path(self.home)).observations


@pytest.fixture
def evening(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> _Evening:
    """Return an evening in which the Ring Nebula and two more are written down."""
    monkeypatch.setattr("companion.live.session.EVENING", (Stage("targets", _ring_and_cluster),))
    return _Evening(tmp_path)


def test_kept_at_once_and_once_across_a_crash(evening: _Evening) -> None:
    """An observation is in the log as soon as it is told; an evening that is gone on with writes it no second time."""
    evening.say("easily", "round", "that's all", "four", "three")
    assert [(seen.target, seen.seen) for seen in evening.log] == [("Ring Nebula", "easily"), ("Hercules Cluster", None)]
    before = log_path(evening.home).read_bytes()
    evening.say("yes")
    assert log_path(evening.home).read_bytes() == before
    evening.say("yes", "only just", "round", "no")
    assert [(seen.target, seen.seen) for seen in evening.log][:2] == [("Ring Nebula", "easily"), ("Hercules Cluster", "just")]


def test_each_part_is_kept_as_it_is_told(evening: _Evening) -> None:
    """Who goes away in the midst of the form has in the log what was told until then."""
    evening.say()
    assert [(seen.target, seen.seen, seen.looks) for seen in evening.log] == [("Ring Nebula", None, ())]
    evening.say("yes", "easily", "round")
    assert [(seen.target, seen.seen, seen.looks) for seen in evening.log] == [("Ring Nebula", "easily", ("round",))]


def test_a_journal_behind_the_log_writes_nothing_twice(evening: _Evening) -> None:
    """Where the log reached the disk and the journal's last lines did not, telling it again is the same observation."""
    evening.say("easily", "no", "four", "three")
    journal = journal_path(evening.home)
    lines = journal.read_bytes().splitlines(keepends=True)
    while b'"answer"' not in lines[-1]:
        lines.pop()
    journal.write_bytes(b"".join(lines[:-1]))
    evening.say("yes", "five")
    assert [(seen.target, seen.clearness) for seen in evening.log] == [("Ring Nebula", 5), ("Hercules Cluster", 5)]


def test_going_back_takes_it_back(evening: _Evening) -> None:
    """What is taken back is no longer in the log, and a part of it stands as before; told otherwise, it is there as told last."""
    evening.say("easily", "no", "four", "three", "go back")
    assert [(seen.target, seen.steadiness, seen.clearness) for seen in evening.log] == [("Ring Nebula", 4, None)]
    evening.say("yes", "two")
    assert [(seen.target, seen.clearness) for seen in evening.log] == [("Ring Nebula", 2), ("Hercules Cluster", 2)]


def test_a_disk_that_refuses_is_told_once_and_tried_again(evening: _Evening) -> None:
    """The evening goes on, says once that nothing can be written down, and once that all of it is."""
    log_path(evening.home).mkdir(parents=True)
    evening.say("easily", "no", "four", "three", "easily", log_path(evening.home).rmdir, "no")
    assert len(evening.complaints) == 2
    assert "I can't write down what you saw" in evening.complaints[0]
    assert "written down" in evening.complaints[1]
    assert [(seen.target, seen.seen) for seen in evening.log][:2] == [("Ring Nebula", "easily"), ("Hercules Cluster", "easily")]
