"""What is said while everything is packed up, one thing at a time."""

from __future__ import annotations

from dataclasses import dataclass

from companion.talk.answers import PackingAnswer
from companion.talk.saying import Ask, Say


class ParkIt(Ask[PackingAnswer]): ...


class SwitchItOff(Ask[PackingAnswer]): ...


class CapEverything(Ask[PackingAnswer]): ...


class CapBeforeItMoves(Ask[PackingAnswer]):
    """The Sun is up: the caps come before anything that turns the tube."""


@dataclass(frozen=True)
class EyepiecesIn(Ask[PackingAnswer]):
    """Count the eyepieces into their box."""

    eyepieces_mm: tuple[float, ...]
    """Those of the profile, the longest focal length first; empty where none are known."""
    diagonal: bool


class CablesIn(Ask[PackingAnswer]): ...


class TakeItDown(Ask[PackingAnswer]): ...


class SearchTheGround(Ask[PackingAnswer]): ...


class WhereThingsHide(Say): ...


class CapsOnFirst(Say):
    """The same caution for who knows the rest."""


class MindTheWeightAndGoodNight(Say):
    """What is left to be careful with, where somebody knows the rest once the mount is off."""


class DryAndChargeAtHome(Say): ...
