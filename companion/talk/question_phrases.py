"""What is answered to questions that may be asked at any time. The facts only name things; where they stand is told when it is spoken."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from companion.equipment import Equipment
from companion.sky.bands import CompassPoint
from companion.talk.advice import Advice
from companion.talk.saying import Answers, Ask, Say
from companion.talk.trade_words import Task, TradeWord


@dataclass(frozen=True)
class AskedAgain(Say):
    """Put the open question again, in few words."""

    question: Ask[Answers]


@dataclass(frozen=True)
class BrightOne(Say):
    """Name what somebody sees shining there, the likeliest first, with what tells it apart."""

    names: tuple[str, ...]


@dataclass(frozen=True)
class BrightPair(Say):
    """Name two that somebody sees shining together."""

    names: tuple[str, str]


class NothingBrightThere(Say): ...


class NoOtherWay(Say):
    """Say that what is open can be done in one way only, and how to go on without."""


class ThatIsTheSun(Say): ...


@dataclass(frozen=True)
class WhereItStands(Say):
    """Say where a thing stands, or when it comes up."""

    name: str


@dataclass(frozen=True)
class IsItUp(Say):
    """Say whether a thing is up, and until or from when."""

    name: str


@dataclass(frozen=True)
class WhenItRises(Say):
    """Say when a thing rises."""

    name: str


@dataclass(frozen=True)
class WhenItSets(Say):
    """Say when a thing sets."""

    name: str


@dataclass(frozen=True)
class HowHighItStands(Say):
    """Say how high a thing stands."""

    name: str


class NamedNothingYet(Say): ...


class TheMoonNow(Say):
    """Say what the Moon looks like, and when it rises or sets."""


class UntilLight(Say):
    """Say when morning comes."""


class WhereOnEarth(Say):
    """Say the place."""


@dataclass(frozen=True)
class WhereWeWere(Say):
    """Say which part of the evening this is, with the name of the thing it is about."""

    stage: str
    name: str | None


@dataclass(frozen=True)
class WhatYouTold(Say):
    """Say what is known of the equipment."""

    equipment: Equipment


@dataclass(frozen=True)
class WhichWayItIs(Say):
    """Show a compass point by something that stands there."""

    point: CompassPoint


@dataclass(frozen=True)
class HowMuchLonger(Say):
    """Say how long until the first target; None where it is past."""

    minutes: int | None


class NextTargetOrPacking(Say):
    """Say how to go on from a target."""


@dataclass(frozen=True)
class WhatComesNext(Say):
    """Say which part follows; None where nothing does."""

    stage: str | None


@dataclass(frozen=True)
class StarsLeft(Say):
    """Say how many reference stars are still to be centred."""

    count: int


class OnlyQuestions(Say):
    """Say that nothing is set up in this conversation."""


@dataclass(frozen=True)
class WordMeans(Say):
    """Explain a word of the trade."""

    word: TradeWord


@dataclass(frozen=True)
class WhatIsMeant(Say):
    """Explain the open question by the first word of the trade in it, else by what the step is for."""

    question: Ask[Answers]


@dataclass(frozen=True)
class HowToDo(Say):
    """Say how something is done by hand."""

    task: Task


@dataclass(frozen=True)
class Advised(Say):
    """Say what helps with something that somebody runs into."""

    about: Advice


# --- what a thing is ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class WhatItIs(Say):
    """Say what kind of thing it is."""

    name: str


@dataclass(frozen=True)
class HowFarItIs(Say):
    """Say how far it is."""

    name: str


@dataclass(frozen=True)
class TellItsStory(Say):
    """Tell what a thing is, how far, how old its light, and what is seen of it."""

    name: str


@dataclass(frozen=True)
class HowOldItsLightIs(Say):
    """Say how long its light has been on the way."""

    name: str


@dataclass(frozen=True)
class HowBigItIs(Say):
    """Say how large it looks, and how large it is."""

    name: str


@dataclass(frozen=True)
class HowBrightItIs(Say):
    """Say its magnitude."""

    name: str


@dataclass(frozen=True)
class HowLongOut(Say):
    """Say how long ago the evening began."""

    since: datetime


@dataclass(frozen=True)
class HowOldItIs(Say):
    """Say how old such things are."""

    name: str


@dataclass(frozen=True)
class WhatColourItIs(Say):
    """Say which colour it shows, if any."""

    name: str


@dataclass(frozen=True)
class WhichConstellation(Say):
    """Say in which constellation it stands."""

    name: str


@dataclass(frozen=True)
class WhyThisOne(Say):
    """Say what speaks for it, and against."""

    name: str


class TheDate(Say):
    """Say the day."""


class HowFarTheCompassIsOff(Say):
    """Say by how much, and to which side, a compass points past true north here."""


@dataclass(frozen=True)
class FaintestHere(Say):
    """Say how faint a star shows overhead now, by eye and through this aperture; in daylight, that it must be dark for that."""

    aperture_mm: float
    telescope_mag: float | None
    """None in daylight; both to the half magnitude."""
    eye_mag: float | None


class NoCometsKnown(Say): ...


class PlanetsUp(Say):
    """Say which of the bright planets are up, and where; of none, which comes up next."""


class NothingPassingKnown(Say): ...


class NoWeatherKnown(Say): ...
