"""What is said of the words that work at any time, and for when nothing was understood."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from companion.sky import Moment
from companion.talk.answers import EitherAnswer, YesNoAnswer
from companion.talk.saying import Ask, Say

Doing: TypeAlias = Literal["steering", "slewing", "looking-for", "measuring", "centring", "waiting", "proving", "looking-at", "verdict"]
"""What is being done with a star or a target."""


class LeaveNow(Ask[YesNoAnswer]): ...


class DidNotGetThat(Say): ...


class AnotherWay(Say): ...


class SpellTheName(Say):
    """Offer to spell, where a name isn't understood."""


class TypeIt(Say):
    """Offer typing, where hearing fails."""


class TryTheKey(Say):
    """Offer the key, where hearing fails; how it is used is told by who holds it."""


class OtherWords(Say):
    """Offer to have the words told, where hearing fails."""


class LeaveOrGoBack(Say):
    """Offer to leave the part, or to go back."""


class WordsThatAlwaysWork(Say): ...


class MoreWordsThatAlwaysWork(Say): ...


class Waiting(Say): ...


class Stopped(Say): ...


class HowToHoldTheMount(Say): ...


class StillHere(Say): ...


class HeardNothingYet(Say): ...


@dataclass(frozen=True)
class LastHeard(Say):
    """Say what was understood last."""

    heard: str


@dataclass(frozen=True)
class WhereWeAre(Say):
    """Say which part of the evening this is, and what is being done there, with its name."""

    stage: str
    doing: Doing | None = None
    name: str | None = None


class TheTime(Say):
    """Say the time."""


class LikeThis(Say): ...


class FewWords(Say): ...


class EveryWord(Say): ...


@dataclass(frozen=True)
class DidYouSay(Ask[YesNoAnswer]):
    """Ask an uncertain answer back."""

    heard: str


@dataclass(frozen=True)
class DoYouMean(Ask[YesNoAnswer]):
    """Ask a guess back: the words are ours, what was typed were others."""

    guess: str


@dataclass(frozen=True)
class GoOnWithout(Ask[YesNoAnswer]):
    """Offer to go on without an answer."""

    not_understood: bool
    """Whether what was said can't be made out; else nobody knows the answer."""


@dataclass(frozen=True)
class WhichDidYouSay(Ask[EitherAnswer]):
    """Offer the two likeliest of what was said twice and not understood."""

    first: str
    second: str


@dataclass(frozen=True)
class ThatIsForLater(Say):
    """Say what was heard, and that it is for another time."""

    heard: str


class NothingToGoBackTo(Say): ...


class PartLeft(Say): ...


@dataclass(frozen=True)
class GoOnThere(Ask[YesNoAnswer]):
    """Offer to go on with an evening that was broken off."""

    began: Moment


class JournalTorn(Say): ...


class JournalDamaged(Say): ...


class JournalOtherVersion(Say): ...


class JournalTooLong(Say): ...


class GoingOn(Say): ...


class StageAnew(Say): ...
