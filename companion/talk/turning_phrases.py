"""What is said where a mount on the line is turned to a target of the night."""

from __future__ import annotations

from dataclasses import dataclass

from companion.sky import Kind
from companion.talk.answers import ToldFigureAnswer, TurnAnswer, TurnReadilyAnswer
from companion.talk.night_answers import ShowMeAnswer, TargetAnswer
from companion.talk.night_phrases import Told
from companion.talk.saying import Ask, Say


@dataclass(frozen=True)
class ShallITurnThere(Ask[TurnAnswer | TargetAnswer | ShowMeAnswer | ToldFigureAnswer]):
    """Introduce a target, tell where to stand, and ask for the turn; the facts are those of ``IntroduceTarget``."""

    target: str
    kind: Kind
    eyepiece_mm: float | None
    change: bool
    again: bool = False
    """Whether it was introduced already: a turn there was halted."""


@dataclass(frozen=True)
class ShallITurnThereToo(Ask[TurnReadilyAnswer | TargetAnswer | ShowMeAnswer | ToldFigureAnswer]):
    """The same after turns that went well: a yes is enough."""

    target: str
    kind: Kind
    eyepiece_mm: float | None
    change: bool
    again: bool = False


class UseTheArrows(Say):
    """Say that it can't be moved over a line."""


class SayWhichWay(Say): ...


class IsItInView(Ask[Told]):
    """Ask for the next small step at a target, or that it is found."""


@dataclass(frozen=True)
class ItPointsThere(Ask[Told]):
    """It has arrived: say so, and how to look."""

    target: str
    kind: Kind
