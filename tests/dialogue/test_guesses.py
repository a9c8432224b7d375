"""What is only guessed from a typed line: told at once where it asks, asked back where it would change anything."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from companion.dialogue import Conversation, Turn
from companion.languages import load_language
from companion.messages import Heard, NotNow, NotUnderstood
from companion.procedure import EVENING
from companion.sky import Site
from companion.talk import every_rule
from companion.talk.answers import (
    ClockCheckAnswer,
    EyepieceAnswer,
    FinderAnswer,
    LevelAnswer,
    MissAnswer,
    OutcomeAnswer,
    ReadyAnswer,
    SettingAnswer,
    StartAnswer,
    TownAnswer,
)
from companion.talk.centring_phrases import IsItInTheFinder
from companion.talk.equipment_phrases import NoSuchTown, WhereAreYou
from companion.talk.guidance_phrases import DidNotGetThat, DoYouMean
from companion.talk.help_phrases import YouCanSay
from companion.talk.jump_phrases import OnlyByHand
from companion.talk.mistakes_phrases import MissHeard
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Answers
from tests.english import VOCABULARY

TIME = datetime(2026, 10, 15, 23, 30, tzinfo=UTC)


class _Evening:
    def __init__(self) -> None:
        self.records: list[object] = []
        self.conversation = Conversation(EVENING, Site(46.31, -67.52), load_language(), self.records.append)
        self.turn = self.conversation.begin(TIME)

    def type(self, *lines: str) -> Turn:
        for line in lines:
            assert self.turn.question is not None
            self.turn = self.conversation.hear(VOCABULARY.understand(line, self.turn.question.expects, self.conversation.instead), TIME)
        return self.turn


@pytest.fixture
def evening() -> _Evening:
    """At the tripod, whose question wants to hear that it is ready."""
    evening = _Evening()
    evening.type("yes", "yes", "ready")
    assert evening.turn.question is not None
    assert evening.turn.question.expects is ReadyAnswer
    return evening


@pytest.mark.parametrize(
    ("rule", "line", "command"),
    [
        (ReadyAnswer, "every leg has been tightened up by me", "ready"),
        (LevelAnswer, "I should say it is pretty much horizontal by now", "ready"),
        (FinderAnswer, "a big old tree is standing where it ought to be", "tree"),
        (SettingAnswer, "my controller is demanding the nearest city", "city"),
        (OutcomeAnswer, "it would have me do another star", "wants-another"),
    ],
)
def test_answers_are_guessed_at_every_stage(rule: type[Answers], line: str, command: str) -> None:
    """By their words, and never for sure."""
    heard = VOCABULARY.understand(line, rule)
    assert isinstance(heard, Heard)
    assert (heard.command, heard.is_guess) == (command, True)
    assert heard.confidence < 1.0


@pytest.mark.parametrize(
    ("line", "command", "slots"),
    [
        ("would you explain what a dew shield is good for", "what-is", {"word": "dew-shield"}),
        ("so when would Saturn be setting then", "sets-when", {"name": "Saturn"}),
        ("does my mobile do for a compass", "advise", {"advice": "phone-compass"}),
    ],
)
def test_questions_are_guessed_at_every_stage(line: str, command: str, slots: dict[str, str]) -> None:
    """With the name or the word they are about."""
    heard = VOCABULARY.understand(line, ReadyAnswer)
    assert isinstance(heard, NotNow)
    assert (heard.command, dict(heard.slots), heard.is_guess) == (command, slots, True)


@pytest.mark.parametrize(
    ("rule", "line", "command"),
    [
        (EyepieceAnswer, "senterd", "centred"),
        (FinderAnswer, "its in the findr", "in-finder"),
        (FinderAnswer, "Arcturis", "star-name"),
        (StartAnswer, "go to the setings", "go-to"),
        (ReadyAnswer, "where is Fommalhautt", "where-now"),
    ],
)
def test_misspelt_words_are_the_nearest_there_are(rule: type[Answers], line: str, command: str) -> None:
    """Those that answer the question first, then any that something has."""
    heard = VOCABULARY.understand(line, rule)
    assert isinstance(heard, Heard | NotNow)
    assert (heard.command, heard.is_guess) == (command, True)


def test_every_town_may_be_typed() -> None:
    """Not only the largest, which are heard; where we asserted another place, too. One that nobody has is told so."""
    for line in ("near Leeds", "Leeds", "I'm near Leeds."):
        heard = VOCABULARY.understand(line, TownAnswer)
        assert isinstance(heard, Heard)
        assert (heard.command, heard.slots["town_name"], heard.is_guess) == ("town", "Leeds", False)
    evening = _Evening()
    turn = evening.type("yes", "near Leeds", "in the town")
    assert "Leeds" in evening.conversation.words(turn.sayings[-1], TIME)
    turn = evening.type("no", "Little Wallopham")
    assert turn.sayings[0] == NoSuchTown("Little Wallopham", ())
    assert isinstance(turn.question, WhereAreYou)
    assert evening.type("near Leedz").sayings[0] == NoSuchTown("Leedz", ("Leeds",))


def test_better_words_are_taken_in_place_of_a_yes(evening: _Evening) -> None:
    """Who is asked back may say it again at once."""
    asked = evening.turn.question
    evening.type("every leg has been tightened up by me")
    turn = evening.type("all done")
    assert not isinstance(turn.question, DoYouMean)
    assert turn.question != asked


def test_what_is_understood_is_no_guess() -> None:
    """Every example of every grammar is understood as it stands."""
    for grammar in VOCABULARY.grammars:
        for example in grammar.examples:
            rule = next((rule for rule in every_rule() if rule.rule() == example.rule), None)
            heard = VOCABULARY.understand(example.words, rule) if rule is not None and example.accepted else None
            assert heard is None or (isinstance(heard, Heard | NotNow) and not heard.is_guess), example.words


def test_an_answer_is_asked_back_and_then_taken(evening: _Evening) -> None:
    """Nothing happens before a yes."""
    question, records = evening.turn.question, len(evening.records)
    turn = evening.type("every leg has been tightened up by me")
    assert isinstance(turn.question, DoYouMean)
    assert turn.sayings == (turn.question,)
    assert len(evening.records) == records
    turn = evening.type("yes")
    assert turn.question not in (question, None)
    assert len(evening.records) > records


def test_a_wrong_guess_changes_nothing(evening: _Evening) -> None:
    """After a no it names what can be said, and the question stands as before."""
    question, records = evening.turn.question, len(evening.records)
    turn = evening.type("every leg has been tightened up by me", "no")
    assert turn.question == question
    assert turn.sayings == (YouCanSay(ReadyAnswer),)
    assert len(evening.records) == records


def test_a_question_is_answered_at_once(evening: _Evening) -> None:
    """A wrong answer would cost a sentence."""
    question = evening.turn.question
    turn = evening.type("would you explain what a dew shield is good for")
    assert turn.question == question
    assert turn.sayings[-1] == AskedAgain(question)


def test_going_elsewhere_is_asked_back(evening: _Evening) -> None:
    """Once whether that is meant, and then what it costs."""
    turn = evening.type("we would love to jump straight to the targets now")
    assert isinstance(turn.question, DoYouMean)
    assert isinstance(evening.type("yes").question, OnlyByHand)


def test_no_guess_answers_a_question_of_our_own(evening: _Evening) -> None:
    """Whether a guess was right is answered plainly: another guess at what lies below is asked back in its place."""
    records = len(evening.records)
    turn = evening.type("every leg has been tightened up by me", "each of the locks is tightened as well by me")
    assert turn.sayings == (DoYouMean("locked"),)
    assert len(evening.records) == records
    turn = evening.type("nothing of the kind was ever so much as hinted at")
    assert turn.sayings == (DidNotGetThat(),)


def test_how_far_off_may_be_told_in_the_finder(evening: _Evening) -> None:
    """Whoever says it at once isn't asked which way and how far."""
    for line in ("up and to the right, about a fist", "one and a half fists left", "thirty degrees right", "two fists to the right"):
        heard = VOCABULARY.understand(line, FinderAnswer, IsItInTheFinder.also)
        assert isinstance(heard, NotNow)
        assert heard.command in set(MissAnswer), line
    evening.type("go to the alignment", "yes", "before switching on", "from its list")
    turn = evening.type("two fists to the right")
    assert isinstance(turn.sayings[0], MissHeard)


def test_nothing_is_guessed_of_a_whole_story() -> None:
    """Nor is time spent on it."""
    assert isinstance(VOCABULARY.understand("my legs are so very tired and " * 20, ReadyAnswer), NotUnderstood)


def test_figures_are_never_guessed() -> None:
    """A time told without its hour isn't one o'clock."""
    assert VOCABULARY.understand("by my watch one minute past", ClockCheckAnswer) == NotUnderstood()


def test_who_tells_something_with_a_word_of_the_trade_doesn_t_ask_what_it_is() -> None:
    """The question alone is one."""
    told = VOCABULARY.understand("those caps came with it", ReadyAnswer)
    assert not (isinstance(told, NotNow) and told.command == "what-is")
    asked = VOCABULARY.understand("what might those caps be", ReadyAnswer)
    assert isinstance(asked, NotNow)
    assert asked.command == "what-is"


@pytest.mark.parametrize(
    ("rule", "line", "command"),
    [
        (LevelAnswer, "close enough", "ready"),
        (ClockCheckAnswer, "no it's a quarter past", "time-wrong"),
        (EyepieceAnswer, "a touch to the left", "just-off"),
        (SettingAnswer, "mine only has city names", "city"),
        (ReadyAnswer, "in ten minutes", "wait"),
        (ReadyAnswer, "I only have one", "advise"),
    ],
)
def test_typed_words_that_no_ear_listens_for(rule: type[Answers], line: str, command: str) -> None:
    """They are as sure as any other, for they were typed."""
    heard = VOCABULARY.understand(line, rule)
    assert isinstance(heard, Heard | NotNow)
    assert (heard.command, heard.is_guess) == (command, False)
    assert not any(grammar.name == "typed" for grammar, _ in VOCABULARY.everything.sources)
