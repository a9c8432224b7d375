"""What is said when nothing is understood, nobody speaks, or help is asked for again: each time another rung."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from companion.talk.answers import StarNameAnswer, TownAnswer, UniversalAnswer
from companion.talk.equipment_phrases import SayOrSpellTheTown
from companion.talk.guidance_phrases import (
    AnotherWay,
    DidNotGetThat,
    LeaveOrGoBack,
    MoreWordsThatAlwaysWork,
    OtherWords,
    SpellTheName,
    StillHere,
    ThatIsForLater,
    TryTheKey,
    TypeIt,
    WordsThatAlwaysWork,
)
from companion.talk.help_phrases import HelpWithStep, YouCanSay
from companion.talk.saying import Answers, Ask, Say

Sayings = tuple[Say, ...]


_A_NEW_WAY = 3
"""Of the misses in a row every third offers a way out; judgement: more would be nagging, fewer would leave somebody alone."""


_TOLD_TWICE = 2
_SPELLING: Mapping[type[Answers], tuple[Say, ...]] = {StarNameAnswer: (SpellTheName(),), TownAnswer: (SayOrSpellTheTown(),)}
"""How to spell, where names are told that an ear may not know."""


class Reprompts:
    """Counts what goes wrong in a row; whatever is understood brings it back to the ground."""

    def __init__(self, *, by_voice: bool, sees_no_keys: Callable[[], bool] = lambda: False) -> None:
        """Stand on the ground; by voice who types has taken some ways out already, and typing is none for who sees no keys."""
        self._by_voice = by_voice
        self._sees_no_keys = sees_no_keys
        self._misses = self._silences = self._helped = 0

    def understood(self, command: str) -> None:
        """Go back to the ground; only help asked for again stays where it was."""
        self._misses = self._silences = 0
        self._helped = self._helped + 1 if command in (UniversalAnswer.HELP, UniversalAnswer.DONT_KNOW) else 0

    def asked(self) -> None:
        """Note that something was asked of us: what went wrong before still counts, since the question is as open as it was."""
        self._silences = self._helped = 0

    @property
    def is_at_a_loss(self) -> bool:
        """Whether so much went wrong in a row that it is time to offer to go on without an answer."""
        return self._misses % (2 * _A_NEW_WAY) == _A_NEW_WAY

    @property
    def does_not_know(self) -> bool:
        """Whether help was asked for, or not knowing was told, twice in a row."""
        return self._helped == _TOLD_TWICE

    def not_now(self, phrase: str, question: Ask[Answers]) -> Sayings:
        """Say that this word is for another time; after that it is a miss like any other."""
        if self._misses:
            return self.not_understood(question)
        self._misses = 1
        return (ThatIsForLater(phrase),)

    def not_understood(self, question: Ask[Answers]) -> Sayings:
        """Never ask for the same word a third time: name the words, then each third time another way, and by voice only a sign between.

        Who sees little or nothing has only what is said: words between, too.
        """
        self._misses += 1
        match self._misses:
            case 1:
                return (DidNotGetThat(),)
            case 2:
                return (YouCanSay(question.expects),)
        number, rest = divmod(self._misses, _A_NEW_WAY)
        ways = self._ways_out(question)
        if rest:
            return () if self._by_voice and not self._sees_no_keys() else (DidNotGetThat(),)
        return (ways[(number - 1) % len(ways)],)

    def _ways_out(self, question: Ask[Answers]) -> tuple[Say, ...]:
        """Return all there are at a question, each as different from the one before as can be."""
        spelling = _SPELLING.get(question.expects) or next((_SPELLING[rule] for rule in question.also if rule in _SPELLING), ())
        if self._sees_no_keys():
            key = (TryTheKey(),) if self._by_voice else ()
            return (AnotherWay(), *spelling, *key, OtherWords(), LeaveOrGoBack())
        beside_voice = (TypeIt(), TryTheKey()) if self._by_voice else ()
        return (AnotherWay(), *spelling, *beside_voice, LeaveOrGoBack())

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
