"""Finding the mistake: what is asked first, what an answer leads to, and what is kept when the alignment begins again."""

from __future__ import annotations

from collections.abc import Generator
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from companion.diagnosis import About, Cure, Question
from companion.messages import Answer
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.notes import ItsClockIsWrong, MissTold
from companion.procedure.script import Context
from companion.procedure.suspicion import Suspicion
from companion.procedure.why_it_failed import Mended, Unsolved, find_the_mistake
from companion.sky import Site
from companion.talk.answers import CheckAnswer, ClockTimeAnswer, FacingAnswer, GroundAnswer, KnockAnswer, ReadyAnswer
from companion.talk.mistakes_phrases import (
    CheckThis,
    IsItsTimeRight,
    MendThese,
    OneAnswerDoesntFit,
    StillUnsure,
    ThatIsIt,
    WhichWayDidItFace,
)
from companion.talk.saying import Ask, Reply, Wanted
from tests.english import VOCABULARY
from tests.interview import words_of

SITE = Site(46.31, -67.52, zone="America/Moncton")
TIME = datetime(2026, 10, 15, 23, 15, tzinfo=UTC)
BEHIND = MissTold("Altair", TIME, None, None, synced=False, turn_deg=180.0, turn_sigma_deg=30.0)


RIGHT: tuple[About, ...] = ("daylight_saving", "place", "latitude", "longitude", "longitude_side", "time_zone", "date")


LEVELS = {"Altair": 0.61, "Alpheratz": 0.72, "Kochab": 0.69}
"""Cosines of the stars' altitudes then."""


def state(*misses: MissTold, **more: Any) -> AlignmentState:
    """Return a go at the alignment with these misses."""
    return AlignmentState(Context(SITE, TIME, {}), TIME - timedelta(minutes=3), "list", 2, misses=list(misses), **more)


def asked(steps: Generator[Wanted, Answer, Any], answer: Answer | None = None) -> tuple[Ask[Any], list[Wanted]]:
    """Return the next question, and what came before it."""
    said: list[Wanted] = []
    wanted = next(steps) if answer is None else steps.send(answer)
    while not isinstance(wanted, Ask):
        said.append(wanted)
        wanted = next(steps)
    return wanted, said


def answer(command: Any, **slots: str) -> Answer:
    """Return an answer given a minute later."""
    return Answer(command, TIME + timedelta(minutes=1), slots)


def test_a_tube_that_faced_backwards_is_found_with_two_questions() -> None:
    """A star behind one, the settings right: the tube is asked about, and what is said of it is the cure."""
    steps = find_the_mistake(state(BEHIND))
    question, _ = asked(steps)
    assert isinstance(question, WhichWayDidItFace)
    question, _ = asked(steps, answer(FacingAnswer.SOUTH))
    assert question == CheckThis("position", "Altair")
    question, said = asked(steps, answer(CheckAnswer.YES))
    assert ThatIsIt(("north",), True) in said
    assert isinstance(question, MendThese)
    assert question.cures == ("north",)


def test_who_erred_is_told_that_it_does_not_fit() -> None:
    """Three stars each 35 degrees aside, and north found right: no other advice is left, so it is said that an answer doesn't fit."""
    misses = [
        MissTold(star, TIME + timedelta(minutes=k), 35.0 * level, 0.0, synced=False) for k, (star, level) in enumerate(LEVELS.items())
    ]
    steps = find_the_mistake(state(*misses, suspicion=Suspicion(answered=((Question("heading"), "yes"),))))
    question, said = asked(steps)
    while not isinstance(question, MendThese):
        told = FacingAnswer.NORTH if isinstance(question, WhichWayDidItFace) else question.expects("yes")
        question, said = asked(steps, answer(told))
    assert question.cures == ("north",)
    assert OneAnswerDoesntFit() in said


def test_what_was_found_wrong_is_not_left_for_another_star() -> None:
    """Who found the place wrong is asked on after two questions; a latitude found right excludes no place."""
    misses = [MissTold("Altair", TIME, -90.0 * LEVELS["Altair"], -20.0, synced=False)]
    told = Suspicion(answered=((Question("place"), "no"), (Question("latitude"), "yes")))
    steps = find_the_mistake(state(*misses, suspicion=told), more_stars=True)
    question, _ = asked(steps)
    assert question.code() in ("check-this", "mend-these")
    for found_right, said in (
        (("latitude",), "the latitude."),
        (("longitude",), "the longitude."),
        (("latitude", "longitude"), "the place."),
    ):
        assert words_of(StillUnsure(found_right))[0].endswith(f"It isn't {said}")


def test_after_a_kick_the_base_comes_first() -> None:
    """Wherever the star lay, the bubble is asked about first; off its middle it is the cure."""
    miss = MissTold("Altair", TIME, 4.0, 11.0, synced=False)
    steps = find_the_mistake(state(miss, from_pose=False))
    question, _ = asked(steps)
    assert question == CheckThis("bubble", "Altair")
    question, _ = asked(steps, answer(CheckAnswer.NO))
    while not isinstance(question, MendThese):
        question, _ = asked(steps, answer(CheckAnswer.YES))
    assert question.cures == ("bubble",)


def test_the_ground_and_a_knock_are_asked_for_in_natural_words() -> None:
    """Who stands on a lawn says so, and who tripped over a leg."""
    ways = (
        (GroundAnswer.YES, ("yes", "it's on grass", "on the lawn", "sand", "it's on gravel")),
        (GroundAnswer.NO, ("no", "it's on concrete", "on the patio", "on a balcony", "firm ground")),
        (KnockAnswer.YES, ("yes", "somebody kicked it", "I bumped into it", "I tripped over a leg")),
        (KnockAnswer.NO, ("no", "nothing", "nobody touched it", "not that I know")),
    )
    for meant, said in ways:
        live, otherwise = VOCABULARY.active(type(meant)), VOCABULARY.otherwise(type(meant))
        for words in said:
            found = live.parse(words) or otherwise.parse(words)
            assert found is not None, words
            assert found.command == meant.value, words


def test_a_time_read_out_is_the_reading() -> None:
    """An hour off as it is read: that is noted and said in the cure, and the time is asked for no more."""
    read_so_far = Suspicion(before=tuple((Question(about), "yes") for about in RIGHT), answered=((Question("position"), "no"),))
    here = state(MissTold("Altair", TIME, -15.0, 4.0, synced=False), suspicion=read_so_far)
    steps = find_the_mistake(here)
    question, _ = asked(steps)
    while not isinstance(question, IsItsTimeRight):
        question, _ = asked(steps, answer(CheckAnswer.YES))
    question, said = asked(steps, answer(ClockTimeAnswer.PAST, hour="9", minute="16"))
    while not isinstance(question, MendThese):
        question, more = asked(steps, answer(CheckAnswer.YES))
        said += more
    assert ItsClockIsWrong(60) in said
    assert "time" in question.cures
    assert question.minutes == 60


def concluded(steps: Generator[Wanted, Answer, Any]) -> Any:
    """Return how a search ends for somebody who can't tell anything, and does what is to be done."""
    told: Answer | None = None
    while True:
        try:
            question, _ = asked(steps, told)
        except StopIteration as ended:
            return ended.value
        told = answer(ReadyAnswer.READY if isinstance(question, MendThese) else question.expects("cant-tell"))


def test_nobody_who_can_tell_nothing_is_sent_home() -> None:
    """Where nothing can be told another star is gone to, and where there is none something is done again."""
    aside = MissTold("Altair", TIME, 22.0, -12.0, synced=False)
    assert concluded(find_the_mistake(state(aside), more_stars=True)) is Unsolved.ANOTHER_STAR
    assert isinstance(concluded(find_the_mistake(state(aside))), Mended)


def test_what_was_mended_in_vain_is_not_mended_again() -> None:
    """The same star behind again after the tube was turned: another cure, and never an ordinary miss."""
    begun_again = Suspicion().with_answer(Question("facing"), "south").after(["north"]).begun_again([BEHIND])
    assert begun_again.before == ()
    assert set(begun_again.mended) == {"bubble", "north", "tube_level"}
    steps = find_the_mistake(state(BEHIND, suspicion=begun_again))
    question, _ = asked(steps)
    while not isinstance(question, MendThese):
        told = {CheckThis: CheckAnswer.YES, IsItsTimeRight: CheckAnswer.YES, WhichWayDidItFace: FacingAnswer.NORTH}[type(question)]
        question, _ = asked(steps, answer(told))
    assert "north" not in question.cures or len(question.cures) > 1


@pytest.mark.parametrize(("cures", "anew"), [(("star",), False), (("star", "clamps"), True), (("north",), True), (("date",), True)])
def test_only_another_star_leaves_the_start_position_alone(cures: tuple[Cure, ...], anew: bool) -> None:
    """Who took the wrong star begins again where the tube stands; level and north aren't asked for, nor held to be mended."""
    mended = Mended.by(Reply(ReadyAnswer.READY, TIME), cures)
    assert mended.done
    assert mended.from_the_start_position is anew
    begun_again = Suspicion().after(cures).begun_again([BEHIND], from_the_start_position=anew)
    assert ("bubble" in begun_again.mended) is anew
