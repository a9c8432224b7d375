"""What follows the alignment: the proof, tonight's targets, what was fine and now isn't, and good night."""

from __future__ import annotations

from dataclasses import dataclass

from companion.talk.answers import FinderAnswer, NudgeAnswer, ProofAnswer, ReadyAnswer, RecentreAnswer, TurnAnswer, YesNoAnswer
from companion.talk.night_answers import TargetAnswer
from companion.talk.saying import Ask, Receipt, Say


@dataclass(frozen=True)
class ProofStar(Say):
    """Send the mount to a third star."""

    star: str


class IsTheProofInView(Ask[ProofAnswer | NudgeAnswer | TurnAnswer]): ...


@dataclass(frozen=True)
class WhereTheProofIs(Say):
    """Say again where that star is."""

    star: str


class LookLowerPower(Say): ...


class SweepRound(Say): ...


class ProofLeft(Receipt): ...


@dataclass(frozen=True)
class TheAlignmentHolds(Receipt):
    """Say that the proof star was where the mount took it."""

    near: str | None = None
    """The one thing it was aligned on, where there is but one: then it is proven near that only."""


@dataclass(frozen=True)
class NearlyProven(Ask[ReadyAnswer]):
    """Say what to do when the third star is close but not in the eyepiece."""

    star: str


class NothingToProveItOn(Say): ...


class AnybodyHurt(Ask[ReadyAnswer]): ...


@dataclass(frozen=True)
class SendItTo(Say):
    """Send the mount to a star."""

    star: str


class ReCentreAndSync(Ask[RecentreAnswer | TargetAnswer]): ...


class SweepForThat(Ask[RecentreAnswer | TargetAnswer]): ...


class IsItGoodAgain(Ask[YesNoAnswer | TargetAnswer | FinderAnswer]): ...


class IsTheBubbleCentred(Ask[YesNoAnswer]): ...


class ThenAlignAgain(Say): ...


class ThenLevelAgain(Say): ...


class ItForgotEverything(Say): ...


class SunStillUp(Say): ...


class SteerByHand(Say): ...


class WarmClothes(Say): ...


class ShallIRemember(Ask[YesNoAnswer]): ...


class GoodNight(Say): ...
