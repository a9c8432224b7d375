"""What is said of writing an observation down, and of what stands in the log.

Each question of the form takes what may be said at a target, too: who wants something else leaves the rest of it out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from companion.observing.observation import Observation
from companion.talk.answers import FewMillimetresAnswer, HowItLookedAnswer, HowItShowedAnswer, OneToFiveAnswer, ToldFigureAnswer
from companion.talk.night_answers import ShowMeAnswer, TargetAnswer
from companion.talk.saying import Ask, Receipt, Say

Instead: TypeAlias = TargetAnswer | ShowMeAnswer | ToldFigureAnswer
"""What may be said instead of filling the form in."""


class HowDidItShow(Ask[HowItShowedAnswer | Instead]): ...


class WhichEyepieceWasIn(Ask[FewMillimetresAnswer | Instead]): ...


class HowDidItLook(Ask[HowItLookedAnswer | Instead]): ...


class AnotherWordForIt(Ask[HowItLookedAnswer | Instead]): ...


class HowSteadyIsTheAir(Ask[OneToFiveAnswer | Instead]): ...


class HowClearIsTheAir(Ask[OneToFiveAnswer | Instead]): ...


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


class WrittenDownIsGone(Say): ...
