"""What is said when clouds stand before the stars: where the sky is clear, and the wait where it isn't."""

from __future__ import annotations

from companion.talk.answers import ClearSkyAnswer, ReadyAnswer
from companion.talk.saying import Ask, Say


class IsAnyOfItClear(Ask[ClearSkyAnswer]): ...


class WhichPartIsClear(Ask[ClearSkyAnswer]): ...


class NothingGoodThere(Say): ...


class WaitForTheSky(Ask[ReadyAnswer]): ...
