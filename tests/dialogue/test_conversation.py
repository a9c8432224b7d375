"""The conversation: stages in order, universal words anywhere, going back, and help that changes its words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

import pytest

from companion.dialogue import Conversation, Turn
from companion.dialogue.reprompts import Reprompts
from companion.equipment import Equipment, Observer
from companion.languages import load_language
from companion.messages import Heard, Hearing, NotNow, NotUnderstood, Silence
from companion.procedure import Context, Done, Result, Script, Stage, ask
from companion.procedure.script import Steps
from companion.sky import Site
from companion.talk.answers import ReadyAnswer, YesNoAnswer
from companion.talk.guidance_phrases import (
    AnotherWay,
    DidYouSay,
    GoOnWithout,
    LeaveNow,
    LeaveOrGoBack,
    OtherWords,
    SpellTheName,
    ThatIsForLater,
    TryTheKey,
    TypeIt,
    WhichDidYouSay,
)
from companion.talk.saying import Ask, Say, Saying
from companion.talk.stars_phrases import WhichStarDoesItName

SITE = Site(46.31, -67.52)
START = datetime(2026, 10, 15, 22, 0, tzinfo=UTC)


class Hello(Say): ...


class First(Ask[YesNoAnswer]): ...


class YouSaidYes(Say): ...


class YouSaidNo(Say): ...


class Second(Ask[ReadyAnswer]): ...


@dataclass(frozen=True)
class Again(Say):
    """Say what was answered before."""

    before: tuple[str, ...]


class Third(Ask[ReadyAnswer]): ...


class Bye(Say): ...


@dataclass(frozen=True)
class Answered(Result):
    """What the first stage heard."""

    answers: tuple[str, ...]


def _two_questions(context: Context) -> Steps[Answered]:
    yield Hello()
    first = yield from ask(First())
    yield YouSaidYes() if first.command is YesNoAnswer.YES else YouSaidNo()
    second = yield from ask(Second())
    return Answered((first.command, second.command))


def _one_question(context: Context) -> Script:
    before = context.found(Answered)
    assert before is not None
    yield Again(before.answers)
    yield from ask(Third())
    return Done()


def _closing(context: Context) -> Script:
    yield Bye()
    return Done()


STAGES = (Stage("one", _two_questions, Answered), Stage("two", _one_question), Stage("three", _closing))


class _InCodes(Conversation):
    """A conversation of sentences that no language has words for."""

    def words(self, saying: Saying, time: datetime) -> str:
        """Return its code."""
        return saying.code()


def _hold(hearings: Sequence[Hearing | str], *, by_voice: bool = False) -> list[Turn]:
    """Return every turn of an evening in which these things are heard a minute apart."""
    conversation = _InCodes(STAGES, SITE, load_language("en"), by_voice=by_voice)
    turns = [conversation.begin(START)]
    for minute, hearing in enumerate(hearings, 1):
        heard = Heard(hearing, hearing) if isinstance(hearing, str) else hearing
        turns.append(conversation.hear(heard, START + timedelta(minutes=minute)))
    return turns


def _phrases(turn: Turn) -> list[str]:
    return [saying.code() for saying in turn.sayings]


def test_stages_follow_one_another() -> None:
    """Answers run through the stages, results are handed on, and the last stage ends the evening."""
    turns = _hold(["yes", "ready", "ready"])
    assert [_phrases(turn) for turn in turns] == [["hello", "first"], ["you-said-yes", "second"], ["again", "third"], ["bye"]]
    assert turns[2].sayings[0].facts == {"before": ("yes", "ready")}
    assert [turn.finished for turn in turns] == [False, False, False, True]
    assert [turn.stage for turn in turns] == ["one", "one", "two", "three"]


def test_say_again_repeats_all_that_was_said() -> None:
    """The whole last saying comes again, not only the question."""
    assert _phrases(_hold(["yes", "say-again"])[-1]) == ["you-said-yes", "second"]


def test_go_back_stands_at_the_question_before() -> None:
    """Going back forgets one answer, also across the border of a stage, and the new answer counts."""
    assert _phrases(_hold(["yes", "go-back"])[-1]) == ["hello", "first"]
    assert _phrases(_hold(["yes", "ready", "go-back"])[-1]) == ["you-said-yes", "second"]
    assert _phrases(_hold(["yes", "ready", "go-back", "go-back", "no", "ready"])[-1]) == ["again", "third"]
    assert _hold(["yes", "ready", "go-back", "go-back", "no", "ready"])[-1].sayings[0].facts == {"before": ("no", "ready")}


def test_go_back_at_the_beginning_says_so() -> None:
    """There is nothing before the first question."""
    assert _phrases(_hold(["go-back"])[-1]) == ["nothing-to-go-back-to", "hello", "first"]


@pytest.mark.parametrize("command", ["wait", "stop", "help"])
def test_side_words_leave_the_question_open(command: str) -> None:
    """Waiting, silencing and help say their piece; the question stays what it was."""
    turn = _hold(["yes", command])[-1]
    assert turn.question == Second()


def test_misses_never_ask_for_the_same_word_a_third_time() -> None:
    """First a short word, then the words that work, then each third time another way out; an accepted answer begins anew."""
    miss = NotUnderstood()
    turns = _hold([*[miss] * 15, "yes", miss], by_voice=True)
    said = [phrase for turn in turns[1:] for phrase in _phrases(turn) or ["(the small sound)"]]
    assert said[:3] == ["did-not-get-that", "you-can-say", "another-way"]
    ways = ["(the small sound)", "(the small sound)"]
    assert said[3:15] == [*ways, "type-it", *ways, "try-the-key", *ways, "leave-or-go-back", *ways, "another-way"]
    assert said[-1] == "did-not-get-that"


def test_nothing_typed_is_met_with_silence() -> None:
    """Who types hears no small sound: each line that isn't understood gets words."""
    assert all(turn.sayings for turn in _hold([NotUnderstood()] * 12))
    assert all(turn.sayings for turn in _hold([NotNow("dead centre", "centred")] * 12))


def test_where_a_name_is_asked_for_spelling_is_a_way_out() -> None:
    """A name that isn't heard can be spelt, and is offered to be."""
    ladder = Reprompts(by_voice=True)
    assert [ladder.not_understood(WhichStarDoesItName()) for _ in range(6)][-1] == (SpellTheName(),)


def test_who_sees_nothing_is_not_sent_to_a_keyboard() -> None:
    """A blind owner hears words at every miss, and key, spelling, other words or leaving offered in turn, never typing."""
    ladder = Reprompts(by_voice=True, sees_no_keys=lambda: True)
    said = [ladder.not_understood(WhichStarDoesItName()) for _ in range(18)]
    assert all(said)
    ways = [one for (one,) in said[2::3]]
    assert ways == [AnotherWay(), SpellTheName(), TryTheKey(), OtherWords(), LeaveOrGoBack(), AnotherWay()]
    conversation = Conversation(STAGES, SITE, load_language("en"), equipment=Equipment(observer=Observer(sight="none")), by_voice=True)
    conversation.begin(START)
    turns = [conversation.hear(NotUnderstood(), START + timedelta(minutes=minute)) for minute in range(1, 16)]
    assert all(turn.sayings for turn in turns)
    assert not any(isinstance(saying, TypeIt) for turn in turns for saying in turn.sayings)


def test_help_grows() -> None:
    """Help explains the step, then names the words, then the words that always work."""
    assert [_phrases(turn)[0] for turn in _hold(["help", "help", "help"])[1:]] == [
        "help-with-step",
        "you-can-say",
        "words-that-always-work",
    ]


def test_silence_is_comfortable() -> None:
    """One short word, then nothing until spoken to; the question stays open."""
    turns = _hold([Silence(), Silence(), Silence(), "yes"])
    assert [_phrases(turn) for turn in turns[1:]] == [["still-here"], [], [], ["you-said-yes", "second"]]


def test_a_word_for_another_time_is_named() -> None:
    """A phrase that answers another question is not "not understood"; said again and again it meets the same ladder."""
    turns = _hold([NotNow("dead centre", "centred")] * 3)
    assert turns[1].sayings == (ThatIsForLater("dead centre"),)
    assert [_phrases(turn) for turn in turns[2:]] == [["you-can-say"], ["go-on-without"]]
    assert all(turn.question == turns[0].question for turn in turns[:-1])


def test_who_is_not_understood_for_long_may_go_on_without_an_answer() -> None:
    """Typed, a third miss offers it, questions asked between them or not; yes goes on, no stays, an answer after all is one."""
    lost: list[Hearing | str] = ["yes", NotUnderstood(), NotNow("what time is it", "time-now"), NotUnderstood(), NotUnderstood()]
    offered, *_ = _hold(lost)[-1:]
    assert offered.question == GoOnWithout(not_understood=True)
    assert _hold([*lost, "no"])[-1].question == _hold(["yes"])[-1].question
    assert _hold([*lost, "yes"])[-1].question == _hold([*lost, "ready"])[-1].question == _hold(["yes", "ready"])[-1].question


def test_who_does_not_know_twice_may_go_on_without_an_answer() -> None:
    """The first time it is told how to find out."""
    told, offered = _hold(["yes", "dont-know", "dont-know"])[-2:]
    assert told.question != offered.question == GoOnWithout(not_understood=False)


def test_good_night_is_confirmed() -> None:
    """Leaving is asked back; no goes on where we were, yes ends the evening."""
    asked, stayed = _hold(["good-night", "no"])[1:]
    assert asked.question == LeaveNow()
    assert stayed.question == First()
    left = _hold(["good-night", "yes"])[-1]
    assert left.finished
    assert _phrases(left) == ["good-night"]


def test_an_uncertain_answer_that_changes_something_is_asked_back() -> None:
    """Below the threshold the answer is read back; yes lets it act, no asks the question again, anything sure goes its own way."""
    doubtful = Heard("ready now", "ready", confidence=0.5)
    asked, done = _hold(["yes", doubtful, "yes"])[-2:]
    assert asked.sayings == (DidYouSay("ready now"),)
    assert asked.question == asked.sayings[0]
    assert _phrases(done) == ["again", "third"]
    assert _phrases(_hold(["yes", doubtful, "no"])[-1]) == ["second"]
    assert _phrases(_hold(["yes", doubtful, "ready"])[-1]) == ["again", "third"]


def test_what_sounds_like_another_answer_is_asked_back_but_not_where_it_was_typed() -> None:
    """East and west are told apart by one sound: heard ever so surely, they are read back."""
    for confidence, is_asked_back in ((0.999, True), (1.0, False)):
        turn = _hold(["yes", Heard("west", "ready", confidence=confidence)])[-1]
        assert (turn.sayings == (DidYouSay("west"),)) == is_asked_back


def test_free_words_act_at_once_and_a_doubtful_yes_is_not_guessed() -> None:
    """Repeating costs nothing, so it needs no certainty; a yes that may have been a no is asked for again in other words."""
    assert _phrases(_hold(["yes", Heard("say that again", "say-again", confidence=0.4)])[-1]) == ["you-said-yes", "second"]
    turn = _hold([Heard("yes", "yes", confidence=0.4)])[-1]
    assert _phrases(turn) == ["did-not-get-that"]
    assert turn.question == First()


def test_of_two_likely_phrases_one_is_chosen() -> None:
    """Said twice and not understood, the two likeliest are offered; each acts at its number, neither asks again, but never yes or no."""
    unsure = NotUnderstood(0.4, (Heard("ready now", "ready"), Heard("skip this", "skip")))
    asked, done = _hold(["yes", NotUnderstood(0.3), unsure, "first"])[-2:]
    assert asked.question == WhichDidYouSay("ready now", "skip this")
    assert _phrases(done) == ["again", "third"]
    assert _phrases(_hold(["yes", unsure, "neither"])[-1]) == ["second"]
    assert _phrases(_hold(["yes", unsure, NotUnderstood(0.4, unsure.likeliest)])[-1]) == ["did-not-get-that"]
    yes_or_no = NotUnderstood(0.4, (Heard("yes", "yes"), Heard("no", "no")))
    assert _phrases(_hold([yes_or_no])[-1]) == ["did-not-get-that"]
