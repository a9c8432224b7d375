"""What is said when nothing is understood, nobody speaks, or help is asked for again: each time another rung."""

from __future__ import annotations

from companion.talk.answers import UniversalAnswer
from companion.talk.guidance_phrases import (
    AnotherWay,
    DidNotGetThat,
    MoreWordsThatAlwaysWork,
    StillHere,
    ThatIsForLater,
    WordsThatAlwaysWork,
)
from companion.talk.help_phrases import HelpWithStep, YouCanSay
from companion.talk.saying import Answers, Ask, Say

Sayings = tuple[Say, ...]


class Reprompts:
    """Counts what goes wrong in a row; whatever is understood brings it back to the ground."""

    def __init__(self) -> None:
        """Stand on the ground."""
        self._misses = self._silences = self._helped = 0

    def understood(self, command: str) -> None:
        """Go back to the ground; only help asked for again stays where it was."""
        self._misses = self._silences = 0
        self._helped = self._helped + 1 if command == UniversalAnswer.HELP else 0

    def not_now(self, phrase: str, question: Ask[Answers]) -> Sayings:
        """Say that this word is for another time; after that it is a miss like any other."""
        if self._misses:
            return self.not_understood(question)
        self._misses = 1
        return (ThatIsForLater(phrase),)

    def not_understood(self, question: Ask[Answers]) -> Sayings:
        """Never ask for the same word a third time: name the words, then offer another way, then only a quiet sign."""
        self._misses += 1
        match self._misses:
            case 1:
                return (DidNotGetThat(),)
            case 2:
                return (YouCanSay(question.expects),)
            case 3:
                return (AnotherWay(),)
        return ()

    def silence(self) -> Sayings:
        """Break a silence once."""
        self._silences += 1
        return (StillHere(),) if self._silences == 1 else ()

    def help(self, question: Ask[Answers]) -> Sayings:
        """First what this step wants, then the words that work here, then the words that work anywhere, the commonest first."""
        match self._helped:
            case 1:
                return (HelpWithStep(type(question)),)
            case 2:
                return (YouCanSay(question.expects),)
            case 3:
                return (WordsThatAlwaysWork(),)
        return (MoreWordsThatAlwaysWork(),)
