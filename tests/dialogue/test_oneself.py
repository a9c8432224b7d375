"""What observers tell of themselves, at any time: confirmed in one sentence, kept through a crash, and offered to be remembered."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from companion.dialogue import Conversation, Record, Turn, rebuild
from companion.equipment import Equipment, Limit, Looker, Mount, Observer, Oneself, SightLeft
from companion.languages import load_language
from companion.messages import Heard, NotNow
from companion.procedure import EVENING
from companion.procedure.script import Context
from companion.sky import Body, Sight, Site
from companion.talk import every_ask
from companion.talk.advice import Advice
from companion.talk.answers import (
    EyepieceAnswer,
    FinderAnswer,
    LevelAnswer,
    ProofAnswer,
    SettingAnswer,
    UnseenAnswer,
    YesNoAnswer,
)
from companion.talk.guidance_phrases import DidYouSay
from companion.talk.night_answers import TargetAnswer
from companion.talk.sight_phrases import LimitNoted, SightNoted
from companion.talk.targets_phrases import ShallIRemember
from companion.vocabulary import load_vocabulary
from tests.dialogue.test_jumps import KIT, NIGHT, SITE, TO_STAGE, Evening
from tests.english import ENGLISH, VOCABULARY

IN_EVERY_PART = ("I'm blind", "I can't see", "my child looks for me")
"""Of these each part is tried, of the others two."""


@pytest.mark.parametrize(
    ("said", "sight", "eyes"),
    [
        ("I'm blind", "none", None),
        ("I can't see", "none", None),
        ("I can't see stars", "little", None),
        ("my sight is poor", "little", None),
        ("my child looks for me", None, "child"),
        ("my daughter is looking for me", None, "child"),
        ("my friend looks for me", None, "helper"),
        ("um, someone looks for me please", None, "helper"),
        ("I'm alone again", None, None),
    ],
)
def test_it_is_understood_in_any_part(said: str, sight: SightLeft | None, eyes: Looker | None) -> None:
    """In the stages of an evening it is taken, confirmed in a single sentence, and the same question stays open."""
    evening = Evening()
    for stage in ("check-in", *TO_STAGE) if said in IN_EVERY_PART else ("check-in", "ground"):
        evening.says(*TO_STAGE.get(stage, ()))
        if said == "I can't see" and stage == "reference-stars":
            break  # From here on it may be the star that can't be seen: the next test.
        at = evening.turn.question
        turn = evening.says(said)
        assert (turn.stage, turn.question) == (stage, at)
        assert turn.sayings[0] == SightNoted(sight, eyes)
        confirmed = ENGLISH.words(turn.sayings[0], evening.conversation.moment(evening.now))
        assert confirmed.count(".") == 1
        assert evening.conversation.equipment.observer.sight == sight
        assert evening.conversation.equipment.observer.eyes == eyes
        evening.says("I can see again")  # Else other questions would follow.


@pytest.mark.parametrize(
    ("said", "sight"), [("I've got low vision", "little"), ("I don't see very well", "little"), ("I'm nearly blind", "none")]
)
def test_what_is_only_typed_of_oneself_counts_too(said: str, sight: str) -> None:
    """As newcomers typed it; no ear listens for so many words."""
    evening = Evening("ground")
    at = evening.turn.question
    assert evening.says(said).question == at
    assert evening.conversation.equipment.observer.sight == sight


@pytest.mark.parametrize(
    ("said", "limit"),
    [
        ("I can't kneel", "kneeling"),
        ("my knees are bad", "kneeling"),
        ("I'm in a wheelchair", "kneeling"),
        ("I can't reach up", "reaching"),
        ("my shoulder hurts", "reaching"),
    ],
)
def test_what_is_hard_is_kept_from_the_next_part_on(said: str, limit: Limit) -> None:
    """It is confirmed, the question stays, the parts to come know it, and a journal brings it back beside the sight."""
    evening = Evening("ground")
    at = evening.turn.question
    turn = evening.says("my sight is poor", said)
    assert (turn.sayings[0], turn.question) == (LimitNoted(limit), at)
    assert evening.conversation.equipment.observer.limits == {limit}
    again = evening.resumed()
    assert again.oneself == Oneself("little", limits=(limit,))
    assert again.equipment == evening.conversation.equipment


def test_at_a_star_not_seeing_it_is_an_answer() -> None:
    """Who looks for a star and says that they can't see speaks of the star."""
    for question in every_ask():
        if question.expects.rule() in ("finder", "proof"):
            assert VOCABULARY.understand("I can't see", question.expects).command == "cannot-see"  # type: ignore[union-attr]


SEES_NO_SCREEN = {
    "en": ("I can't see the screen", "I don't see the display", "I can't read the display please", "I can't see anything"),
    "ko": ("화면이 안 보여요", "화면을 못 봐요", "아무것도 안 보여요"),
}
"""In each language the last speaks of a star where one is looked for."""
AT_A_STAR = {FinderAnswer: "cannot-see", ProofAnswer: "cannot-see", UnseenAnswer: "dark", EyepieceAnswer: "gone", TargetAnswer: "not-there"}
ELSEWHERE = (YesNoAnswer, SettingAnswer, LevelAnswer)


@pytest.mark.parametrize("code", ["en", "ko"])
def test_who_sees_no_screen_is_understood(code: str) -> None:
    """It asks who could read it to them; where a star is looked for, nothing seen is an answer."""
    vocabulary = VOCABULARY if code == "en" else load_vocabulary(load_language(code))
    *of_a_screen, of_anything = SEES_NO_SCREEN[code]
    for expects, command in AT_A_STAR.items():
        assert vocabulary.understand(of_anything, expects) == Heard(of_anything.lower(), command, {}, 1.0)
    for said, rules in ((of_anything, ELSEWHERE), *((said, (*ELSEWHERE, FinderAnswer)) for said in of_a_screen)):
        for expects in rules:
            heard = vocabulary.understand(said, expects)
            assert isinstance(heard, NotNow), (said, expects)
            assert (heard.command, heard.slots["advice"]) == ("advise", Advice.SCREEN)


@pytest.mark.parametrize("told", [(), ("I'm blind",), ("I'm blind", "my child looks for me")])
def test_who_sees_no_screen_hears_who_could_read_the_display(told: tuple[str, ...]) -> None:
    """A person or a phone; the question stays open."""
    evening = Evening()
    evening.says(*told)
    at = evening.turn.question
    turn = evening.says("I can't see the screen")
    assert turn.question == at
    observer = evening.conversation.equipment.observer
    told = ENGLISH.words(turn.sayings[0], evening.conversation.moment(evening.now), observer)
    assert "No screen need be read" in told
    assert "a phone" in told
    assert "someone looks for me" in told


def test_one_thing_is_told_after_the_other() -> None:
    """Sight and looker are told apart; being alone again leaves the sight as it is, and seeing again forgets both."""
    evening = Evening()
    told = []
    for said in ("I'm blind", "my son looks for me", "my friend looks for me", "I'm alone again", "I can see again"):
        evening.says(said)
        told.append(evening.conversation.oneself)
    assert told == [Oneself("none"), Oneself("none", "child"), Oneself("none", "helper"), Oneself("none"), Oneself()]


def test_it_holds_through_going_back_beginning_again_and_a_crash() -> None:
    """Nothing that moves the evening forgets it, and a journal brings it back with what each part knew of it."""
    evening = Evening("finder")
    evening.says("my child looks for me", "I'm blind", "no", "go back", "begin this part again", "no", "it's level")
    again = evening.resumed()
    assert again.oneself == evening.conversation.oneself == Oneself("none", "child")
    assert again.equipment == evening.conversation.equipment
    assert again.standing() == Turn((), evening.turn.question, evening.turn.stage)


def test_a_journal_from_before_has_none() -> None:
    """An evening in which nobody told of it is recorded as it ever was."""
    evening = Evening("finder")
    assert not any(record["kind"] == "seeing" or "seeing" in record for record in evening.records)
    assert rebuild(evening.records).oneself is None


def test_what_was_told_is_offered_to_be_remembered() -> None:
    """At the end, as all that was learned; not where the profile says the same already."""
    keys = replace(KIT.mount, arrow_by_cable="down")
    known = Evening("targets", kit=Equipment(KIT.instrument, keys, Observer("card", sight="little", level_aid="phone")))
    assert not isinstance(known.says("my sight is poor", "that's all", "yes").question, ShallIRemember)
    evening = Evening("targets")
    turn = evening.says("I'm blind", "that's all", "yes")
    assert isinstance(turn.question, ShallIRemember)
    evening.says("yes")
    assert evening.conversation.wants_to_be_remembered
    assert evening.conversation.equipment.observer.sight == "none"


def test_what_was_hardly_heard_is_asked_back() -> None:
    """It changes every word that follows, so it acts at once only when sure."""
    evening = Evening()
    turn = evening.conversation.hear(NotNow("i'm blind", "blind", {}, 0.7), evening.now)
    assert isinstance(turn.question, DidYouSay)
    assert evening.conversation.oneself is None
    evening.turn = turn
    assert SightNoted("none", None) in evening.says("yes").sayings
    assert evening.conversation.oneself == Oneself("none")


@pytest.mark.parametrize(("sight", "eyes", "conceals"), [(None, None, False), ("little", None, True), ("little", "child", False)])
def test_poor_sight_leaves_the_brightest_stars(sight: SightLeft | None, eyes: Looker | None, conceals: bool) -> None:
    """A second-magnitude star is too faint for who sees little, unless somebody else looks."""
    context = Context(Site(46.0, 7.0), NIGHT, {}, Equipment(observer=Observer(sight=sight, eyes=eyes)))
    assert context.conceals(Sight(Body("Mirfak", "star", 1.8), NIGHT, 40.0, 90.0, 1.8, "Per")) is conceals


def test_korean_says_it_too() -> None:
    """The same is understood and confirmed in Korean, typed."""
    korean = load_language("ko")
    vocabulary, records = load_vocabulary(korean), list[Record]()
    conversation = Conversation(EVENING, SITE, korean, records.append, Equipment(mount=Mount("list")))
    turn = conversation.begin(NIGHT)
    assert turn.question is not None
    turn = conversation.hear(vocabulary.understand("아이가 봐 줘요", turn.question.expects), NIGHT + timedelta(seconds=5))
    assert turn.sayings[0] == SightNoted(None, "child")
    assert "아이" in conversation.words(turn.sayings[0], NIGHT)
