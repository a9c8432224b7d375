"""What is said of writing an observation down, and of what stands in the log."""

from __future__ import annotations

from dataclasses import dataclass

from companion.observing.observation import Observation
from companion.talk.answers import FewMillimetresAnswer, HowItLookedAnswer, HowItShowedAnswer, OneToFiveAnswer
from companion.talk.saying import Ask, Receipt, Say


class HowDidItShow(Ask[HowItShowedAnswer]): ...


class WhichEyepieceWasIn(Ask[FewMillimetresAnswer]): ...


class HowDidItLook(Ask[HowItLookedAnswer]): ...


class AnotherWordForIt(Ask[HowItLookedAnswer]): ...


class HowSteadyIsTheAir(Ask[OneToFiveAnswer]): ...


class HowClearIsTheAir(Ask[OneToFiveAnswer]): ...


class WrittenDown(Receipt): ...


@dataclass(frozen=True)
class WasSeen(Say):
    """Tell an observation from the log: when, what, and how it showed."""

    observation: Observation


@dataclass(frozen=True)
class NotedOfIt(Say):
    """Tell what was noted beside how well it showed; no words at all where nothing was."""

    observation: Observation


class NothingWrittenDown(Say): ...
