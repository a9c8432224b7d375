"""What people type is what they would have said: contractions, spellings, catalogue numbers, and more than one thing in a line."""

from __future__ import annotations

import pytest

from companion.messages import Heard, NotNow, NotUnderstood
from companion.talk import answers as rules
from companion.talk.night_answers import TargetAnswer
from companion.talk.saying import Answers
from tests.english import VOCABULARY


@pytest.mark.parametrize(
    ("rule", "command", "lines"),
    [
        (rules.LevelAnswer, "ready", ["it is level", "its level", "It’s level.", "IT IS LEVEL!"]),
        (rules.EyepieceAnswer, "centred", ["it is centered", "its centred", "centered"]),
        (rules.FinderAnswer, "cannot-see", ["I cannot see it", "I do not see it", "cant see it", "we can't see it", "no, I can't see it"]),
        (rules.YesNoAnswer, "yes", ["OK", "that is right", "ok, thank you", "yes, that's our school", "yes that's our school"]),
        (rules.ReadyAnswer, "ready", ["we are ready", "I am ready", "alright", "done, next"]),
        (rules.ReadyAnswer, "wait", ["wait, Tom is lifting it"]),
        (rules.FinderCheckAnswer, "moved", ["no, it moved", "no, it has moved"]),
        (rules.FinderAnswer, "in-finder", ["wait, it's in the finder"]),
        (rules.FewMillimetresAnswer, "few_millimetres", ["25mm", "25 mm", "a 25mm", "it's 9.7mm"]),
        (rules.FewMillimetresAnswer, "advise", ["f5", "f/5.9", "F5"]),
        (rules.MillimetresAnswer, "millimetres", ["1200mm", "8 in"]),
        (rules.ReadyAnswer, "skip", ["skip"]),
        (rules.LevelAnswer, "ready", ["bubble's still centred", "it's really level", "it looks horizontal to me"]),
        (TargetAnswer, "show-me", ["show me M42", "show me NGC 891", "let us see m13"]),
    ],
)
def test_typed_otherwise_it_is_the_same(rule: type[Answers], command: str, lines: list[str]) -> None:
    """As people type; the last of several answers holds, for who goes on after "no" says it better."""
    for line in lines:
        heard = VOCABULARY.understand(line, rule)
        assert isinstance(heard, Heard | NotNow), line
        assert heard.command == command, line


@pytest.mark.parametrize(
    "line", ["yes but it isn't centred", "yes, if you say so twice", "it is purple, it isn't green", "no scratches", "M"]
)
def test_what_may_mean_the_contrary_is_not_taken(line: str) -> None:
    """A part that isn't understood may turn the rest round: then nothing is understood, or what is guessed is that."""
    heard = VOCABULARY.understand(line, rules.EyepieceAnswer)
    assert isinstance(heard, NotUnderstood) or (isinstance(heard, Heard) and heard.is_guess and heard.command != "centred")


def test_a_question_in_the_line_comes_first() -> None:
    """It costs nothing, and the open question is put again after it."""
    heard = VOCABULARY.understand("yes, what is a finder?", rules.YesNoAnswer)
    assert isinstance(heard, NotNow)
    assert heard.command == "what-is"
