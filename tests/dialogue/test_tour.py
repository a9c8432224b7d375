"""The spoken tour: short steps, each phrase tried without its effect, left at any time; the part under way stays as it was."""

from __future__ import annotations

import re
from datetime import timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from companion.dialogue import Journal, Turn
from companion.equipment import NOTHING_KNOWN
from companion.languages import load_language
from companion.live.session import Session, journal_path
from companion.talk.ground_phrases import ClampAndBalance, PutItOn
from companion.talk.guidance_phrases import LeaveNow
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Ask, Saying
from companion.talk.targets_phrases import GoodNight
from companion.talk.tour_phrases import ThatWorked, TourLeft, TourOffered, TourOver, Tried, TryIt, WhatWeDo
from companion.vocabulary import load_vocabulary
from tests.dialogue.test_jumps import KIT, NIGHT, TO_STAGE, Evening
from tests.english import ENGLISH, VOCABULARY

SAID = {
    Tried.REPEAT: ("say that again", "repeat that"),
    Tried.WAIT: ("hang on", "wait a moment"),
    Tried.BACK: ("go back",),
    Tried.WHERE: ("where are we", "I'm lost"),
    Tried.QUIET: ("stop", "be quiet"),
}


def _stands(evening: Evening) -> tuple[object, ...]:
    """Return all that a tour must leave as it was."""
    return (evening.turn.stage, evening.turn.question, list(evening.records), evening.conversation.equipment, evening.conversation.results)


def _sentences(evening: Evening, sayings: tuple[Saying, ...]) -> list[str]:
    return re.split(r"(?<=[.?!])\s+", " ".join(evening.conversation.words(saying, evening.now) for saying in sayings))


@pytest.mark.parametrize(
    ("stage", "wish"),
    [("check-in", "what can you do"), ("check-in", "how do you work"), ("check-in", "um, give me a tour please")]
    + [(stage, "teach me") for stage in TO_STAGE],
)
def test_five_phrases_are_tried_in_every_part(stage: str, wish: str) -> None:
    """Each is confirmed and the next one asked for, in four sentences at most; then the part's own question, and nothing has changed."""
    evening = Evening(stage)
    before = _stands(evening)
    turn = evening.says(wish)
    assert turn.sayings == (WhatWeDo(), TryIt(Tried.REPEAT))
    for phrase, following in pairwise((*Tried, None)):
        assert phrase is not None
        assert len(_sentences(evening, turn.sayings)) <= 4
        turn = evening.says(SAID[phrase][-1])
        assert turn.sayings[0] == ThatWorked(phrase)
        if following is not None:
            assert turn.sayings[1:] == (TryIt(following),)
            assert turn.question == TryIt(following)
    assert turn.sayings[1] == TourOver()
    assert isinstance(turn.sayings[2], AskedAgain)
    assert _stands(evening) == before


@pytest.mark.parametrize("phrase", Tried)
def test_each_phrase_is_one_that_works(phrase: Tried) -> None:
    """What we ask for is understood, and so is its other form; it is among the words we speak, so that ours are tried, too."""
    for said in SAID[phrase]:
        evening = Evening("ground")
        turn = evening.says("teach me", *["next step"] * list(Tried).index(phrase))
        assert turn.question == TryIt(phrase)
        assert evening.says(said).sayings[0] == ThatWorked(phrase)
    assert (
        SAID[phrase][-1] in ENGLISH.words(TryIt(phrase), evening.conversation.moment(NIGHT))
        or phrase is Tried.WAIT
        or phrase is Tried.WHERE
    )


@pytest.mark.parametrize("after", range(5))
@pytest.mark.parametrize("said", ["leave the tour", "leave this part", "I know that"])
def test_it_can_be_left_at_any_step(after: int, said: str) -> None:
    """Nothing of the part under way is left with it."""
    evening = Evening("settings")
    before = _stands(evening)
    turn = evening.says("teach me", *["next step"] * after, said)
    assert turn.sayings[0] == TourLeft()
    assert _stands(evening) == before


def test_everything_else_goes_on_working_there() -> None:
    """Help, questions, the wrong phrase, begin again, a part to go to, good night: each does what it should, and no answer is undone."""
    evening = Evening("settings")
    before = _stands(evening)
    assert evening.says("teach me", "go back").sayings == (ThatWorked(Tried.BACK), TryIt(Tried.REPEAT))
    assert evening.says("where is Vega").question == TryIt(Tried.REPEAT)
    assert evening.says("help").question == TryIt(Tried.REPEAT)
    assert evening.says("next step", "begin this part again").sayings[0] == WhatWeDo()
    assert evening.says("skip this").question == TryIt(Tried.WAIT)
    evening.says("leave the tour")
    assert _stands(evening) == before
    assert evening.says("teach me", "back to the tripod").stage == "settings"
    assert evening.says("no").question == before[1]
    assert isinstance(evening.says("teach me", "good night").question, LeaveNow)
    assert evening.says("yes").sayings == (GoodNight(),)


def test_a_question_of_ours_gives_way_to_it() -> None:
    """Asked in the middle of "shall we end here?", it counts as no."""
    evening = Evening("settings")
    at = evening.turn.question
    assert evening.says("good night", "what can you do").sayings[0] == WhatWeDo()
    assert evening.says("leave the tour").question == at


def test_after_silencing_us_there_a_yes_is_a_yes() -> None:
    """A word tried out is no pause: the first answer after the tour counts."""
    evening = Evening("reference-stars")
    evening.says("teach me", *["next step"] * 4, "be quiet", "it's in the finder")
    assert evening.turn.question is not None
    assert evening.turn.question.code() == "is-it-centred"


def test_it_may_be_taken_in_korean() -> None:
    """Typed Korean: each phrase it asks for is understood there."""
    korean = load_language("ko")
    vocabulary = load_vocabulary(korean)
    evening = Evening("ground")
    for phrase in Tried:
        words = korean.words(TryIt(phrase), evening.conversation.moment(NIGHT))
        said = re.split(r"(?<=[.?!])\s+", words)[-1].split("라고")[0]
        turn = evening.says("teach me", *["next step"] * list(Tried).index(phrase))
        assert turn.question is not None
        turn = evening.conversation.hear(vocabulary.understand(said, turn.question.expects), evening.now)
        assert turn.sayings[0] == ThatWorked(phrase), said
        evening.turn = Turn((), turn.question, turn.stage)
        if isinstance(turn.question, TryIt):
            evening.says("leave the tour")


def _first_turn(home: Path, *, is_newcomer: bool) -> tuple[Saying, ...]:
    with Journal(journal_path(home)) as journal:
        session = Session(None, lambda: NIGHT + timedelta(seconds=1), journal, NOTHING_KNOWN, language=ENGLISH, is_newcomer=is_newcomer)
        first = session.begin().sayings
        again = session.hear(VOCABULARY.understand("say that again", type(first[-1]).expects if isinstance(first[-1], Ask) else None))  # type: ignore[arg-type]
        assert TourOffered() not in again.sayings
        return first


def test_a_newcomer_is_offered_it_once(tmp_path: Path) -> None:
    """Behind the greeting and before the question, once; to others never."""
    assert TourOffered() in _first_turn(tmp_path / "new", is_newcomer=True)[1:-1]
    assert TourOffered() not in _first_turn(tmp_path / "known", is_newcomer=False)
    assert KIT != NOTHING_KNOWN


@pytest.mark.parametrize("said", ["yes", "ready", "okay", "done", "next"])
def test_whatever_agrees_leads_on(said: str) -> None:
    """Who doesn't try a phrase out, and is simply ready, hears of the next."""
    evening = Evening("ground")
    assert evening.says("teach me", said).sayings == (TryIt(Tried.WAIT),)


def test_an_answer_to_what_waits_ends_it() -> None:
    """Who answers the question that was open before goes on from there; nothing of the tour is left."""
    evening = Evening("ground")
    evening.says("ready", "teach me", "repeat that")
    turn = evening.says("it's level")
    assert isinstance(turn.question, PutItOn)
    assert isinstance(evening.says("ready").question, ClampAndBalance)
